"""What the report and the drawings show of a chip besides its registers.

The facts are those of ``descriptions/sorrel14.xml`` and ``sorrel40.json``, read by hand.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import pytest
from fragment_runs import ROOT, checked, emitted

from regwright.pins.text import drawing

DESCRIPTIONS = ROOT / "descriptions"


@pytest.fixture(scope="module")
def report() -> str:
    return emitted(DESCRIPTIONS / "sorrel14.xml")["sorrel14.report.md"]


def section(report: str, heading: str) -> str:
    """Return what stands under ``heading``."""
    return report.partition(f"\n## {heading}\n")[2].partition("\n## ")[0]


def rows(text: str) -> list[list[str]]:
    """Return the cells of each row of a table, without its head."""
    lines = [line for line in text.splitlines() if line.startswith("|")]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines[2:]]


def test_the_sections_and_their_order(report: str) -> None:
    assert re.findall(r"^## (.*)$", report, re.MULTILINE) == [
        *("Address spaces", "Registers", "Memories", "Interrupt vectors", "Configuration"),
        *(f"Configuration word `{name}`" for name in ("low", "high", "lock")),
        *("Clock", "Identity", "Names for tools", "Package `DUAL20`", "Findings"),
    ]
    plain = emitted(DESCRIPTIONS / "ethernet_phy.json")["ethernet_phy.report.md"]
    assert re.findall(r"^## (.*)$", plain, re.MULTILINE) == [
        *("Address spaces", "Registers", "Findings")
    ]


def test_memories(report: str) -> None:
    flash, sram, *_ = rows(section(report, "Memories"))
    assert flash == [
        *("`FLASH`", "flash", "`program`", "0x00", "0x3FF", "0x400, 2048 bytes", "0x10", "0x40"),
        *("6", "program memory"),
    ]
    assert sram[:6] == ["`SRAM`", "ram", "`data`", "0x60", "0x15F", "0x100, 256 bytes"]


def test_vectors(report: str) -> None:
    found = rows(section(report, "Interrupt vectors"))
    assert len(found) == 5
    assert found[4] == ["4", "`ADC_DONE`", "`0x04`", "8", "a conversion has ended"]
    wide = emitted(DESCRIPTIONS / "sorrel40.json")["sorrel40.report.md"]
    assert rows(section(wide, "Interrupt vectors"))[11][:3] == ["11", "`UART1_EMPTY`", "`0x16`"]


def test_configuration(report: str) -> None:
    hazards = section(report, "Configuration")
    assert "As delivered: `low` 0x62, `high` 0xBB, `lock` 0xFF." in hazards
    assert "**Caution**: `serial-programming = off` can keep the programmer" in hazards
    both = "`supply-watch = on and supply-watch-level = above-4v0` needs hardware"
    assert both in hazards
    words = rows(section(report, "Configuration word `low`"))
    # 0x62 is 0b0110_0010: divided, 6 of the source, no delay of 60 ms, the watch on
    assert [row[:3] for row in words] == [
        ["`clock-divider`", "7", "`divide-by-8`"],
        ["`clock-source`", "6:4", "`internal-8mhz`"],
        ["`start-up-delay`", "3:2", "`wait-60ms`"],
        ["`supply-watch`", "0", "`on`"],
    ]


def test_clock_identity_and_names(report: str) -> None:
    clock = section(report, "Clock")
    assert "As delivered, the CPU has **1 MHz (900 kHz to 1.1 MHz)**" in clock
    assert "`CPU_CLOCK_HZ`" in clock
    assert len(rows(clock)) == 5
    assert "Signature: `0x5A 0x14 0x01`" in section(report, "Identity")
    assert "Part name of the programmer: `s14`" in section(report, "Names for tools")


@pytest.mark.parametrize("name", ["sorrel14.xml", "sorrel40.json"])
def test_each_package_has_its_drawing_and_a_row_for_each_pin(name: str) -> None:
    files, found = emitted(DESCRIPTIONS / name), checked(DESCRIPTIONS / name)
    assert found.resolved
    chip = found.resolved.chip
    (package,) = chip.packages
    shown = section(files[f"{chip.name}.report.md"], f"Package `{package.name}`")
    fence = re.search(r"```text\n(.*?)\n```", shown, re.DOTALL)
    assert fence
    assert fence[1].splitlines() == [line.rstrip() for line in drawing(package)]
    (svg,) = (file for file in files if file.endswith(".svg"))
    assert f"]({svg})" in shown
    table = rows(shown)
    assert [row[0] for row in table] == [pin.number for pin in package.pins]
    texts = [element.text or "" for element in ET.fromstring(files[svg]).iter()]
    for pin in package.pins:
        assert any(pin.name in text for text in texts)


def test_a_pin_shows_its_port_bit_its_registers_and_functions(report: str) -> None:
    table = rows(section(report, "Package `DUAL20`"))
    assert table[3][:6] == [
        *("4", "`B2`", "io", "`B.2`", "`DIR_B.2`, `OUT_B.LED`, `IN_B.2`", "`LED`"),
    ]
    assert table[16][5] == "`ADC3`, `SER_CLOCK`"
    assert table[4][:6] == ["5", "`GND`", "ground", "", "", ""]
