"""Laws of comparing: nothing differs from itself, both ways mirror each other, edits are found."""

from __future__ import annotations

import copy
import random
from collections import Counter
from itertools import product

import chip_edits
import field_edits
import pytest
import register_edits
import rest_edits
import value_edits
from chips import STEADY, Tree, chips
from edited_chips import BASE
from edits import EDITS, Edited
from hypothesis import given, settings
from hypothesis import strategies as st
from mutations import spoiled
from spelled import as_json, objects_in, source

from conftest import DESCRIPTIONS
from regwright.compare.changes import Change, mirrored
from regwright.compare.differences import compare
from regwright.compare.match_file import match_text, read_match
from regwright.compare.pairs import Matching
from regwright.compare.pins import NO_PINS, Pins
from regwright.read.description import read_description, read_tree
from regwright.read.json_text import NotRead
from regwright.read.source import Source
from regwright.resolve.chip import ResolvedChip, TooManyRegisters, resolve
from regwright.write.spelling_xml import to_xml

#: The modules of edits; each notes its own in EDITS.
MODULES = chip_edits, register_edits, field_edits, value_edits, rest_edits

FILES = sorted(path for path in DESCRIPTIONS.iterdir() if path.suffix in (".json", ".xml"))
SHIPPED = [Source(path.name, path.read_bytes(), path.suffix[1:]) for path in FILES]
BASES: list[Tree] = [BASE, *(read_tree(text)[0] for text in SHIPPED)]
NAMES = ["base", *(path.stem for path in FILES)]


def resolved(text: Source) -> ResolvedChip | None:
    """Return a chip, or nothing for one that cannot be read."""
    try:
        chip = read_description(text).chip
        return resolve(chip) if chip else None
    except (NotRead, TooManyRegisters):
        return None


def of_tree(tree: Tree) -> ResolvedChip:
    reading = read_description(source(as_json(tree), "json"))
    assert reading.chip is not None, reading.findings
    return resolve(reading.chip)


def same_kinds(found: list[Change]) -> list[tuple[str, ...]]:
    return sorted(change[:5] for change in found)


# Identity.

#: Lists whose order says nothing of the chip; that of a clock's dividers does.
LISTS = (
    *("registers", "fields", "values", "blocks", "instances", "instructions", "memories"),
    *("vectors", "words", "unused", "choices", "hazards", "sources", "options", "limits"),
    *("rates", "ports", "packages", "pins"),
)


@settings(STEADY, max_examples=100)
@given(chips())
def test_no_chip_differs_from_itself_in_either_spelling(tree: Tree) -> None:
    one, other = (resolved(source(as_json(tree), "json")), resolved(source(to_xml(tree), "xml")))
    if one is None or other is None:
        return
    assert compare(one, one).changes == []
    assert compare(one, other).changes == []


@pytest.mark.parametrize("tree", BASES, ids=NAMES)
def test_no_shipped_description_differs_from_its_other_spelling(tree: Tree) -> None:
    one, other = of_tree(tree), resolved(source(to_xml(tree), "xml"))
    assert other is not None
    assert compare(one, other).changes == []


@pytest.mark.parametrize("tree", BASES, ids=NAMES)
def test_the_order_of_a_description_makes_no_difference(tree: Tree) -> None:
    """But for what is reported: the same, whatever stands first."""
    turned = copy.deepcopy(tree)
    for node, _, _ in objects_in(turned):
        for key in LISTS:
            if isinstance(node.get(key), list):  # a port names its registers in a text
                node[key].reverse()
    assert compare(of_tree(tree), of_tree(turned)).changes == []


# Symmetry.


def pins_for(a: ResolvedChip, b: ResolvedChip, rng: random.Random) -> Pins:
    """Return some pairs, forbidden pairs and lone names of two chips, each name once."""
    found = NO_PINS
    for names in (_registers, _fields):
        left, right = (sorted(set(names(chip))) for chip in (a, b))
        rng.shuffle(left)
        rng.shuffle(right)
        found = Pins(
            found.pairs | frozenset(zip(left[:3], right[:3], strict=False)),
            found.forbidden | frozenset(zip(left[3:6], right[3:6], strict=False)),
            found.alone_in_a | frozenset(left[6:8]),
            found.alone_in_b | frozenset(right[6:8]),
        )
    return found


def _registers(chip: ResolvedChip) -> list[str]:
    return [placed.name for placed in chip.registers]


def _fields(chip: ResolvedChip) -> list[str]:
    return [
        f"{placed.name}.{item.field.name}"
        for placed in chip.registers
        for item in placed.facts.fields
    ]


def assert_mirror(a: ResolvedChip, b: ResolvedChip, pins: Pins) -> None:
    there, back = compare(a, b, pins), compare(b, a, pins.mirrored())
    assert Counter(there.changes) == Counter(map(mirrored, back.changes))


@settings(STEADY, max_examples=30)
@given(chips(), chips(), st.randoms(use_true_random=False))
def test_unrelated_chips_both_ways(one: Tree, other: Tree, rng: random.Random) -> None:
    a, b = (resolved(source(as_json(tree), "json")) for tree in (one, other))
    if a is not None and b is not None:
        assert_mirror(a, b, NO_PINS)
        assert_mirror(a, b, pins_for(a, b, rng))


@settings(STEADY, max_examples=60)
@given(spoiled(), st.randoms(use_true_random=False))
def test_changed_chips_both_ways(tree: Tree, rng: random.Random) -> None:
    """A generated chip against itself with its names and numbers shuffled among its nodes."""
    other = copy.deepcopy(tree)
    nodes = [node for node, name, _ in objects_in(other) if name in ("register", "field", "value")]
    for key in ("name", "title", "bits", "address", "aliases", "value", "access"):
        owners = [node for node in nodes if key in node and rng.random() < 0.5]
        values = [node[key] for node in owners]
        rng.shuffle(values)
        for node, value in zip(owners, values, strict=True):
            node[key] = value
    a, b = (resolved(source(as_json(item), "json")) for item in (tree, other))
    if a is not None and b is not None:
        assert_mirror(a, b, NO_PINS)
        assert_mirror(a, b, pins_for(a, b, rng))


@pytest.mark.parametrize("second", range(len(BASES)), ids=NAMES)
@pytest.mark.parametrize("first", range(len(BASES)), ids=NAMES)
def test_shipped_descriptions_both_ways(first: int, second: int) -> None:
    a, b = of_tree(BASES[first]), of_tree(BASES[second])
    assert_mirror(a, b, NO_PINS)
    for seed in range(3):
        assert_mirror(a, b, pins_for(a, b, random.Random(seed)))


# What a written file of matches gives again.


def names_of(matching: Matching) -> tuple[Counter[tuple[str, str]], Counter[tuple[str, str]]]:
    registers = Counter(
        (pair.a.name if pair.a else "", pair.b.name if pair.b else "")
        for pair in matching.registers
    )
    fields = Counter(
        (pair.a.name if pair.a else "", pair.b.name if pair.b else "") for pair in matching.fields
    )
    return registers, fields


@pytest.mark.parametrize("number", range(40))
def test_a_file_of_matches_gives_them_again(
    number: int, tmp_path_factory: pytest.TempPathFactory
) -> None:
    """Of a description and an edited one, with pins of all kinds."""
    rng = random.Random(number)
    tree = BASES[number % len(BASES)]
    edited = Edited(tree, rng)
    for name in rng.choices(sorted(EDITS), k=8):
        EDITS[name](edited)
    a, b = of_tree(tree), of_tree(edited.tree)
    pins = pins_for(a, b, rng) if number % 2 else NO_PINS
    matching = compare(a, b, pins).matching
    path = tmp_path_factory.mktemp("match") / "match.json"
    path.write_text(match_text(matching, pins), encoding="utf-8")
    again = read_match(str(path), a, b)
    assert names_of(compare(a, b, again).matching) == names_of(matching)


# Edits: all of them, and nothing else.


def test_each_module_of_edits_has_noted_them() -> None:
    for module in MODULES:
        assert any(function.__module__ == module.__name__ for function in EDITS.values())


@pytest.mark.parametrize("name", sorted(EDITS))
def test_one_edit_is_found_and_nothing_else(name: str) -> None:
    done = 0
    for seed, tree in product(range(12), BASES):
        edited = Edited(tree, random.Random(seed))
        if EDITS[name](edited):
            done += 1
            found = compare(of_tree(tree), of_tree(edited.tree)).changes
            assert same_kinds(found) == edited.rows()
        if done == 12:
            break
    assert done >= 3, "an edit that no description lets happen"


@settings(STEADY, max_examples=250)
@given(st.sampled_from(range(len(BASES))), st.randoms(use_true_random=False), st.data())
def test_edits_are_found_and_nothing_else(
    number: int, rng: random.Random, data: st.DataObject
) -> None:
    tree = BASES[number]
    edited = Edited(tree, rng)
    for name in data.draw(st.lists(st.sampled_from(sorted(EDITS)), min_size=2, max_size=8)):
        EDITS[name](edited)
    a, b = of_tree(tree), of_tree(edited.tree)
    assert same_kinds(compare(a, b).changes) == edited.rows()
