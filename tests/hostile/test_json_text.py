"""JSON that is not quite JSON, or too much of it."""

from __future__ import annotations

import json
import time
from pathlib import Path

import pytest
from hostile_chips import JSON_START, assert_clean, assert_refused, chip

from conftest import Cli

NESTED = "error: objects and lists are nested more than 64 deep; no description is, flatten it"


def with_address(value: str) -> str:
    """Return a description whose address ``value`` stands on line 2, column 36."""
    return JSON_START + '{"name":"A","address":' + value + "}]}"


DEEP = {
    "300 objects": ('{"a":' * 300 + "1" + "}" * 300, "1:321"),
    "900 objects": ('{"a":' * 900 + "1" + "}" * 900, "1:321"),
    "5000 objects": ('{"a":' * 5000 + "1" + "}" * 5000, "1:321"),
    "5 MB of objects": ('{"a":' * 800_000 + "1" + "}" * 800_000, "1:321"),
    "5 MB of lists": ("[" * 2_500_000 + "]" * 2_500_000, "1:65"),
    "5 MB of open lists": ("[" * 5_000_000, "1:65"),
    "5 MB of open braces": ("{" * 5_000_000, "1:65"),
    "within a value": (with_address("[" * 300 + "]" * 300), "2:97"),
    "brackets in texts": ('["{{{{\\"[",\n' + "[" * 300 + "]" * 300 + "]", "2:64"),
    "a text that never ends": ("[" * 65 + '"\\"' * 300_000, "1:65"),
}


@pytest.mark.parametrize("name", DEEP)
def test_deep(tmp_path: Path, name: str) -> None:
    text, place = DEEP[name]
    assert_refused(tmp_path, "a.json", text, f"{place}: {NESTED} [json-syntax]")


@pytest.mark.parametrize("depth", [9, 30])
def test_deep_blocks(tmp_path: Path, depth: int) -> None:
    start = JSON_START.replace("registers", "blocks")
    text = start + '{"name":"B","blocks":[' * depth + "]}" * depth + "]}"
    place = f"2:{len('blocks') + 5 + 8 * 22}"
    message = "error: blocks are nested more than 8 deep; flatten the description [nesting]"
    assert_refused(tmp_path, "a.json", text, f"{place}: {message}")


def test_brackets_in_texts_are_no_depth(tmp_path: Path) -> None:
    assert_clean(tmp_path, "a.json", json.dumps(chip(title="{[" * 90, family='"[\\' * 60)))


def test_five_megabytes_of_lists(tmp_path: Path) -> None:
    text = "[" + ",".join(["[]"] * 500_000) + "]"
    assert_refused(tmp_path, "a.json", text, "1:1: error: this is a list; it must be ")


def test_too_large(cli: Cli, tmp_path: Path) -> None:
    with (tmp_path / "large.json").open("wb") as file:
        file.write(b"{" * 1000)
        file.truncate(100 << 20)  # the rest takes no space on the disk
    start = time.monotonic()
    done = cli("check", "large.json")
    assert done.returncode == 2
    assert done.stderr == "regwright: large.json: is larger than 64 MiB; no description is\n"
    assert time.monotonic() - start < 2


def test_one_hundred_megabytes_of_braces(cli: Cli, tmp_path: Path) -> None:
    with (tmp_path / "large.json").open("wb") as file:
        for _ in range(100):
            file.write(b"{" * (1 << 20))
    done = cli("emit", "large.json")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "regwright: large.json: is larger than 64 MiB; no description is\n"
    assert not (tmp_path / "out").exists()


NO_INTEGER = 'is no whole number; write one, or a text such as "0x1F" [json-syntax]'
NUMBERS = {
    "1" * 10_000: "error: a number of 10000 digits is more than a description can mean [json-sy",
    "-" + "1" * 10_000: "error: a number of 10000 digits is more than a description can mean",
    '"0x' + "1" * 10_000 + '"': "error: address is a text of 10002 characters; it must be one num",
    '"0d' + "1" * 10_000 + '"': "error: address is a text of 10002 characters; it must be one num",
    '"' + "1" * 10_000 + '"': "error: address is a text of 10000 characters; it must be one num",
    "-1": "error: address is -1; it must be one number that says its base",
    '"-0x1"': "error: address is '-0x1'; it must be one number that says its base",
    '"-0"': "error: address is '-0'; it must be one number that says its base",
    '"0xFFFFFFFFFFFFFFFF"': "error: A has the data address 0xFFFFFFFFFFFFFFFF, but data space",
    "1.5": f"error: 1.5 {NO_INTEGER}",
    "1.0": f"error: 1.0 {NO_INTEGER}",
    "1e5": f"error: 1e5 {NO_INTEGER}",
    "1E999": f"error: 1E999 {NO_INTEGER}",
    "-0.0": f"error: -0.0 {NO_INTEGER}",
    "NaN": f"error: NaN {NO_INTEGER}",
    "Infinity": f"error: Infinity {NO_INTEGER}",
    "-Infinity": f"error: -Infinity {NO_INTEGER}",
    "0x10": 'error: no JSON: a number that says its base is a text here; write "0x10" [json-syn',
    "010": 'error: no JSON: a number does not start with 0; write the base too, as in "0x1F"',
    "+1": "error: no JSON: expecting value [json-syntax]",
    "true": "error: address is true; it must be one number that says its base",
    "null": "error: address is null; it must be one number that says its base",
    '"٣"': "error: address is '٣'; it must be one number that says its base",
}


@pytest.mark.parametrize("value", NUMBERS, ids=lambda value: value[:20])
def test_numbers(tmp_path: Path, value: str) -> None:
    assert_refused(tmp_path, "a.json", with_address(value), f"2:36: {NUMBERS[value]}")


def test_minus_zero_is_zero(cli: Cli, tmp_path: Path) -> None:
    assert_clean(tmp_path, "a.json", with_address("-0"))
    assert cli("emit", "a.json", "--to", "out").returncode == 0
    assert "#define A_DATA_ADDR 0x00U\n" in (tmp_path / "out" / "c.h").read_text()


def test_number_after_a_longer_one_is_not_advised(tmp_path: Path) -> None:
    place = "2:38: error: no JSON: expecting ',' delimiter"
    assert_refused(tmp_path, "a.json", with_address("10x5"), place)


MARK = "error: a byte-order mark stands before the text; save the file as UTF-8 without one"
TEXTS: dict[str, tuple[str | bytes, str]] = {
    "name twice": (
        JSON_START + '{"name":"A","name":"B","address":1}]}',
        "2:26: error: the name 'name' stands twice in this object; keep one of them [json-syntax]",
    ),
    "name twice, escaped": (
        JSON_START + '{"name":"A","n\\u0061me":"B","address":1}]}',
        "2:26: error: the name 'name' stands twice in this object; keep one of them [json-syntax]",
    ),
    "byte-order mark": ("\ufeff" + JSON_START + "]}", f"1:1: {MARK} [json-syntax]"),
    "UTF-16": ((JSON_START + "]}").encode("utf-16"), "1:1: error: byte 0xFF is no UTF-8; save"),
    "UTF-16 without a mark": ("{}".encode("utf-16-le"), "1:2: error: a zero byte stands here; th"),
    "bad UTF-8": (b'{"\xc3\xa9":1,\n"name":"\xe9\xff"}', "2:9: error: byte 0xE9 is no UTF-8; save"),
    "cut UTF-8": (b'{"name":"\xe2\x82', "1:10: error: byte 0xE2 is no UTF-8; save the file as"),
    "long form of a slash": (b'{"name":"\xc0\xaf"}', "1:10: error: byte 0xC0 is no UTF-8; save"),
    "surrogate bytes": (b'{"name":"\xed\xa0\x80"}', "1:10: error: byte 0xED is no UTF-8; save the"),
    "half a pair": (
        JSON_START + '{"name":"A","title":"x\\ud800","address":1}]}',
        "2:34: error: half of a surrogate pair stands in this text; write the character itself",
    ),
    "half a pair as a name": (
        JSON_START + '{"name":"A","\\udfff":"x","address":1}]}',
        "2:26: error: half of a surrogate pair stands in this text; write the character itself",
    ),
    "junk behind": (JSON_START + "]}\nx", "3:1: error: no JSON: the description ends before this"),
    "two values": ("{}\n{}", "2:1: error: no JSON: the description ends before this; remove what"),
    "zero byte": (JSON_START + '{"name":"A\0"}]}', "2:24: error: a zero byte stands here; this is"),
    "zero, escaped": (
        JSON_START + '{"name":"A\\u0000","address":1}]}',
        "2:22: error: name is 'A\\x00'; it must be the name as the datasheet prints it",
    ),
    "line break in a text": (
        JSON_START + '{"name":"A\nB"}]}',
        "2:24: error: no JSON: a line break or another control character stands in this text; wr",
    ),
    "no end of a text": (
        '{"name":"A}',
        "1:9: error: no JSON: the text that starts here never",
    ),
    "wrong escape": ('{"name":"\\q"}', "1:10: error: no JSON: no escape has this form; write \\\\"),
    "wrong digits": ('{"name":"\\u12G4"}', "1:11: error: no JSON: four hexadecimal digits must"),
    "comma before the end": (
        '{"a":1,}',
        "1:7: error: no JSON: nothing follows this comma; remove it",
    ),
    "single quotes": ("{'a':1}", "1:2: error: no JSON: a name in double quotes is expected here"),
    "remark": ("{ // x\n}", "1:3: error: no JSON: a name in double quotes is expected here"),
    "empty": ("", "1:1: error: the file is empty; a description was expected [json-syntax]"),
    "blank": (" \n", "1:1: error: the file is empty; a description was expected [json-syntax]"),
    "binary": (bytes(range(256)), "2:118: error: byte 0x80 is no UTF-8; save the file as UTF-8"),
    "a text": ('"x"', "1:1: error: this is 'x'; it must be "),
    "a list": ("[]", "1:1: error: this is a list; it must be "),
    "a number": ("5", "1:1: error: this is 5; it must be "),
    "null": ("null", "1:1: error: this is null; it must be "),
    "a long number": ("1" * 10_000, "1:1: error: a number of 10000 digits is more than a descript"),
}


@pytest.mark.parametrize("name", TEXTS)
def test_texts(tmp_path: Path, name: str) -> None:
    assert_refused(tmp_path, "a.json", *TEXTS[name])


def test_whole_surrogate_pair(tmp_path: Path) -> None:
    text = JSON_START + '{"name":"A","title":"\\ud83d\\ude00","address":1}]}'
    assert_clean(tmp_path, "a.json", text)
