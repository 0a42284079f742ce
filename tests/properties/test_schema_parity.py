"""Both schemas take the same descriptions and refuse the same."""

from __future__ import annotations

import json

import pytest
from chips import STEADY, Tree, chips
from hypothesis import given, settings
from mutations import INTEGERS, TEXTS, canonical, spoiled
from spelled import NUMBERS, as_json, is_accepted, loose_xml, source

from regwright.format.shape import definition, schema
from regwright.read.description import read_tree
from regwright.write.spelling_xml import to_xml


def verdicts(tree: Tree) -> tuple[bool, bool]:
    return is_accepted(as_json(tree), "json"), is_accepted(loose_xml(tree), "xml")


@settings(STEADY, max_examples=120)
@given(chips())
def test_both_accept_generated_descriptions(tree: Tree) -> None:
    assert is_accepted(json.dumps(tree), "json")
    assert is_accepted(to_xml(tree), "xml")
    assert verdicts(canonical(tree)) == (True, True)


@settings(STEADY, max_examples=500)
@given(spoiled())
def test_both_say_the_same_of_spoiled_descriptions(tree: Tree) -> None:
    as_json_says, as_xml_says = verdicts(tree)
    assert as_json_says == as_xml_says


@settings(STEADY, max_examples=150)
@given(spoiled())
def test_a_refusal_of_xml_is_explained_in_words_of_our_own(tree: Tree) -> None:
    _, findings = read_tree(source(loose_xml(tree), "xml"))
    # The XSD's own complaints, which are the last resort, start with "Element 'register'".
    assert [item.message for item in findings if item.message.startswith("Element ")] == []


def test_spoiled_descriptions_are_mostly_refused_but_not_all() -> None:
    accepted = []

    @settings(STEADY, max_examples=100)
    @given(spoiled())
    def collect(tree: Tree) -> None:
        accepted.append(is_accepted(as_json(tree), "json"))

    collect()
    assert 5 <= sum(accepted) <= 60


def _configured(item: Tree) -> Tree:
    return {**ROOT, "configuration": {**CONFIGURATION, **item}}


def _word(item: Tree) -> Tree:
    return _configured({"words": [{**WORD, **item}]})


def _clocked(item: Tree) -> Tree:
    return {**ROOT, "clock": {"sources": [SOURCE], **item}}


#: One object of each kind in a description that is right but for what is put in.
FRAMES = {
    "chip": lambda item: {**ROOT, **item},
    "document": lambda item: {**ROOT, "document": {"title": "t", **item}},
    "space": lambda item: {**ROOT, "spaces": [{"name": "d", "size": "0x9", **item}]},
    "region": lambda item: {**ROOT, "spaces": [{**SPACE, "regions": [{**REGION, **item}]}]},
    "window": lambda item: {**ROOT, "windows": [{**WINDOW, **item}]},
    "span": lambda item: {**ROOT, "windows": [{**WINDOW, "singleBit": {**SPAN, **item}}]},
    "instruction": lambda item: {**ROOT, "instructions": [{**INSTRUCTION, **item}]},
    "block": lambda item: {**ROOT, "blocks": [{"name": "B", **item}]},
    "instance": lambda item: {
        **ROOT,
        "blocks": [{"name": "B", "instances": [{"name": "I", "base": "0x1", **item}]}],
    },
    "register": lambda item: {**ROOT, "registers": [{"name": "R", **item}]},
    "halves": lambda item: {**ROOT, "registers": [{"name": "R", "halves": {**HALVES, **item}}]},
    "halfRegister": lambda item: {
        **ROOT,
        "registers": [{"name": "R", "halves": {**HALVES, "low": {"name": "L", **item}}}],
    },
    "field": lambda item: {**ROOT, "registers": [{"name": "R", "fields": [{**FIELD, **item}]}]},
    "value": lambda item: {
        **ROOT,
        "registers": [{"name": "R", "fields": [{**FIELD, "values": [{**VALUE, **item}]}]}],
    },
    "reservedBits": lambda item: {
        **ROOT,
        "registers": [{"name": "R", "reserved": [{"bits": "1", **item}]}],
    },
    "silence": lambda item: {**ROOT, "silences": [{**SILENCE, **item}]},
    "memory": lambda item: {**ROOT, "memories": [{**MEMORY, **item}]},
    "vectorTable": lambda item: {**ROOT, "vectorTable": {**VECTORS, **item}},
    "vector": lambda item: {**ROOT, "vectorTable": {**VECTORS, "vectors": [{**VECTOR, **item}]}},
    "configuration": lambda item: {**ROOT, "configuration": {**CONFIGURATION, **item}},
    "hazard": lambda item: _configured({"hazards": [{**HAZARD, **item}]}),
    "configurationWord": lambda item: _configured({"words": [{**WORD, **item}]}),
    "configurationField": lambda item: _word({"fields": [{**SETTING, **item}]}),
    "choice": lambda item: _word({"fields": [{**SETTING, "choices": [{**CHOICE, **item}]}]}),
    "unusedBits": lambda item: _word({"unused": [{"bits": "1", **item}]}),
    "clock": _clocked,
    "clockSource": lambda item: _clocked({"sources": [{**SOURCE, **item}]}),
    "clockDivider": lambda item: _clocked({"dividers": [{**DIVIDER, **item}]}),
    "clockOption": lambda item: _clocked({"dividers": [{**DIVIDER, "options": [item]}]}),
    "clockLimit": lambda item: _clocked({"limits": [{**LIMIT, **item}]}),
    "rate": lambda item: _clocked({"rates": [{**RATE, **item}]}),
    "identity": lambda item: {**ROOT, "identity": {"signature": "0x01", **item}},
    "port": lambda item: {**ROOT, "ports": [{**PORT, **item}]},
    "package": lambda item: {**ROOT, "packages": [{**PACKAGE, **item}]},
    "pin": lambda item: {**ROOT, "packages": [{**PACKAGE, "pins": [{**PIN, **item}]}]},
    "build": lambda item: {**ROOT, "build": item},
}
MEMORY = {"name": "M", "kind": "flash", "space": "d", "first": "0", "size": "1"}
VECTOR = {"number": 0, "name": "V"}
VECTORS = {"space": "d", "size": "1", "vectors": [VECTOR]}
HAZARD = {"name": "h", "kind": "other"}
WORD = {"name": "w", "address": "0", "default": "0"}
CONFIGURATION = {"space": "d", "words": [WORD]}
SETTING = {"name": "F", "setting": "s", "bits": "1"}
CHOICE = {"name": "c", "value": "1"}
SOURCE = {"name": "s", "kind": "internal"}
DIVIDER: Tree = {"name": "d", "options": [{}]}
LIMIT = {"supply": "1 V", "highest": "1 MHz"}
RATE = {"name": "r", "kind": "timer", "divisor": "R"}
PORT = {"name": "P", "bits": "1"}
PACKAGE: Tree = {"name": "P", "arrangement": "dual", "pinCount": 8}
PIN = {"number": "1", "name": "P"}
SPACE = {"name": "d", "size": "0x9"}
ROOT: Tree = {"format": 1, "name": "a", "spaces": [SPACE]}
SPAN = {"first": "0", "last": "1"}
REGION = {"name": "R", "kind": "ram", **SPAN}
WINDOW = {"from": "d", "into": "d", "offset": "0", **SPAN}
INSTRUCTION = {"names": "in", "space": "d", "access": "read", "address": 1}
HALVES = {"low": {"name": "L"}, "high": {"name": "H"}}
FIELD = {"name": "F", "bits": "1"}
VALUE = {"name": "V", "value": "1"}
SILENCE = {"rule": "page-missing", "reason": "r"}


def test_every_kind_of_object_has_a_frame() -> None:
    kinds = {name for name, spec in schema()["$defs"].items() if spec.get("type") == "object"}
    assert set(FRAMES) == kinds
    for frame in FRAMES.values():
        assert verdicts(frame({})) == (True, True)


def plain_properties() -> list[tuple[str, str]]:
    """Return one property for each way in which a plain value is specified."""
    found: dict[str, tuple[str, str]] = {}
    for kind in FRAMES:
        for key, value in definition(f"#/$defs/{kind}")["properties"].items():
            if "x-xml" in value or (value.get("x-element", "notes") != "notes"):
                continue
            specified = {k: v for k, v in value.items() if k != "description"}
            found.setdefault(json.dumps(specified), (kind, key))
    return list(found.values())


@pytest.mark.parametrize(("kind", "key"), plain_properties())
def test_both_say_the_same_of_each_value(kind: str, key: str) -> None:
    specification = definition(f"#/$defs/{kind}")["properties"][key]
    values: list[str | int] = [*TEXTS]
    if specification.get("$ref") in NUMBERS:
        values += INTEGERS
    answers = set()
    for value in values:
        tree = canonical(FRAMES[kind]({key: value}))
        as_json_says, as_xml_says = verdicts(tree)
        assert as_json_says == as_xml_says, (key, value)
        answers.add(as_json_says)
    assert answers == {True, False}, "some values are right and some are wrong"


@pytest.mark.parametrize("kind", FRAMES)
def test_both_refuse_what_is_missing_or_unknown(kind: str) -> None:
    required = definition(f"#/$defs/{kind}")["required"]
    whole = FRAMES[kind]({})
    assert verdicts(whole) == (True, True)
    for key in required:
        tree = FRAMES[kind]({key: None})
        without = json.loads(as_json(tree), object_pairs_hook=_without_nulls)
        assert verdicts(without) == (False, False), key
    assert verdicts(FRAMES[kind]({"nonsense": "x"})) == (False, False)
    assert verdicts(FRAMES[kind]({"nonsense": [{}]})) == (False, False)


def _without_nulls(pairs: list[tuple[str, object]]) -> dict[str, object]:
    return {key: value for key, value in pairs if value is not None}


@pytest.mark.parametrize(
    ("kind", "key", "most"),
    [
        (kind, key, value["maxItems"])
        for kind in FRAMES
        for key, value in definition(f"#/$defs/{kind}")["properties"].items()
        if "maxItems" in value
    ],
)
def test_both_count_alike(kind: str, key: str, most: int) -> None:
    items: Tree = {
        "spaces": SPACE,
        "windows": WINDOW,
        "instructions": INSTRUCTION,
        "regions": REGION,
        "instances": {"name": "I", "base": "0x1"},
        "fields": FIELD,
        "reserved": {"bits": "1"},
        "values": VALUE,
        "silences": SILENCE,
        "memories": MEMORY,
        "vectors": VECTOR,
        "hazards": HAZARD,
        "words": WORD,
        "choices": CHOICE,
        "unused": {"bits": "1"},
        "sources": SOURCE,
        "dividers": DIVIDER,
        "limits": LIMIT,
        "rates": RATE,
        "options": {"divide": 2},
        "ports": PORT,
        "packages": PACKAGE,
        "pins": PIN,
    }
    item = SETTING if (kind, key) == ("configurationWord", "fields") else items[key]
    assert verdicts(FRAMES[kind]({key: [item] * most})) == (True, True)
    assert verdicts(FRAMES[kind]({key: [item] * (most + 1)})) == (False, False)
