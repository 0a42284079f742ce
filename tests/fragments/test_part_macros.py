"""The macros of what is no register: how they are named, what is left out, who else knows them.

``tests/outside`` holds the numbers of every shipped description against an independent reading.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from fragment_runs import ROOT, checked, emitted, run, write

from regwright.audit.audit import audit
from regwright.code.text import C, CodeText
from regwright.compare.header_names import part_names
from regwright.compare.releases import Version, changes_told
from regwright.macros.parts import word_of

SPACES = [{"name": "data", "size": "0x200"}]


def header(**more: Any) -> str:
    return emitted({"name": "part", "spaces": SPACES, **more})["part.h"]


def test_words_of_names() -> None:
    assert word_of("SRAM 0") == word_of("SRAM-0") == word_of("~SRAM/0+") == "SRAM_0"
    assert word_of("a__b") == "a_b"
    assert word_of("€") == "U20AC"
    assert word_of("++") == "U002B_U002B"


def test_a_device_puts_its_own_name_first() -> None:
    identity = {"signature": "0x01 0x02"}
    assert "#define PART_IDENTITY_BYTE1 0x02U\n" in header(kind="device", identity=identity)
    assert "#define IDENTITY_BYTE1 0x02U\n" in header(identity=identity)
    own = header(kind="device", identity=identity, prefix="EE_")
    assert "#define EE_IDENTITY_BYTE1 0x02U\n" in own


def test_a_device_has_nothing_for_a_build() -> None:
    memories = [{"name": "CELLS", "kind": "eeprom", "space": "data", "first": 0, "size": "0x200"}]
    chip = {"name": "part", "kind": "device", "spaces": SPACES, "memories": memories}
    assert set(emitted(chip)) == {"part.h", "part_check.c", "part.report.md"}


def pins(*given: tuple[str, str, str, str]) -> dict[str, Any]:
    made = []
    for number, name, port, functions in given:
        pin = {"number": number, "name": name, "port": port, "functions": functions}
        made.append({key: value for key, value in pin.items() if value})
    package = {"name": "P", "arrangement": "dual", "pinCount": len(made), "pins": made}
    return {"ports": [{"name": "A", "bits": "7:0"}], "packages": [package]}


def test_names_that_several_pins_have_are_left_out() -> None:
    found = header(**pins(("1", "GND", "", ""), ("2", "GND", "", ""), ("3", "A0", "A.0", "")))
    assert "PIN_P_GND" not in found
    assert "#define PIN_P_A0 3U\n" in found
    found = header(**pins(("1", "D+", "A.0", ""), ("2", "D-", "A.1", "")))
    assert "PIN_P_D" not in found


def test_a_function_at_several_bits_is_left_out() -> None:
    found = header(**pins(("1", "A0", "A.0", "ONE BOTH"), ("2", "A1", "A.1", "BOTH")))
    assert "#define FUNCTION_ONE_MASK 0x01U\n" in found
    assert "FUNCTION_BOTH" not in found
    assert "/* Functions left out, for they can be at several bits: BOTH (A.0, A.1). */\n" in found
    assert "bits of no port" not in found


def test_functions_of_no_port_are_named_too() -> None:
    given = (("1", "A0", "A.0", "MIX"), ("2", "X", "", "MIX REF IN+"), ("3", "Y", "", "REF"))
    found = header(**pins(*given))
    assert "can be at several bits: MIX (A.0, no port). */\n" in found
    assert "/* Functions left out, for their pins are bits of no port: REF, IN. */\n" in found


def settings(*fields: tuple[str, str], width: int = 8) -> dict[str, Any]:
    """Return a chip with one word whose settings are plain numbers at these bits."""
    made = [{"name": name.upper(), "setting": name, "bits": bits} for name, bits in fields]
    word = {"name": "w", "address": 0, "width": width, "default": 0, "fields": made}
    return {"configuration": {"space": "data", "words": [word]}}


def test_a_setting_in_pieces_says_so() -> None:
    found = header(**settings(("level", "7,1:0"), ("whole", "5:4"), ("one", "6")))
    assert (
        "/* level: bits 7,1:0, in pieces: BITPOS is where its bit 0 stands, a shift by it "
        "misplaces the rest; EXTRACT and INSERT use an argument more than once */\n"
        "#define SETTING_LEVEL_BITPOS 0x0U\n#define SETTING_LEVEL_MASK 0x83U\n"
    ) in found
    assert "/* whole: bits 5:4 */\n" in found
    assert "SETTING_ONE_INSERT" not in found
    assert "SETTING_ONE_PROGRAMMED 0x00U" in found


@pytest.mark.parametrize("width", [8, 16, 32])
def test_a_setting_that_is_a_number_is_inserted_and_extracted(width: int, tmp_path: Path) -> None:
    """The numbers are worked out by hand: 0b110 is the high bit 7, then bits 1:0."""
    chip = {"name": "part", "spaces": SPACES, **settings(("level", "7,1:0"), ("t", "5:2"))}
    chip["configuration"]["words"][0]["width"] = width
    write(emitted(chip), tmp_path)
    conditions = (
        "SETTING_LEVEL_INSERT(0x7CU, 6U) == 0xFEU",
        "SETTING_LEVEL_EXTRACT(0x82U) == 6U",
        "SETTING_T_INSERT(0xFFU, 5U) == 0xD7U",
        "SETTING_T_EXTRACT(0xD7U) == 5U",
        "SETTING_T_INSERT(0U, 0xFFU) == 0x3CU",
    )
    lines = [f'_Static_assert({condition}, "");' for condition in conditions]
    (tmp_path / "try.c").write_text("\n".join(['#include "part.h"', *lines, "int x;\n"]))
    for name in ("try.c", "part_check.c"):
        strict = ("-std=c11", "-Wall", "-Wextra", "-Wpedantic", "-Werror", "-fsyntax-only")
        done = run("gcc", *strict, name, cwd=tmp_path)
        assert (done.returncode, done.stderr) == (0, "")
    done = run("gcc", "-x", "assembler-with-cpp", "-E", "-dM", "part.h", cwd=tmp_path)
    assert "SETTING_T_MASK" in done.stdout
    assert "SETTING_T_INSERT" not in done.stdout


def test_others_know_the_macros_that_take_arguments() -> None:
    old, new = version(**settings(("level", "7:4"))), version(**settings(("level", "6:4")))
    assert "SETTING_LEVEL_INSERT" in part_names(old.macros)
    told = {item.name: item.breaks for item in changes_told(old, new)}
    assert told["SETTING_LEVEL_INSERT"]


def test_a_vector_stands_where_its_number_says() -> None:
    vectors = [{"number": 0, "name": "R"}, {"number": 1, "name": "T"}, {"number": 2, "name": "U"}]
    found = header(vectorTable={"space": "data", "base": "0x100", "size": 4, "vectors": vectors})
    assert "#define VECTOR_U_DATA_ADDR 0x108U\n" in found
    assert "#define VECTORS_COUNT 3U\n" in found


def version(**more: Any) -> Version:
    subject = checked({"name": "part", "spaces": SPACES, **more}).subject
    assert subject
    return Version(subject.resolved, subject.macros)


def test_a_release_tells_of_them() -> None:
    ram = {"name": "R", "kind": "ram", "space": "data", "first": 0, "size": "0x100"}
    small, large = version(memories=[ram]), version(memories=[{**ram, "size": "0x200"}])
    told = {item.name: (item.message, item.breaks) for item in changes_told(small, large)}
    assert told["MEMORY_R_BYTES"] == ("MEMORY_R_BYTES was 256 and is 512", True)
    gone = {item.name: item.message for item in changes_told(small, version())}
    assert gone["MEMORY_R_UNITS"] == (
        "MEMORY_R_UNITS is gone: part has no macros for the memory R any more"
    )
    paged = version(memories=[{**ram, "pageSize": "0x10"}])
    gone = {item.name: item.message for item in changes_told(paged, small)}
    assert gone["MEMORY_R_PAGE_UNITS"] == (
        "MEMORY_R_PAGE_UNITS is gone: nothing gives it for the memory R any more"
    )


def test_an_audit_knows_what_they_stand_for() -> None:
    subject = checked(ROOT / "descriptions" / "sorrel14.xml").subject
    assert subject
    code = (
        '#include "sorrel14.h"\n'
        "#define LAMP_OUTPUT (*(volatile unsigned char *)(MEMORY_SRAM_DATA_ADDR - 0x28U))\n"
        "void lamp(void) { LAMP_OUTPUT |= FUNCTION_LED_MASK; }\n"
    )
    texts = [CodeText("lamp.c", code.encode(), C)]
    seen = audit(subject.resolved, subject.macros, texts).subject
    assert [item.name for touch in seen.touches for item in touch.registers][:1] == ["OUT_B"]
