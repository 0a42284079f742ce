"""The vent controller moves from the small chip to the large one by the list, item by item.

What each list must hold was worked out by hand from the two descriptions: for each register and
field that the program uses, what stands in one and what in the other. Sources of what the programs
do: gcc, which compiles them and whose preprocessor tells which names a header defines.
"""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest

from conftest import DESCRIPTIONS, ROOT, Cli

DEMO = Path(__file__).parent / "demo"
BEFORE = ROOT / "tests" / "audit" / "demo"
SORREL14, SORREL40 = DESCRIPTIONS / "sorrel14.xml", DESCRIPTIONS / "sorrel40.json"
HEADERS = ROOT / "out"

#: Data addresses in the two descriptions of all that the program uses.
ADDRESSES = {
    "WATCHDOG": "0x24 → 0x9F",
    "TMR0_CTRL": "0x2A → 0x42",
    "TMR0_COMPARE": "0x2C → 0x44",
    "TMR_FLAGS": "0x2E → 0x3A",
    "DIR_B": "0x37 → 0x2F",
    "OUT_B": "0x38 → 0x30",
    "IN_B": "0x39 → 0x31",
    "ADC_CTRL": "0x55 → 0x9B",
    "ADC_MUX": "0x56 → 0x9C",
}
#: Bits of the fields that the program uses and that stand elsewhere on the large chip.
BITS = {
    "TMR0_CTRL.CLOCK": "bits 6:4 → bits 7:5",
    "TMR_FLAGS.MATCH": "bit 4 → bit 2",
    "OUT_B.VENT_OPEN": "bit 0 → bit 4",
    "OUT_B.VENT_CLOSE": "bit 1 → bit 5",
    "OUT_B.LED": "bit 2 → bit 7",
    "OUT_B.PULLS": "bits 5:3 → bits 3:0",
    "ADC_CTRL.DONE": "bit 3 → bit 4",
    "ADC_MUX.CHANNEL": "bits 5,2:0 → bits 6:2",
    "ADC_MUX.REFERENCE": "bits 7:6 → bits 1:0",
}
#: What no header and no compiler can tell, whoever writes the numbers.
FLAG = ("WATCHDOG.FLAG", "a write acts differently: zeroToClear → oneToClear")
#: What every program must see to; the CPU of both runs at 1 MHz as they are delivered: 8 MHz over 8
#: and 16 MHz over 16. Of the FLASH and the EEPROM the large chip has more, in larger pages. Where
#: both work, 1.8 V to 3.6 V, it may run faster: at 2.5 V at 16.5 MHz, where the small one may at 9.
#: Timer 0, the one rate that both have, counts alike.
WHOLE = {
    (
        "configuration",
        "its bytes mean something else; other bits or choices for clock-divider, clock-source, "
        "start-up-delay, supply-watch; sorrel40 has no reset-pin, serial-programming, "
        "eeprom-in-erase, supply-watch-level, memory-lock",
    ),
    ("supply", "sorrel40 works at 1.8 V to 3.6 V, sorrel14 at 1.7 V to 5.5 V"),
    (
        "vectors",
        "other numbers: TMR0_MATCH 1 → 4, TMR0_OVERFLOW 2 → 5, NVM_READY 3 → 7, ADC_DONE 4 → 6; "
        "the table is now 2 units each, program from 0x00 on; was 1 unit each, program from 0x00 "
        "on",
    ),
    (
        "memory SRAM",
        "data 0x60 → data 0x140; 0x100 units (256 bytes) → 0x500 units (1280 bytes)",
    ),
    (
        "pins",
        "at other pins: VENT_OPEN B.0 → B.4, VENT_CLOSE B.1 → B.5, LED B.2 → B.7, TMR0_PIN B.5 → "
        "C.5; sorrel40 has no SER_CLOCK, SER_OUT, SER_IN; there is no DUAL20 but QUAD32",
    ),
    (
        "hazard no-debug-port",
        "new on sorrel40: locks-out: debugger and programmer in the circuit cannot reach the chip "
        "any more; only the start program over UART0 can",
    ),
    (
        "hazard no-start-program",
        "new on sorrel40: locks-out: nothing is left by which the chip could be programmed in the "
        "circuit",
    ),
    ("clock source crystal", "takes 400 kHz to 18 MHz → 1 MHz to 24 MHz"),
    (
        "memory FLASH",
        "written at once 0x10 units (32 bytes) → 0x40 units (128 bytes); erased at once 0x40 units "
        "(128 bytes) → 0x100 units (512 bytes)",
    ),
    (
        "memory EEPROM",
        "written at once 0x4 units (4 bytes) → 0x8 units (8 bytes); erased at once 0x4 units "
        "(4 bytes) → 0x8 units (8 bytes)",
    ),
    ("programmer", "signature 0x5A 0x14 0x01 → 0x5A 0x40 0x02; programmer's name s14 → s40"),
    ("compiler", "compiler's name sorrel14 → sorrel40; instruction set sorrel8 → sorrel8x"),
}


@pytest.fixture
def by_hand(tmp_path: Path) -> Path:
    """Return the program with its own definitions, the two wrong ones of them repaired."""
    folder = shutil.copytree(BEFORE, tmp_path / "by_hand")
    pins = (folder / "pins.h").read_text()
    for name, wrong, right in (("OUT_B", "0x18", "0x38"), ("TMR0_CTRL", "0x0A", "0x2A")):
        assert f"#define {name} REG8({wrong})" in pins
        pins = pins.replace(f"#define {name} REG8({wrong})", f"#define {name} REG8({right})")
    (folder / "pins.h").write_text(pins)
    return folder


def listed(cli: Cli, *sources: Path) -> dict[str, Any]:
    """Return the list for the sources, as JSON has it."""
    wanted = [part for source in sources for part in ("--source", source)]
    done = cli("compare", SORREL14, SORREL40, *wanted, "--report", "json")
    assert (done.returncode, done.stderr) == (1, "")
    found: dict[str, Any] = json.loads(done.stdout)["porting"]
    return found


def of_danger(found: dict[str, Any], danger: str) -> set[tuple[str, str]]:
    items = [(item["thing"], item["message"]) for item in found["work"] if item["danger"] == danger]
    assert len(items) == len(set(items))
    return set(items)


def lines(found: dict[str, Any], thing: str, start: str) -> list[tuple[str, str]]:
    """Return the text of each line that the item of ``thing`` sends to, with its file."""
    items = [
        item
        for item in found["work"]
        if item["thing"] == thing and item["message"].startswith(start)
    ]
    assert len(items) == 1
    places = {(place["file"], place["line"]): None for place in items[0]["places"]}
    return [
        (Path(file).name, Path(file).read_text().splitlines()[line - 1].strip())
        for file, line in places
    ]


def gcc(source: Path, *flags: str) -> subprocess.CompletedProcess[str]:
    strict = ["-std=c99", "-Wall", "-Wextra", "-Werror", f"-I{HEADERS}"]
    return subprocess.run(
        ["gcc", *strict, *flags, str(source)], capture_output=True, text=True, check=False
    )


def macros_of(header: str) -> set[str]:
    """Return the names that a header defines, by gcc's preprocessor."""

    def defined(*flags: str) -> set[str]:
        done = subprocess.run(
            ["gcc", "-E", "-dM", *flags, "-x", "c", "-"],
            input="#include <stdint.h>\n",
            capture_output=True,
            text=True,
            check=True,
        )
        return set(re.findall(r"^#define (\w+)", done.stdout, re.MULTILINE))

    return defined("-include", str(HEADERS / header)) - defined()


def test_with_numbers_of_its_own_all_is_silent_and_wrong(by_hand: Path, cli: Cli) -> None:
    found = listed(cli, by_hand)
    addresses = {**ADDRESSES, "ADC_RESULT_L": "0x57 → 0x9D", "ADC_RESULT_H": "0x58 → 0x9E"}
    reserved = {  # on the large chip, and were bits of a field on the small one
        ("TMR0_CTRL", "bits reserved now: 0x10: write 0"),  # 4:0 now, 7 and 3:0 before
        ("TMR_FLAGS", "bits reserved now: 0x18: write 0"),  # 4:3 and 0 now, 7:5 and 2:0 before
        ("ADC_MUX", "bits reserved now: 0x80: write 0"),  # 7 now, 4:3 before
    }
    widths = {  # the old bits stay where they are, others come with them
        ("WATCHDOG.PERIOD", "3 bits → 4 bits wide"),
        ("DIR_B.PINS", "6 bits → 8 bits wide"),
    }
    moved = {(name, f"data address {was}") for name, was in addresses.items()}
    assert of_danger(found, "wrong") == {*moved, *BITS.items(), *reserved, *widths, FLAG}
    assert of_danger(found, "whole") == WHOLE
    assert of_danger(found, "missing") == set()  # it has no name of the header to miss
    assert of_danger(found, "moved") == set()
    assert found["withoutCounterpart"] == []
    assert found["registersUsed"] == len(addresses)


def test_list_sends_first_to_where_the_number_is_written(by_hand: Path, cli: Cli) -> None:
    found = listed(cli, by_hand)
    assert lines(found, "WATCHDOG", "data") == [
        ("pins.h", "#define WATCHDOG REG8(0x24)"),
        ("vents.c", "WATCHDOG = 0x09;"),
        ("vents.c", "WATCHDOG = 0x6A;"),
    ]
    assert lines(found, "OUT_B.VENT_OPEN", "bit")[0] == ("pins.h", "#define OPENING 0")
    assert lines(found, "TMR0_CTRL.CLOCK", "bits") == [
        ("vents.c", "TMR0_CTRL = 0x50; /* clock divided by 256 */")
    ]
    assert lines(found, "ADC_MUX.REFERENCE", "bits")[0][1].startswith("#define THERMISTOR")
    assert lines(found, "TMR_FLAGS", "bits reserved") == [("vents.c", "TMR_FLAGS = TICK;")]


def test_with_the_header_little_is_left_to_think_about(cli: Cli) -> None:
    found = listed(cli, DEMO / "vents14.c")
    include = ("sorrel14.h", "the header of sorrel14 is included, with all its numbers")
    # The pull-ups are the one thing that it gives by numbers: those of its switches.
    assert of_danger(found, "wrong") == {
        include,
        FLAG,
        ("OUT_B.PULLS", BITS["OUT_B.PULLS"]),
    }
    assert of_danger(found, "whole") == WHOLE
    assert of_danger(found, "missing") == set()
    addresses = {**ADDRESSES, "ADC_RESULT": "0x57 → 0x9D"}
    wider = {"WATCHDOG.PERIOD": "bits 7:5 → bits 2,7:5", "DIR_B.PINS": "bits 5:0 → bits 7:0"}
    fields = {name: was for name, was in BITS.items() if name != "OUT_B.PULLS"}
    moved = {(name, f"data address {was}") for name, was in addresses.items()}
    assert of_danger(found, "moved") == {*moved, *fields.items(), *wider.items()}
    assert found["work"][0]["thing"] == "sorrel14.h"


def test_nothing_is_missing_so_it_compiles_before_the_move(tmp_path: Path) -> None:
    """The include alone is changed; what is wrong then is what the list calls so.

    ``OUT_B = 0x30`` was for the pull-ups of pins 5 and 4; those bits are VENT_CLOSE and VENT_OPEN
    on the large chip, by its description: the motor would run both ways at once.
    """
    text = (DEMO / "vents14.c").read_text().replace("sorrel14.h", "sorrel40.h")
    source = tmp_path / "vents.c"
    source.write_text(text)
    done = gcc(source, "-c", "-o", str(tmp_path / "vents.o"))
    assert done.returncode == 0, done.stderr
    source.write_text(
        text.replace("int main(void)", "int program(void)")
        + '_Static_assert(((1u << END_OPEN) | (1u << END_SHUT)) == MOTOR, "both ways");\n'
    )
    done = gcc(source, "-c", "-o", str(tmp_path / "vents.o"))
    assert done.returncode == 0, done.stderr


def test_moved_by_hand_it_compiles_and_audits_clean(tmp_path: Path, cli: Cli) -> None:
    done = gcc(DEMO / "vents40.c", "-c", "-o", str(tmp_path / "vents.o"))
    assert (done.returncode, done.stderr) == (0, "")
    for chip, name in ((SORREL14, "vents14.c"), (SORREL40, "vents40.c")):
        audit = cli("audit", chip, DEMO / name)
        assert (audit.returncode, audit.stderr) == (0, ""), audit.stdout


def test_only_what_no_source_shows_is_left_after_the_move(cli: Cli) -> None:
    """The list is for programs for the small chip; held against it the moved one has done it all.

    It includes the other header, gives the pull-ups by PULLS, which the list says to do, and
    writes nothing but 0 to FLAG, so that nothing is said of these. Memory, configuration, vectors
    and pins are the linker's, the programmer's and the board's; no source can show that it was
    done.
    """
    found = listed(cli, DEMO / "vents40.c")
    assert of_danger(found, "whole") == WHOLE
    assert of_danger(found, "wrong") == set()
    assert of_danger(found, "missing") == set()


def test_each_name_that_the_other_header_lacks_is_missing(tmp_path: Path, cli: Cli) -> None:
    """A source mentions every name of the small chip's header; gcc tells which the other has."""
    old, new = macros_of("sorrel14.h"), macros_of("sorrel40.h")
    # The guard and the mark of the chip are no names to write.
    old -= {"SORREL14_H", "REGWRIGHT_CHIP_SORREL14"}
    source = tmp_path / "names.c"
    names = sorted(old)
    text = "".join(f"#define USE_{number} {name}\n" for number, name in enumerate(names))
    source.write_text(text)
    found = listed(cli, source)
    missing = {
        names[place["line"] - 1]
        for item in found["work"]
        if item["danger"] == "missing"
        for place in item["places"]
    }
    assert missing == old - new
    assert "WATCHDOG_IO_ADDR" in missing  # it left the I/O space
    # Every register and field of the small chip is on the large one, but no name of it is lost.
    assert found["withoutCounterpart"] == []
