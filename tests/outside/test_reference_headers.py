"""Two descriptions of real devices, against the C library's copies of the kernel's headers.

Sources: ``linux/serial_reg.h`` for the 16550 and ``linux/mii.h`` for IEEE 802.3 clause 22, as
installed with the C library. Whoever wrote those two never saw this project.
"""

from __future__ import annotations

import copy
import re
from typing import Any, NamedTuple

import pytest
import reference_phy
import reference_uart
from implied_macros import load
from outside_tools import ROOT, emitted, in_parallel, macros_of


class Reference(NamedTuple):
    """A header of the C library, and the description that says the same."""

    header: str
    starts: tuple[str, ...]
    description: str
    table: Any


PHY_STARTS = (
    "MII_",
    "BMCR_",
    "BMSR_",
    "ADVERTISE_",
    "LPA_",
    "EXPANSION_",
    "ESTATUS_",
    "CTL1000_",
)
REFERENCES = {
    "uart": Reference("linux/serial_reg.h", ("UART_",), "uart16550.xml", reference_uart),
    "phy": Reference("linux/mii.h", PHY_STARTS, "ethernet_phy.json", reference_phy),
}


@pytest.fixture(params=list(REFERENCES))
def reference(request) -> Reference:
    return REFERENCES[request.param]


def assertions(reference: Reference, ours: str) -> str:
    """Return C that holds when every number of the table is the same on both sides."""
    # the names of the two may meet (ADVERTISE_FULL is close to one of ours): the reference's
    # numbers are taken into constants first
    lines = [f"#include <{reference.header}>", "enum reference {"]
    pairs = []
    for index, (theirs, same) in enumerate(reference.table.SAME.items()):
        if theirs.endswith("(x)"):
            for x in (0x00, 0x40, 0x80, 0xC0, 0x3F, 0xFF):
                lines.append(f"ref{index}_{x} = {theirs.replace('(x)', f'({x})')},")
                pairs.append((f"ref{index}_{x}", same.replace("(x)", f"({x}U)"), theirs))
        else:
            lines.append(f"ref{index} = {theirs},")
            pairs.append((f"ref{index}", same, theirs))
    lines += ["reference_end };", f'#include "{ours}.h"']
    lines += [f'_Static_assert({ref} == ({same}), "{theirs}");' for ref, same, theirs in pairs]
    return "\n".join(lines) + "\n"


def covered_by(pattern: str, name: str) -> bool:
    return name.startswith(pattern[:-1]) if pattern.endswith("*") else name == pattern


def test_every_number_of_the_reference_is_ours(reference, compile_c, tmp_path):
    item = emitted(ROOT / "descriptions" / reference.description)
    item.write(tmp_path)
    # system types of the reference are not compared: its enumerators are signed, ours unsigned
    process = compile_c(assertions(reference, item.name), "-Wno-sign-compare")
    assert process.returncode == 0, process.stderr


def test_every_macro_of_the_reference_is_compared_or_named_with_a_reason(reference, tmp_path):
    found = macros_of(f"#include <{reference.header}>", folder=tmp_path)
    # some have no number: the header's own guard is not among these names
    names = {name for name in found if name.startswith(reference.starts)}
    patterns = [item for items in reference.table.NOT_COVERED.values() for item in items]
    left = {name for name in names if not any(covered_by(item, name) for item in patterns)}
    assert left == set(reference.table.SAME)
    for pattern in patterns:
        assert any(covered_by(pattern, name) for name in names), f"{pattern} is not there"
        assert not any(covered_by(pattern, name) for name in reference.table.SAME), pattern


def test_every_register_and_field_of_ours_is_compared(reference):
    item = emitted(ROOT / "descriptions" / reference.description)
    stems = re.findall(r"^#define (\w+)_MASK ", item.header, re.MULTILINE)
    addresses = re.findall(r"^#define (\w+_ADDR) ", item.header, re.MULTILINE)
    used = " ".join(reference.table.SAME.values())
    alone = {name for names in reference.table.OURS_ALONE.values() for name in names}
    missing = {stem for stem in stems if not re.search(rf"\b{stem}_\w+", used)}
    assert missing == alone
    assert not [name for name in addresses if not re.search(rf"\b{name}\b", used)]


def test_speed_is_one_field_in_two_places_and_the_control_register_is_complete(compile_c, tmp_path):
    # linux/mii.h: BMCR_SPEED100 is 0x2000, BMCR_SPEED1000 is 0x0040; ours is one split field
    item = emitted(ROOT / "descriptions" / "ethernet_phy.json")
    item.write(tmp_path)
    fields = re.findall(r"^#define (CTRL_[A-Z_]+_MASK) ", item.header, re.MULTILINE)
    source = f"""#include <linux/mii.h>
enum {{ reserved = BMCR_RESV, speed = BMCR_SPEED100 | BMCR_SPEED1000 }};
enum {{ all = BMCR_RESV | BMCR_SPEED1000 | BMCR_CTST | BMCR_FULLDPLX | BMCR_ANRESTART | BMCR_ISOLATE
    | BMCR_PDOWN | BMCR_ANENABLE | BMCR_SPEED100 | BMCR_LOOPBACK | BMCR_RESET }};
#include "ethernet_phy.h"
_Static_assert(all == 0xFFFF, "the reference's own masks");
_Static_assert(({" | ".join(fields)} | (unsigned)reserved) == 0xFFFFU, "our masks");
_Static_assert(({" + ".join(fields)} + (unsigned)reserved) == 0xFFFFU, "no bit twice");
_Static_assert(CTRL_SPEED_MASK == (0x2000U | 0x0040U) && CTRL_SPEED_MASK == speed, "speed");
_Static_assert(CTRL_SPEED_INSERT(0U, 2U) == 0x0040U && CTRL_SPEED_EXTRACT(0x2000U) == 1U, "order");
"""
    assert len(fields) == 9
    process = compile_c(source, "-Wno-sign-compare")
    assert process.returncode == 0, process.stderr


def mutations(chip: dict[str, Any]) -> list[tuple[str, dict[str, Any]]]:
    """Return the description with one address or one bit changed, once for each of them."""
    found = []
    for place, register in enumerate(chip["registers"]):
        changed = copy.deepcopy(chip)
        at = int(str(register["address"]), 0)
        changed["registers"][place]["address"] = hex(at ^ 1)
        found.append((register["name"], changed))
        for index, field in enumerate(register.get("fields", [])):
            changed = copy.deepcopy(chip)
            high = re.match(r"\d+", str(field["bits"]))[0]
            bits = str(int(high) ^ 1) + str(field["bits"])[len(high) :]
            if ":" in bits and int(high) & 1 == 0:
                # one bit more is one bit wrong, and keeps the higher bit first
                bits = str(int(high) + 1) + str(field["bits"])[len(high) :]
            changed["registers"][place]["fields"][index]["bits"] = bits
            found.append((f"{register['name']}.{field['name']}", changed))
        if "flags" in register:
            changed = copy.deepcopy(chip)
            first, second, *rest = register["flags"].split()
            changed["registers"][place]["flags"] = " ".join([second, first, *rest])
            found.append((f"{register['name']} flags", changed))
    return found


def normal(chip: dict[str, Any]) -> dict[str, Any]:
    """Return a description read from XML with the JSON types that the reader wants."""
    whole = {"width", "unit", "page", "format", "scale", "plus", "divide", "multiply"}

    def fix(node: Any, key: str = "") -> Any:
        if isinstance(node, dict):
            return {name: fix(value, name) for name, value in node.items()}
        if isinstance(node, list):
            return [fix(value) for value in node]
        if node in ("true", "false"):
            return node == "true"
        return int(node) if key in whole else node

    return fix(chip)


def test_a_description_that_is_wrong_by_one_bit_or_address_does_not_compile(
    reference, compile_c, tmp_path
):
    chip = normal(load(ROOT / "descriptions" / reference.description))
    alone = {name for names in reference.table.OURS_ALONE.values() for name in names}
    jobs = []
    for index, (what, changed) in enumerate(mutations(chip)):
        name = f"wrong{index}"
        item = emitted({**changed, "name": name}, with_errors=True)
        item.write(tmp_path)
        if what.replace(".", "_") not in alone:
            jobs.append((what, name))
    assert len(jobs) >= 45

    def build(job: tuple[str, str]) -> Any:
        source = assertions(reference, job[1])
        return compile_c(source, "-Wno-sign-compare", "-fsyntax-only", name=job[1])

    for (what, _), process in zip(jobs, in_parallel(build, jobs), strict=True):
        assert "static assertion failed" in process.stderr, what
