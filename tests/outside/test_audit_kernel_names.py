"""Drivers with the kernel's names against two descriptions, and every bit of those names flipped.

Sources: ``linux/serial_reg.h`` and ``linux/mii.h``, the C library's copies of the kernel's headers,
as they are installed; they are read where they are, nothing of them is kept here. The drivers in
``drivers/`` were written for this test.
"""

from __future__ import annotations

import re
import subprocess
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest
from outside_tools import ROOT

from regwright.audit.audit import Audited, audit
from regwright.code.text import C, CodeText
from regwright.pipeline import check
from regwright.read.source import Source, spelling_of
from regwright.rules.catalogue import Subject

DRIVERS = Path(__file__).parent / "drivers"
INCLUDE = Path("/usr/include")


class Device(NamedTuple):
    """A description, the header whose names it knows, drivers, and how wide its registers are.

    ``flips`` is how many bits are flipped in all. ``right`` are the names whose number is right
    for the same name with its lowest bit flipped.
    """

    description: str
    header: str
    drivers: tuple[str, ...]
    width: int
    flips: int
    right: frozenset[str]


#: A flag at bit 0 has the mask 1 and the position 0. The description does not tell which of the two
#: a name stands for, so that 1 with its lowest bit flipped is right as well.
UART = Device(
    "uart16550.xml",
    "linux/serial_reg.h",
    ("serial_polled.c", "serial_interrupts.c"),
    8,
    8 * 67,
    frozenset(
        {
            "UART_IER_RDI",
            "UART_IIR_NO_INT",
            "UART_FCR_ENABLE_FIFO",
            "UART_MCR_DTR",
            "UART_LSR_DR",
            "UART_MSR_DCTS",
        }
    ),
)
PHY = Device(
    "ethernet_phy.json",
    "linux/mii.h",
    ("phy_link.c", "phy_pages.c"),
    16,
    16 * 85,
    frozenset({"BMSR_ERCAP", "EXPANSION_NWAY"}),
)
DEVICES = pytest.mark.parametrize("device", [UART, PHY], ids=["uart", "phy"])


@cache
def described(name: str) -> Subject:
    data = (ROOT / "descriptions" / name).read_bytes()
    subject = check(Source(name, data, spelling_of(name, data))).subject
    assert subject is not None
    return subject


def audited(device: Device, *texts: CodeText) -> Audited:
    chip = described(device.description)
    return audit(chip.resolved, chip.macros, texts)


def messages(done: Audited) -> list[str]:
    files = done.subject.files
    return [
        f"{files[item.at.file].name}:{files[item.at.file].line(item.at.start)}: {item.message}"
        for item in done.findings
    ]


def drivers(device: Device) -> list[CodeText]:
    return [CodeText(name, (DRIVERS / name).read_bytes(), C) for name in device.drivers]


def header(device: Device) -> CodeText:
    return CodeText(device.header, (INCLUDE / device.header).read_bytes(), C)


def aliases(device: Device) -> set[str]:
    text = (ROOT / "descriptions" / device.description).read_text(encoding="utf-8")
    found = re.findall(r'aliases"?[:=]\s*"([^"]*)"', text)
    return {name for names in found for name in names.split()}


class Constant(NamedTuple):
    """A name that the header gives to a number, and where the number stands."""

    name: str
    value: int
    start: int
    end: int


def constants(device: Device) -> list[Constant]:
    """Return every constant of the header that the description has as an alias."""
    wanted = aliases(device)
    text = header(device).data.decode("ascii")
    found = re.finditer(r"^#\s*define\s+(\w+)\s+(0[xX][0-9A-Fa-f]+|[0-9]+)\b", text, re.MULTILINE)
    return [
        Constant(match[1], int(match[2], 0), *match.span(2))
        for match in found
        if match[1] in wanted
    ]


@DEVICES
def test_drivers_are_c(device: Device, tmp_path: Path) -> None:
    # The kernel's own header of PHYs is not part of the C library.
    (tmp_path / "linux").mkdir()
    (tmp_path / "linux" / "phy.h").write_text(
        "#include <stdint.h>\ntypedef uint32_t u32;\ntypedef uint16_t u16;\nstruct phy_device;\n"
        "int phy_read(struct phy_device *phydev, u32 number);\n"
        "int phy_write(struct phy_device *phydev, u32 number, u16 value);\n"
    )
    for name in device.drivers:
        flags = ["-std=gnu11", "-Wall", "-Wextra", "-Werror", "-O1", f"-I{tmp_path}"]
        done = subprocess.run(
            ["gcc", *flags, "-c", DRIVERS / name, "-o", tmp_path / "driver.o"],
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr


@DEVICES
def test_drivers_alone(device: Device) -> None:
    assert messages(audited(device, *drivers(device))) == []


@DEVICES
def test_drivers_with_the_header(device: Device) -> None:
    assert messages(audited(device, *drivers(device), header(device))) == []


@DEVICES
def test_drivers_use_most_registers(device: Device) -> None:
    # A check of the two above: what they say nothing of must have been looked at.
    done = audited(device, *drivers(device))
    registers = described(device.description).resolved.registers
    used = {
        placed.name
        for use in done.subject.uses
        for name in use.instruction.operands[use.described.address - 1].names
        for match in done.subject.names.find(name)
        if (placed := match.placed)
    }
    assert len(used) >= len(registers) - 1, {item.name for item in registers} - used


def flips(device: Device) -> Iterator[tuple[Constant, int]]:
    for constant in constants(device):
        for bit in range(device.width):
            yield constant, bit


@DEVICES
def test_every_flipped_bit_is_found(device: Device) -> None:
    """530 of 536 in one header and 1358 of 1360 in the other; what is not found is right as well.

    The header stands alone here: with the drivers a finding could be about how they use the name.
    """
    assert {item.name for item in constants(device)} == aliases(device)
    assert len(list(flips(device))) == device.flips
    original = header(device)
    silent = set()
    for constant, bit in flips(device):
        number = f"{constant.value ^ 1 << bit:#x}".encode()
        data = original.data[: constant.start] + number + original.data[constant.end :]
        text = CodeText(original.name, data, C)
        lines = {text.line(item.at.start) for item in audited(device, text).findings}
        if text.line(constant.start) not in lines:
            silent.add((constant.name, bit))
    assert silent == {(name, 0) for name in device.right}
