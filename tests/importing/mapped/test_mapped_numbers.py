"""How numbers, bits, words and texts are read."""

from __future__ import annotations

import re
from typing import Any
from xml.sax.saxutils import quoteattr

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from mapping_texts import errors, first_register, mapped, of_registers, said

from regwright.importing.mapped.notations import NoNumber, number

#: The same examples on each run, however slow the machine.
STEADY = settings(
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=[HealthCheck.too_slow],
)


@pytest.mark.parametrize(
    ("text", "notation", "value"),
    [
        ("12", "decimal", 12),
        ("012", "decimal", 12),
        ("12", "hexadecimal", 0x12),
        ("0x12", "hexadecimal", 0x12),
        ("fF", "hexadecimal", 0xFF),
        ("0x1F", "c", 0x1F),
        ("0x1FUL", "c", 0x1F),
        ("31u", "c", 31),
        ("010", "c", 8),
        ("0b101", "c", 5),
        ("0", "c", 0),
        ("0x12'34", "c", 0x1234),
        ("1Fh", "h", 0x1F),
        ("0FFH", "h", 0xFF),
        ("12", "h", 12),
        ("101", "binary", 5),
        ("0b1111_0000", "binary", 0xF0),
        ("1111 0000", "binary", 0xF0),
        ("17", "octal", 15),
        ("0o17", "octal", 15),
        ("8'h1F", "sized", 0x1F),
        ("4'b0101", "sized", 5),
        ("'d12", "sized", 12),
        ("0x1F", "auto", 0x1F),
        ("7", "auto", 7),
        ("1F", "auto", 0x1F),
        ("1Fh", "auto", 0x1F),
        ("8'h1F", "auto", 0x1F),
        ("0b11", "auto", 3),
    ],
)
def test_notations(text: str, notation: str, value: int) -> None:
    assert number(text, notation) == value


@pytest.mark.parametrize(
    ("text", "notation"),
    [
        ("0x12", "decimal"),
        ("1G", "hexadecimal"),
        ("09", "c"),
        ("12b", "c"),
        ("1F", "h"),
        ("102", "binary"),
        ("8", "octal"),
        ("8'b12", "sized"),
        ("12", "sized"),
        ("-1", "decimal"),
        ("1.5", "auto"),
        ("x", "auto"),
        ("0x1_0000_0000_0000_0000", "c"),
        ("٣", "decimal"),
        ("1" * 5000, "decimal"),
        ("1" * 5000, "auto"),
    ],
)
def test_what_is_no_number(text: str, notation: str) -> None:
    with pytest.raises(NoNumber):
        number(text, notation)


@pytest.mark.parametrize("text", ["12", "100", "010", "07_7"])
def test_auto_refuses_what_may_be_several(text: str) -> None:
    with pytest.raises(NoNumber, match=r"may be .* as decimal or .* as hexadecimal"):
        number(text, "auto")


@settings(STEADY, max_examples=60)
@given(st.integers(0, (1 << 64) - 1))
def test_what_is_written_is_read(value: int) -> None:
    written = {
        "decimal": f"{value}",
        "hexadecimal": f"{value:X}",
        "c": f"{value:#x}ULL",
        "h": f"0{value:x}h",
        "binary": f"{value:b}",
        "octal": f"{value:o}",
        "sized": f"64'h{value:x}",
    }
    assert {name: number(text, name) for name, text in written.items()} == dict.fromkeys(
        written, value
    )
    assert number(f"{value:#X}".replace("X", "x"), "auto") == value


def _one(rule: dict[str, Any], attributes: str) -> dict[str, Any]:
    return first_register(mapped(f"<c><reg n='A' {attributes}/></c>", of_registers(rule)))


def _field(bits: Any, attributes: str, width: int = 8) -> Any:
    fields = {"at": "f", "name": {"value": "F"}, "bits": bits}
    rule = {"width": {"value": width}, "fields": fields}
    draft = mapped(f"<c><reg n='A'><f {attributes}/></reg></c>", of_registers(rule))
    return first_register(draft)["fields"][0]["bits"]


@pytest.mark.parametrize(
    ("bits", "attributes", "spelled"),
    [
        ("@b", "b='7:4'", "7:4"),
        ("@b", "b='[4:7]'", "7:4"),
        ("@b", "b='3'", "3"),
        ("@b", "b='7:6,1:0'", "7:6,1:0"),
        ({"path": "@b", "separator": ".."}, "b='7..4'", "7:4"),
        ({"path": "@b", "separator": "to"}, "b='7 to 4'", "7:4"),
        ({"high": "@h", "low": "@l"}, "h='7' l='4'", "7:4"),
        ({"high": "@l", "low": "@h"}, "h='7' l='4'", "7:4"),
        ({"low": "@l", "width": "@w"}, "l='4' w='4'", "7:4"),
        ({"low": "@l"}, "l='4'", "4"),
        ({"low": "@l", "width": {"path": "@w", "default": 2}}, "l='4'", "5:4"),
        ({"mask": "@m"}, "m='0xF0'", "7:4"),
        ({"mask": "@m"}, "m='0xC3'", "7:6,1:0"),
        ({"path": "@b", "numbered": "from-high"}, "b='0'", "7"),
        ({"low": "@l", "width": "@w", "numbered": "from-high"}, "l='0' w='4'", "7:4"),
    ],
)
def test_bits(bits: Any, attributes: str, spelled: str) -> None:
    assert _field(bits, attributes) == spelled


@pytest.mark.parametrize(
    ("rule", "attributes", "expected"),
    [
        ({"width": {"path": "@b", "times": 8}}, "b='2'", {"width": 16}),
        ({"page": {"path": "@p", "pattern": "p[.] ?([0-9]+)"}}, "p='p. 12'", {"page": 12}),
        ({"address": {"path": "@a", "plus": 32}}, "a='0x18'", {"address": "0x38"}),
        (
            {"address": [{"path": "@a", "space": "io"}, {"path": "@d", "space": "data"}]},
            "a='0x18' d='0x38'",
            {"address": "io:0x18 data:0x38"},
        ),
        ({"access": {"path": "@x", "table": {"R": "read-only"}}}, "x='R'", {"access": "read-only"}),
        ({"access": "@x"}, "x='read-only'", {"access": "read-only"}),
        (
            {"access": {"path": "@x", "case": "lower", "table": {"r": "read-only"}}},
            "x=' R '",
            {"access": "read-only"},
        ),
        ({"access": {"path": "@x", "table": {}, "otherwise": "read-write"}}, "x='?'",
         {"access": "read-write"}),
        ({"access": {"path": "@x", "table": {"": "no-access"}}}, "", {"access": "no-access"}),
        ({"singleBit": "@s"}, "s='Yes'", {"singleBit": True}),
        ({"singleBit": {"path": "@s", "true": ["bitwise"]}}, "s='bitwise'", {"singleBit": True}),
        ({"singleBit": {"path": "@s", "true": ["bitwise"]}}, "s='other'", {"singleBit": False}),
        ({"singleBit": {"path": "@s", "false": ["never"]}}, "s='NEVER'", {"singleBit": False}),
        ({"singleBit": "@s = 'x'"}, "s='x'", {"singleBit": True}),
        ({"title": "concat(@a, ' of ', @b)"}, "a='latch' b='port'", {"title": "latch of port"}),
        ({"title": {"path": "@t", "case": "upper"}}, "t='a  b'", {"title": "A B"}),
        ({"aliases": "@t"}, "t='A1, B-2;A1'", {"aliases": "A1 B_2"}),
        ({"reset": {"path": "@r", "defined": "@m"}}, "r='0xFF' m='0x0F'", {"reset": "0bxxxx1111"}),
        ({"reset": {"path": "@r", "defined": "@m"}}, "r='5'", {"reset": "0x05"}),
        ({"reset": "@r", "width": {"value": 16}}, "r='5'", {"reset": "0x0005"}),
        ({"count": "@c", "stride": "@s", "firstIndex": "@f"}, "c='4' s='0x10' f='1'",
         {"count": 4, "stride": "0x10", "firstIndex": 1}),
        ({"title": {"first": ["@a", "@b", {"value": "none"}]}}, "b='two'", {"title": "two"}),
        ({"title": {"first": ["@a", "@b", {"value": "none"}]}}, "", {"title": "none"}),
        ({"title": {"path": "@a", "default": "without"}}, "", {"title": "without"}),
        ({"title": {"key": 0}}, "", {"title": "reg"}),
        ({"title": {"key": 1}}, "", {"title": "c"}),
        ({"title": {"file": True}}, "", {"title": "chip"}),
        ({"count": "@a * 2"}, "a='2'", {"count": 4}),
    ],
)  # fmt: skip
def test_properties(rule: Any, attributes: str, expected: Any) -> None:
    found = _one(rule, attributes)
    assert {key: found.get(key) for key in expected} == expected


def test_several_values_are_joined_or_the_first_is_taken() -> None:
    text = "<c><reg n='A'><t>one</t><t>two</t></reg></c>"
    joined = mapped(text, of_registers({"title": {"path": "t", "join": ", "}}))
    assert first_register(joined)["title"] == "one, two"
    first = mapped(text, of_registers({"title": "t"}))
    assert first_register(first)["title"] == "one"
    assert [rule for rule, _ in said(first, "warning")] == ["path-of-several"]


def test_a_path_may_start_further_out() -> None:
    block = {"at": "b", "name": "@n", "registers": {
        "at": "reg", "name": "@n", "offset": {"value": 0}, "title": {"path": "@t", "up": 1},
        "notes": {"path": "@t", "up": 16},
    }}  # fmt: skip
    text = "<c t='whole'><b n='B' t='inner'><reg n='A'/></b></c>"
    draft = mapped(text, {"blocks": block, "title": "@t"})
    assert draft.tree is not None, draft.remarks
    found = draft.tree["blocks"][0]["registers"][0]
    assert (found["title"], found["notes"]) == ("inner", "whole")


@pytest.mark.parametrize(
    ("rule", "attributes", "message"),
    [
        ({"address": "@a"}, "a='12q'", "address of a register: '12q' is no number as c"),
        ({"width": "@w"}, "w='99'", "width is 99; it must be a width in bits, 1 to 64"),
        ({"access": "@x"}, "x='rw'", "'rw' is none of read-write, .*is read-write meant"),
        ({"singleBit": "@s"}, "s='perhaps'", "'perhaps' says neither yes nor no"),
        ({"page": {"path": "@p", "pattern": "p([0-9]+)"}}, "p='q1'", "does not match the pattern"),
        ({"address": {"path": "@a", "plus": -32}}, "a='1'", "-31 is no number"),
        ({"address": {"path": "@a", "number": "auto"}}, "a='12'", "may be 12 as decimal or 18"),
        ({"title": {"path": "@t", "pattern": "(.*)"}}, "t='%s'" % ("x" * 201), "too long for a"),
    ],
)
def test_values_that_are_written_otherwise(rule: Any, attributes: str, message: str) -> None:
    draft = mapped(f"<c>\n<reg n='A' {attributes}/></c>", of_registers(rule))
    [remark] = [item for item in draft.remarks if item.level == "error"]
    assert errors(draft)[0][0] == "value-not-readable"
    assert (remark.line, remark.file) == (2, "")
    assert re.search(message, remark.message), remark.message


@pytest.mark.parametrize(
    ("bits", "attributes", "message"),
    [
        ("@b", "b='7-4'", "gives no bits"),
        ({"mask": "@b"}, "b='0'", "a mask of 0 has no bits"),
        ({"low": "@b", "width": {"value": 65}}, "b='0'", "a width of 65 bits"),
        ({"low": "@b"}, "b='100'", "bit 100 is in no register"),
        ({"path": "@b", "numbered": "from-high"}, "b='8'", "8 bits have no such bit"),
    ],
)
def test_bits_that_are_none(bits: Any, attributes: str, message: str) -> None:
    fields = {"at": "f", "name": {"value": "F"}, "bits": bits}
    draft = mapped(f"<c><reg n='A'><f {attributes}/></reg></c>", of_registers({"fields": fields}))
    assert message in errors(draft)[0][1]


def test_a_text_that_is_too_long_is_cut_and_said() -> None:
    draft = mapped(
        f"<c><reg n='A' t={quoteattr('word ' * 60)}/></c>", of_registers({"title": "@t"})
    )
    assert len(first_register(draft)["title"]) <= 200
    assert said(draft) == [
        ("text-shortened", "title of a register has 299 characters; 200 were kept")
    ]
