"""Spoil a description, in a way that both spellings can express or in any way at all."""

from __future__ import annotations

import copy
from typing import Any

from chips import TEXT, chips
from hypothesis import strategies as st
from spelled import NUMBERS, Tree, objects_in

from regwright.format.shape import definition, is_integer, shapes

#: Values that are right somewhere and wrong elsewhere, and some that are right nowhere.
TEXTS = [
    *("", " ", "  ", "0", "1", "7", "00", "01", "08", "9", "10", "24", "-1", "+1", "1.0", "1e3"),
    *("0x", "0x1F", "0X1F", "0x_1", "0x1_", "0x1O", "0b2", "0b01", "0b0x", "0d31", "0d3_1"),
    *("0xxF", "$1F", "1Fh", " 0x1F", "0x1F ", "0x1F\n", "\n0x1F", "0x1F\t", "0x1F\r"),
    *("io:0x18", "io:0x18 data:0x38", "io:0x18  data:0x38", "IO:0x18", "io:18", "io: 0x18"),
    *("7:0", "7:0,3", "4..6", "100", "7:", ",7", "63", "64", "99", "7:0\n", "a:b"),
    *(
        "8 MHz",
        "8MHz",
        "2.7 V",
        "10 %",
        "x = y",
        "x=y and z = a",
        "B.2",
        "B.100",
        "A1",
        "locks-out",
    ),
    *("flash", "step", "internal", "timer", "dual", "supply", "x y", "x  y"),
    *("true", "false", "True", "yes", "chip", "device", "ram", "read-only", "Read-Only", "clear"),
    *("oneToClear", "little", "high", "preserve", "write", "read-write\n", " read-write"),
    *("A", "a", "_a", "1a", "A-B", "A B", "a\n", "a\nb", "a\tb", "a\rb", "a\r\nb", "\ta", "é"),
    *(
        "\x7f",
        "\u0085",
        "\u00a0",
        "\u2028",
        "\u2003A",
        "\ufeff",
        "A\u0301",
        "𝄞",
        "\u0661",
        "\uff21",
        "0x\uff11",
    ),
    *(
        "EN - IE",
        "EN  -",
        " EN",
        "EN ",
        "EN\tIE",
        "A.B = 1",
        "A.B=0x1 and C = 0",
        "A = 10",
        "A == 1",
    ),
    *("2026", "2026-13", "2026-00", "2026-02-31", "2026-1", "26", "2026-02\n", "-", "--", "a--b"),
    *("LCR UART_LCR", "LCR  UART_LCR", "LCR, UART_LCR", "bset.b ld", "x. .y", "a 1", "16", "32"),
    *("function", "modify"),
    *("a-b", "page-missing", "-a", "a-", "a-B", "a-1", "z-" * 23 + "zz", "z-" * 23 + "zzz"),
    *(
        "x" * n
        for n in (24, 25, 40, 41, 48, 49, 80, 81, 200, 201, 400, 401, 1000, 1001, 4000, 4001)
    ),
    *("é" * 80, "é" * 81, "𝄞" * 200, "𝄞" * 201, "0x" + "0" * 38, "0x" + "0" * 39, "1" * 17),
]
INTEGERS = [-1, 0, 1, 2, 8, 9, 10, 16, 17, 32, 63, 64, 65, 99, 100, 4096, 4097, 99999, 100000]
INTEGERS += [10**17]
NAMES = ["nmae", "x", "fields", "registers", "spaces", "halves", "singleBit", "document", "name"]
NAMES += ["bits", "value", "format", "title", "notes", "width", "Name", "base", "é"]
NAMES += ["aliases", "instructions", "names", "address", "intWidth"]


def spoiled() -> st.SearchStrategy[Tree]:
    """Return trees with one to three changes that XML can express as well as JSON."""
    return st.builds(
        _spoil, chips(), st.lists(st.randoms(use_true_random=False), min_size=1, max_size=3)
    )


def _spoil(tree: Tree, randoms: list[Any]) -> Tree:
    tree = copy.deepcopy(tree)
    for random in randoms:
        target, name, _ = random.choice(list(objects_in(tree)))
        change = random.choice([_set_plain, _set_plain, _set_plain, _remove, _add, _repeat])
        change(random, target, name)
    return canonical(tree)


def _set_plain(random: Any, target: Tree, name: str | None) -> None:
    plain = list(shapes()[name].attributes) if name else ["x"]
    if name and "notes" in shapes()[name].by_property:
        plain.append("notes")
    key = random.choice(plain)
    value = random.choice(INTEGERS if random.random() < 0.2 else TEXTS)
    target[key] = str(value) if key == "notes" else value


def _remove(random: Any, target: Tree, _name: str | None) -> None:
    if target:
        del target[random.choice(list(target))]


def _add(random: Any, target: Tree, name: str | None) -> None:
    """Add something that has no place here, or a child without what it needs."""
    key = random.choice(NAMES)
    child = shapes()[name].by_property.get(key) if name else None
    if child and child.shape:
        target[key] = [{}] if child.many else {}
    elif child or (name and key in shapes()[name].attributes):
        target[key] = random.choice(TEXTS)
    else:
        target[key] = random.choice(["", "0x1", "text"])


def _repeat(random: Any, target: Tree, _name: str | None) -> None:
    """Make a list as long as it may be, or one longer."""
    lists = [key for key, value in target.items() if isinstance(value, list) and value]
    if lists:
        key = random.choice(lists)
        target[key] = [target[key][0]] * random.choice([16, 17, 64, 65])


def canonical(tree: Any, name: str | None = "chip") -> Any:
    """Return ``tree`` with each plain value in the one type that its XML spelling means."""
    if name is None:
        return tree
    properties = definition(f"#/$defs/{name}")["properties"]
    found: Tree = {}
    for key, value in tree.items():
        child = shapes()[name].by_property.get(key)
        if isinstance(value, list):
            found[key] = [canonical(item, child.shape if child else None) for item in value]
        elif isinstance(value, dict):
            found[key] = canonical(value, child.shape if child else None)
        else:
            found[key] = _typed(value, properties.get(key, {}))
    return found


def _typed(value: Any, specification: dict[str, Any]) -> Any:
    if specification and is_integer(specification):
        # XML drops white space around a whole number, but not around one of a few words.
        is_word = "enum" in specification
        text = str(value) if is_word else str(value).strip(" \t\r\n")
        is_plain = text.isascii() and text.isdigit() and str(int(text)) == text
        return int(text) if is_plain else str(value)
    if specification.get("type") == "boolean":
        known: dict[Any, Any] = {True: True, False: False, "true": True, "false": False}
        return known[value] if type(value) is not int and value in known else str(value)
    if specification.get("$ref") in NUMBERS and not isinstance(value, bool):
        return value
    return str(value)


def anything() -> st.SearchStrategy[Any]:
    """Return any JSON value that a file may hold: no fractions, they are refused before."""
    plain = st.one_of(
        st.none(),
        st.booleans(),
        st.sampled_from(INTEGERS),
        st.integers(-(10**18), 10**18),
        st.sampled_from(TEXTS),
        st.text(TEXT + "\n\t\r\x00\x1f\x7f\ufffe\uffff", max_size=12),
    )
    names = st.sampled_from([*NAMES, "", "blocks", "comment", "$schema", "flags", "reserved"])
    return st.recursive(
        plain,
        lambda inner: st.one_of(
            st.lists(inner, max_size=3), st.dictionaries(names, inner, max_size=4)
        ),
        max_leaves=8,
    )


def ruined() -> st.SearchStrategy[Any]:
    """Return descriptions in which any values are replaced by anything."""
    changes = st.lists(st.tuples(st.randoms(use_true_random=False), anything()), max_size=3)
    return st.one_of(anything(), st.builds(_ruin, chips(), changes), spoiled())


def _ruin(tree: Tree, changes: list[tuple[Any, Any]]) -> Tree:
    tree = copy.deepcopy(tree)
    for random, value in changes:
        target, _, _ = random.choice(list(objects_in(tree)))
        key = random.choice([*target, *NAMES, "comment"])
        existing = target.get(key)
        if isinstance(existing, list) and existing and random.random() < 0.5:
            existing[random.randrange(len(existing))] = value
        else:
            target[key] = value
    return tree


def nested(depth: int, innermost: Any) -> Tree:
    """Return a description with blocks nested ``depth`` deep around ``innermost``."""
    block = innermost
    for _ in range(depth):
        block = {"name": "B", "blocks": [block]}
    return {"format": 1, "name": "a", "spaces": [{"name": "d", "size": "0x9"}], "blocks": [block]}
