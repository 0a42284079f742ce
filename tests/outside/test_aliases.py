"""The aliases of two descriptions, against the C library's copies of the kernel's headers.

Sources: ``linux/serial_reg.h`` for the 16550 and ``linux/mii.h`` for IEEE 802.3 clause 22, as
installed with the C library. The numbers come from the description's own text by means that are
no part of the program; the compiler holds them against the headers.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from types import ModuleType
from typing import NamedTuple

import pytest
import reference_phy
import reference_uart
from implied_macros import Node, bits_of, load, moved, number
from outside_tools import ROOT


class Known(NamedTuple):
    """A description, the header whose names it knows, and what of that is no alias."""

    description: str
    header: str
    reference: ModuleType
    not_aliases: set[str]


UART = Known(
    "uart16550.xml",
    "linux/serial_reg.h",
    reference_uart,
    {
        # masks of several fields
        "UART_LSR_BRK_ERROR_BITS",
        "UART_MSR_ANY_DELTA",
        # a position, and a function of it
        "UART_FCR_R_TRIG_SHIFT",
        "UART_FCR_R_TRIG_BITS(x)",
    },
)
PHY = Known(
    "ethernet_phy.json",
    "linux/mii.h",
    reference_phy,
    {
        # masks of several fields
        "ADVERTISE_FULL",
        "ADVERTISE_ALL",
        "LPA_DUPLEX",
        "LPA_100",
        # reserved bits have no name of ours
        "BMCR_RESV",
        "BMSR_RESV",
        "ADVERTISE_RESV",
        "LPA_RESV",
        "EXPANSION_RESV",
    },
)


def aliases(chip: Node) -> Iterator[tuple[str, int]]:
    """Yield each alias of a description of registers without blocks, and the number it means."""
    for register in chip["registers"]:
        for alias in register.get("aliases", "").split():
            yield alias, number(register["address"])
        for field in register.get("fields", []):
            places = bits_of(field["bits"])
            for alias in field.get("aliases", "").split():
                yield alias, moved(places, (1 << len(places)) - 1)
            for value in field.get("values", []):
                for alias in value.get("aliases", "").split():
                    yield alias, moved(places, number(value["value"]))


@pytest.fixture(params=[UART, PHY], ids=["uart", "phy"])
def known(request: pytest.FixtureRequest) -> Known:
    found: Known = request.param
    return found


def test_every_alias_is_the_number_of_the_header(known: Known, compile_c) -> None:
    found = list(aliases(load(ROOT / "descriptions" / known.description)))
    lines = [f"#include <{known.header}>"]
    lines += [f'_Static_assert({name} == {value}, "{name}");' for name, value in found]
    process = compile_c("\n".join(lines) + "\n")
    assert process.returncode == 0, process.stderr


def test_an_alias_at_another_bit_is_refused_by_the_compiler(known: Known, compile_c) -> None:
    found = list(aliases(load(ROOT / "descriptions" / known.description)))
    lines = [f"#include <{known.header}>"]
    lines += [f'_Static_assert({name} == {value ^ 1}, "{name}");' for name, value in found]
    process = compile_c("\n".join(lines) + "\n", "-fmax-errors=0")
    refused = re.findall(r'static assertion failed: "(\w+)"', process.stderr)
    assert refused == [name for name, _ in found]


def test_every_name_of_the_header_that_is_one_thing_of_ours_is_an_alias(known: Known) -> None:
    names = [name for name, _ in aliases(load(ROOT / "descriptions" / known.description))]
    assert sorted(names) == sorted(set(known.reference.SAME) - known.not_aliases)


def test_the_functions_of_the_c_library_take_the_port_where_the_description_says(
    compile_c,
) -> None:
    # sys/io.h of the C library: inb(port) and outb(value, port); a pointer in the port's place
    # is refused, whatever the value's place would take
    chip = load(ROOT / "descriptions" / "uart16550.xml")
    places = {item["names"]: item["address"] for item in chip["instructions"]}
    assert set(places) == {"inb", "outb"}
    counts = {"inb": 1, "outb": 2}
    for name, place in places.items():
        declared = ["unsigned short" if at == place else "unsigned char" for at in (1, 2)]
        parameters = ", ".join(declared[: counts[name]])
        result = "unsigned char" if name == "inb" else "void"
        source = f"#include <sys/io.h>\n{result} (*check)({parameters}) = {name};\n"
        process = compile_c(source, name=name)
        assert process.returncode == 0, process.stderr
