"""The file of --match and --write-match: what it holds, what it does, what is refused."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from small_chips import chip, field_pairs, flags, pairs, register

from conftest import DESCRIPTIONS, ROOT
from regwright.compare.match_file import BadMatch, match_text, read_match
from regwright.compare.matching import match
from regwright.compare.pins import NO_PINS, Pins
from regwright.pipeline import check
from regwright.read.source import Source
from regwright.resolve.chip import ResolvedChip

SCHEMA = json.loads((ROOT / "schemas" / "match.schema.json").read_bytes())
HALVES = {"low": {"name": "CNTL"}, "high": {"name": "CNTH"}}
A = chip(
    register("CTRL", 0x20, fields=flags("RUN", "WAKE", "IRQ")),
    register("LCR", 0x21, aliases="LINE"),
    register("CNT", 0x40, width=16, halves=HALVES),
    register("GONE", 0x44, fields=flags("X", "Y")),
)
B = chip(
    register("CTRL", 0x20, fields=flags("RUN", "WAKE_UP")),
    register("LINE", 0x21),
    register("COUNT", 0x60, width=16, halves=HALVES, aliases="CNT"),
    register("CTRL_B", 0x62, fields=flags("IRQ")),
)
#: Written by hand: every pair of two names, and what is alone; not halves, nor GONE's fields.
TEXT = """{
  "format": 1,
  "matches": [
    {"a": "CNT", "b": "COUNT", "why": "alias", "sure": "certain"},
    {"a": "CTRL.IRQ", "b": "CTRL_B.IRQ", "why": "moved", "sure": "likely"},
    {"a": "CTRL.WAKE", "b": "CTRL.WAKE_UP", "why": "place", "sure": "possible"},
    {"a": "GONE", "b": null},
    {"a": "LCR", "b": "LINE", "why": "alias", "sure": "certain"},
    {"a": null, "b": "CTRL_B"}
  ]
}
"""


def written(tmp_path: Path, *matches: Any, **more: Any) -> str:
    path = tmp_path / "match.json"
    path.write_text(json.dumps({"format": 1, "matches": list(matches), **more}), encoding="utf-8")
    return str(path)


def refusal(file: str) -> str:
    """Return the message with which ``file`` is refused, the file's own path left out."""
    with pytest.raises(BadMatch) as caught:
        read_match(file, A, B)
    message = str(caught.value)
    assert message.startswith(f"{file}:")
    assert "\n" not in message
    return message.removeprefix(f"{file}:").strip()


def test_what_is_written() -> None:
    assert match_text(match(A, B)) == TEXT
    assert match_text(match(A, A)) == '{\n  "format": 1,\n  "matches": []\n}\n'


def test_forbidden_pairs_are_written_too() -> None:
    pins = Pins(forbidden=frozenset({("LCR", "LINE"), ("GONE.X", "CTRL.RUN")}))
    text = match_text(match(A, B, pins), pins)
    matches = json.loads(text)["matches"]
    assert {"a": "LCR", "b": "LINE", "forbid": True} in matches
    assert {"a": "GONE.X", "b": "CTRL.RUN", "forbid": True} in matches
    assert {"a": "LCR", "b": None} in matches


def test_what_is_written_is_what_the_schema_says() -> None:
    validator = jsonschema.Draft202012Validator(SCHEMA)
    validator.check_schema(SCHEMA)
    pins = Pins(forbidden=frozenset({("LCR", "LINE")}))
    for text in (TEXT, match_text(match(A, B, pins), pins), match_text(match(A, A))):
        assert list(validator.iter_errors(json.loads(text))) == []


def test_what_the_file_does(tmp_path: Path) -> None:
    file = written(
        tmp_path,
        {"a": "GONE", "b": "LINE"},
        {"a": "CTRL", "b": "CTRL", "forbid": True},
        {"a": "GONE.X", "b": "CTRL.RUN", "why": "any text", "sure": 7},
        {"a": "CNT", "b": None},
        {"a": None, "b": "COUNT", "forbid": False},
    )
    pins = read_match(file, A, B)
    assert pins == Pins(
        pairs=frozenset({("GONE", "LINE"), ("GONE.X", "CTRL.RUN")}),
        forbidden=frozenset({("CTRL", "CTRL")}),
        alone_in_a=frozenset({"CNT"}),
        alone_in_b=frozenset({"COUNT"}),
    )
    found = pairs(A, B, pins)
    assert ("GONE", "LINE", "pinned") in found
    assert ("CTRL", "", "") in found
    assert ("CNT", "", "") in found
    assert ("GONE.X", "CTRL.RUN", "pinned") in field_pairs(A, B, pins)


def test_an_empty_file_changes_nothing(tmp_path: Path) -> None:
    assert read_match(written(tmp_path), A, B) == NO_PINS
    assert read_match(written(tmp_path, **{"$schema": "match.schema.json"}), A, B) == NO_PINS


@pytest.mark.parametrize(
    ("entry", "message"),
    [
        (
            {"a": "CRTL", "b": None},
            ":1:33: error: chip has no CRTL; CTRL is meant?",
        ),
        (
            {"a": "CTRL.RUNS", "b": None},
            ":1:33: error: chip has no CTRL.RUNS; CTRL.RUN is meant?",
        ),
        ({"a": None, "b": "zzz"}, ":1:44: error: chip has no zzz"),
        # only B has it
        ({"a": "COUNT", "b": None}, ":1:33: error: chip has no COUNT; CNT is meant?"),
        (
            {"a": "CTRL", "b": "CTRL.RUN"},
            ":1:46: error: CTRL is a register and CTRL.RUN a field; they cannot be a pair",
        ),
        ({"a": None, "b": None}, ":1:33: error: one of the two must have a name"),
        (
            {"a": "CTRL", "b": None, "forbid": True},
            ":1:62: error: what is forbidden is a pair: both need a name",
        ),
        (
            {"a": "CTRL", "b": "CTRL", "forbid": 1},
            ":1:64: error: true or false is wanted here",
        ),
        (
            {"a": 1, "b": "CTRL"},
            ":1:33: error: the name of a register, a name as REGISTER.FIELD, or null is wanted "
            "here",
        ),
        (
            {"a": "", "b": "CTRL"},
            ":1:33: error: the name of a register, a name as REGISTER.FIELD, or null is wanted "
            "here",
        ),
        (
            {"a": "CTRL"},
            ':1:27: error: a match has "a" and "b", and may have "forbid", "why" and "sure"',
        ),
        (
            {"a": "CTRL", "b": "CTRL", "force": True},
            ':1:27: error: a match has "a" and "b", and may have "forbid", "why" and "sure"',
        ),
        (
            ["CTRL", "CTRL"],
            ':1:27: error: a match has "a" and "b", and may have "forbid", "why" and "sure"',
        ),
    ],
)
def test_entries_that_are_refused_where_they_stand(
    tmp_path: Path, entry: Any, message: str
) -> None:
    """Columns are counted in ``{"format": 1, "matches": [{"a": "CRTL", "b": …``."""
    assert refusal(written(tmp_path, entry)) == message.removeprefix(":")
    has_other_reason = "chip has no" in message or "pair" in message
    data = {"format": 1, "matches": [entry]}
    assert jsonschema.Draft202012Validator(SCHEMA).is_valid(data) == (
        has_other_reason and "forbidden" not in message
    )


@pytest.mark.parametrize(
    ("first", "second", "message"),
    [
        (
            *({"a": "CTRL", "b": "LINE"}, {"a": "CTRL", "b": "CTRL"}),
            "CTRL is LINE already, it cannot be CTRL too",
        ),
        (
            *({"a": "CTRL", "b": "LINE"}, {"a": "LCR", "b": "LINE"}),
            "LINE is CTRL already, it cannot be LCR too",
        ),
        (
            *({"a": "CTRL", "b": None}, {"a": "CTRL", "b": "CTRL"}),
            "CTRL is nothing already, it cannot be CTRL too",
        ),
        (
            *({"a": "CTRL", "b": "LINE"}, {"a": None, "b": "LINE"}),
            "LINE is CTRL already, it cannot be nothing too",
        ),
        (
            *({"a": "CTRL", "b": "CTRL", "forbid": True}, {"a": "CTRL", "b": "CTRL"}),
            "CTRL and CTRL are forbidden too",
        ),
    ],
)
def test_contradictions_are_refused(tmp_path: Path, first: Any, second: Any, message: str) -> None:
    found = refusal(written(tmp_path, first, second))
    assert re.fullmatch(rf"1:\d+: error: {re.escape(message)}", found)


def test_the_same_said_twice_is_no_contradiction(tmp_path: Path) -> None:
    entry = {"a": "CTRL", "b": "LINE"}
    pins = read_match(written(tmp_path, entry, entry), A, B)
    assert pins == Pins(pairs=frozenset({("CTRL", "LINE")}))


def test_lines_are_counted(tmp_path: Path) -> None:
    path = tmp_path / "match.json"
    path.write_text(TEXT.replace('"GONE"', '"GOON"'), encoding="utf-8")
    assert refusal(str(path)) == "7:11: error: chip has no GOON; GONE is meant?"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "1:1: error: no JSON: expecting value"),
        (
            '{"format": 1,',
            "1:14: error: no JSON: expecting property name enclosed in double quotes",
        ),
        ("\xff", "is no file of matches"),
        ("[" * 100_000, "is no file of matches"),
        ("9" * 10_000, "is no file of matches"),
        ("[]", "is no file of matches; write one with --write-match"),
        ('{"format": 1}', "is no file of matches; write one with --write-match"),
        (
            '{"format": 2, "matches": []}',
            "has another format than 1, which is the only one known here; write it again with "
            "--write-match",
        ),
        (
            '{"format": true, "matches": []}',
            "has another format than 1, which is the only one known here; write it again with "
            "--write-match",
        ),
        ('{"format": 1, "matches": {}}', "holds a format and a list of matches, nothing else"),
        (
            '{"format": 1, "matches": [], "x": 1}',
            "holds a format and a list of matches, nothing else",
        ),
    ],
)
def test_texts_that_are_refused(tmp_path: Path, text: str, message: str) -> None:
    path = tmp_path / "match.json"
    path.write_bytes(text.encode("latin-1"))
    assert refusal(str(path)) == message


def test_files_that_are_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert refusal(str(tmp_path / "none.json")) == "cannot be read: No such file or directory"
    assert refusal(str(tmp_path)) == "cannot be read: Is a directory"
    monkeypatch.setattr("regwright.compare.match_file._LARGEST", 10)
    assert refusal(written(tmp_path)) == "is too large for a file of matches"


def test_messages_stay_on_one_line_and_short(tmp_path: Path) -> None:
    found = refusal(written(tmp_path, {"a": "\x1b[2J\n" + "x" * 1000, "b": None}))
    assert found.startswith("1:33: error: chip has no \\x1b[2J\\nxxx")
    assert len(found) < 200


def test_a_name_that_two_registers_have_is_left_out(tmp_path: Path) -> None:
    one = chip(register("X", 0x20), register("X", 0x21), register("OLD", 0x22))
    other = chip(register("X", 0x20))
    assert json.loads(match_text(match(one, other)))["matches"] == [{"a": "OLD", "b": None}]
    pins = read_match(written(tmp_path, {"a": "X", "b": "X"}), one, other)
    assert pairs(one, other, pins)[:2] == [("X", "X", "pinned"), ("X", "", "")]


def _names(a: ResolvedChip, b: ResolvedChip, pins: Pins) -> tuple[list[Any], list[Any]]:
    registers = [row[:2] for row in pairs(a, b, pins)]
    return sorted(registers), sorted(row[:2] for row in field_pairs(a, b, pins))


def test_a_written_file_gives_the_same_matching_again(tmp_path: Path) -> None:
    shipped = {
        path.name: check(Source(path.name, path.read_bytes(), path.suffix[1:])).resolved
        for path in sorted(DESCRIPTIONS.iterdir())
        if path.suffix in (".xml", ".json")
    }
    chips = [A, B, *(item for item in shipped.values() if item)]
    assert len(chips) > 6
    for a in chips:
        for b in chips:
            path = tmp_path / "match.json"
            text = match_text(match(a, b))
            path.write_text(text, encoding="utf-8")
            pins = read_match(str(path), a, b)
            assert _names(a, b, pins) == _names(a, b, NO_PINS)
            again = match_text(match(a, b, pins), pins)
            assert re.sub(r', "why".*?"}', "}", again) == re.sub(r', "why".*?"}', "}", text)
