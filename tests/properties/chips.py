"""Descriptions made up by hypothesis: trees as the JSON spelling has them, valid by the schema.

What objects hold is read off the schema, so a new property is tried at once; how a plain value
may look is written here by hand, apart from the schema's patterns, so that the two check each
other.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

from regwright.format.shape import PREFIX, definition, shapes
from regwright.rules.all import RULES

Tree = dict[str, Any]

#: The same examples on each run, however slow the machine.
STEADY = settings(
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)

#: What leads to more: drawn more often than the rest.
WEIGHTS = {"registers": 12, "fields": 4, "values": 4, "spaces": 2, "halves": 2}

LETTERS = "abcxyzABCXYZ"
WORDS = LETTERS + "0189_"
#: What text may hold: quotes and brackets of both spellings, wide and unusual characters.
TEXT = "aZ09 _-.,:;/\\\"'<>&[]{}()#+é€ßø\u00a0\u0085\u2028\u3000\u0301\ufeff𝄞\U0010fffd"


def _text(alphabet: str, most: int, least: int = 1) -> st.SearchStrategy[str]:
    return st.text(alphabet, min_size=least, max_size=most)


def _one_of_length(usual: st.SearchStrategy[str], longest: str) -> st.SearchStrategy[str]:
    """Mostly ``usual``, at times the longest value that is allowed."""
    return st.integers(0, 15).flatmap(lambda n: usual if n < 15 else st.just(longest))


def _identifiers(first: str, rest: str, most: int) -> st.SearchStrategy[str]:
    usual = st.builds(str.__add__, st.sampled_from(first), _text(rest, 6, 0))
    return _one_of_length(usual, first[-1] * most)


def _numbers() -> st.SearchStrategy[str | int]:
    values = st.integers(0, 1 << 40)
    return st.one_of(
        st.integers(0, 9),
        st.integers(0, 9).map(str),
        values.map(lambda n: f"0x{n:X}"),
        values.map(lambda n: f"0x{n:_x}"),
        values.map(lambda n: f"0d{n}"),
        st.integers(0, 255).map(lambda n: f"0b{n:_b}"),
        st.just("0x" + "0" * 37 + "F"),
    )


def _resets() -> st.SearchStrategy[str | int]:
    undefined = st.sampled_from(["0bxx00_0001", "0xxF", "0x1_x", "0bx", "0b" + "x_" * 39])
    return st.one_of(_numbers(), undefined)


def _addresses() -> st.SearchStrategy[str | int]:
    one = st.tuples(st.sampled_from(["io", "data", "x9_", "a"]), _numbers())
    spelled = one.map(lambda pair: f"{pair[0]}:{pair[1]}")
    return st.one_of(_numbers(), st.lists(spelled, min_size=1, max_size=3).map(" ".join))


def _bits() -> st.SearchStrategy[str | int]:
    number = st.integers(0, 99)
    piece = st.one_of(number.map(str), st.tuples(number, number).map("{0[0]}:{0[1]}".format))
    return st.one_of(number, st.just("07"), st.lists(piece, min_size=1, max_size=3).map(",".join))


def _flags() -> st.SearchStrategy[str]:
    entry = st.one_of(st.just("-"), _text("AB1_-&<>\"'\\%/", 4))
    gap = st.sampled_from([" ", " ", "   "])
    rest = st.lists(st.tuples(gap, entry).map("".join), max_size=7).map("".join)
    return st.builds(str.__add__, entry, rest)


def _conditions() -> st.SearchStrategy[str]:
    value = st.sampled_from(["0", "9", "0x1F", "0b01", "0d31"])
    sign = st.sampled_from([" = ", "=", "= ", " ="])
    one = st.tuples(_text("AB.1_<&\"'", 5), sign, value).map("".join)
    return st.lists(one, min_size=1, max_size=3).map(" and ".join)


def _comments() -> st.SearchStrategy[str]:
    part = _text(TEXT.replace(" ", ""), 5).filter(lambda text: "--" not in text)
    return st.lists(part, min_size=1, max_size=3).map(" ".join)


def _rule_names() -> st.SearchStrategy[str]:
    """Rules that there are, and names of that form that none has."""
    words = st.lists(_text("abxyz", 4), min_size=1, max_size=3).map("-".join)
    known = st.sampled_from([rule.name for rule in RULES])
    return _one_of_length(st.one_of(known, words), "z-" * 23 + "zz")


def _several(name: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    """Return names in one text, with a space between."""
    few = st.lists(name, min_size=1, max_size=3).map(" ".join)
    return few.filter(lambda text: len(text) <= 400)


def _plain_names() -> st.SearchStrategy[str]:
    return st.lists(_text("abz09", 4), min_size=1, max_size=3).map("-".join)


def _setting_conditions() -> st.SearchStrategy[str]:
    sign = st.sampled_from([" = ", "=", "= ", " ="])
    one = st.tuples(_plain_names(), sign, _plain_names()).map("".join)
    return st.lists(one, min_size=1, max_size=3).map(" and ".join)


def _quantities(*usual: str) -> st.SearchStrategy[str]:
    return st.sampled_from(usual)


@cache
def _plain() -> dict[str, st.SearchStrategy[Any]]:
    """Return what each definition of a plain value allows, by its name in the schema."""
    return {
        "identifier": _identifiers(LETTERS, WORDS, 48),
        "spaceName": _identifiers("abz", "abz09_", 24),
        "ruleName": _rule_names(),
        "macroName": _identifiers(LETTERS + "_", WORDS, 80),
        "identifiers": _one_of_length(
            _several(_identifiers(LETTERS + "_", WORDS, 80)), " ".join(["x" * 80] * 4 + ["y" * 76])
        ),
        "mnemonics": _one_of_length(
            _several(_identifiers(LETTERS + "_.", WORDS + ".", 40)), ". " * 199 + ".."
        ),
        "operand": st.sampled_from([1, 2, 15, 16]),
        "prefix": st.one_of(st.just(""), _identifiers(LETTERS + "_", WORDS, 48)),
        "name": _one_of_length(_text(TEXT, 8), "𝄞" * 80),
        "line": _one_of_length(_text(TEXT, 12), "€" * 200),
        "prose": _one_of_length(_text(TEXT + "\n\n", 20), "é\n" * 2000),
        "comment": _comments(),
        "location": _text("abc./:-_%#?=&'\"<>~!", 20).filter(lambda text: text[-4:] != ".xsd"),
        "number": _numbers(),
        "reset": _resets(),
        "address": _addresses(),
        "bits": _bits(),
        "flags": _flags(),
        "condition": _conditions(),
        "width": st.integers(1, 64),
        "count": st.sampled_from([1, 2, 4095, 4096]),
        "index": st.sampled_from([0, 1, 4096]),
        "page": st.sampled_from([1, 10, 99999]),
        "plainName": _one_of_length(_plain_names(), "z-" * 23 + "z9"),
        "plainNames": _several(_plain_names()),
        "settingCondition": _setting_conditions(),
        "frequency": _quantities("8 MHz", "32.768 kHz", "0 Hz", "999999999.123456789 GHz"),
        "voltage": _quantities("2.7 V", "1800 mV", "0.000001 V"),
        "tolerance": _quantities("10 %", "50 ppm", "0.5 %"),
        "hexBytes": st.sampled_from(["0x00", "0x1f 0xA0 0x07", " ".join(["0xFF"] * 32)]),
        "portBit": st.sampled_from(["B.2", "x_9.07", "A" * 48 + ".99"]),
        "pinNumber": st.sampled_from(["1", "9999", "A1", "AB12"]),
        "pinFunctions": _several(_text("AB19_/<>&\"'#~!", 6)),
        "toolName": _one_of_length(st.sampled_from(["sorrel-14", "s8.2+fp", "9_"]), "x" * 64),
        "printed": _one_of_length(_text(TEXT, 12), "€" * 400),
        "factor": st.sampled_from([1, 8, 1048576]),
        "vectorNumber": st.sampled_from([0, 1, 4095]),
        "pinCount": st.sampled_from([1, 14, 4096]),
        "date": st.sampled_from(["2026", "0000", "2026-12", "2026-02-31", "1999-10-09"]),
    }


def _value(specification: dict[str, Any], depth: int) -> st.SearchStrategy[Any]:
    name = specification.get("$ref", "").removeprefix(PREFIX)
    value = definition(name) if name else specification
    if value.get("type") == "object":
        return objects(name, depth)
    if value.get("type") == "array":
        items = _value(value["items"], depth)
        return st.one_of(st.lists(items, min_size=1, max_size=2), _empty(value, items))
    if "enum" in value:
        return st.sampled_from(value["enum"])
    if value.get("type") == "boolean":
        return st.booleans()
    return _plain()[name]


def _empty(value: dict[str, Any], items: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """Return lists that are as short as is allowed."""
    least = value.get("minItems", 0)
    return st.lists(items, min_size=least, max_size=least)


@st.composite
def _objects(draw: st.DrawFn, name: str, depth: int) -> Tree:
    """Draw an object: half of its plain properties, one child or few of those it may have.

    Few, because a description with everything in it is too large for hypothesis to vary.
    """
    body = definition(name)
    values = {
        key: _value(specification, depth - (key == "blocks"))
        for key, specification in body["properties"].items()
        if key != "blocks" or depth > 0
    }
    children = [key for key in values if key in shapes()[name].by_property]
    weighted = [key for key in children for _ in range(WEIGHTS.get(key, 1))]
    chosen = draw(st.sampled_from(weighted)) if weighted else None
    found: Tree = {}
    for key, value in values.items():
        is_wanted = key in body["required"] or key == chosen
        if is_wanted or draw(st.integers(0, 3 if key in children else 1)) == 1:
            found[key] = draw(value)
    return found


@cache
def objects(name: str, depth: int) -> st.SearchStrategy[Tree]:
    """Return objects of one kind, with blocks nested ``depth`` deep at most."""
    return _objects(name, depth)


def chips() -> st.SearchStrategy[Tree]:
    """Return whole descriptions."""
    return objects("chip", 2)
