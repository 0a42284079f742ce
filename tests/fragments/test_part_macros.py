"""The macros of what is no register: how they are named, what is left out, who else knows them.

``tests/outside`` holds the numbers of every shipped description against an independent reading.
"""

from __future__ import annotations

from typing import Any

from fragment_runs import ROOT, checked, emitted

from regwright.audit.audit import audit
from regwright.code.text import C, CodeText
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
