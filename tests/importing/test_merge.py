"""A second import fills a description and overwrites nothing that was edited by hand."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

import pytest
from chips import STEADY, chips
from hypothesis import given, settings
from hypothesis import strategies as st

from regwright.importing.merge import Merged, merge
from regwright.model.origin import steps
from regwright.read.description import deciding_validator
from regwright.read.source import Source

Tree = dict[str, Any]
SORREL40 = Path(__file__).resolve().parents[2] / "descriptions" / "sorrel40.json"
SPACES = [{"name": "data", "size": "0x100"}, {"name": "io", "size": "0x40"}]
WINDOW = {"from": "io", "first": "0x00", "last": "0x3F", "into": "data", "offset": "0x20"}


def chip(*registers: Tree, **more: Any) -> Tree:
    tree = {"format": 1, "name": "sorrel", "spaces": SPACES, "registers": list(registers)}
    return {**tree, **more}


def merged(here: Tree, brought: Tree) -> Merged:
    """Merge, with what must always hold: inputs untouched, a valid result, and rest after it."""
    before = copy.deepcopy((here, brought))
    found = merge(here, brought)
    assert (here, brought) == before
    assert deciding_validator().is_valid(found.tree)
    lost(here, found.tree)
    again = merge(found.tree, brought)
    assert again.tree == found.tree
    assert not again.added
    return found


def one(here: Tree, brought: Tree) -> tuple[Tree, list[str]]:
    """Merge descriptions of one register each; return it and the conflicts."""
    found = merged(chip({"name": "CTRL", **here}), chip({"name": "CTRL", **brought}))
    (register,) = found.tree["registers"]
    return register, [told(conflict) for conflict in found.conflicts]


def told(conflict: Any) -> str:
    path = "/".join(map(str, steps(conflict.origin)[2:]))
    return f"{path}: {conflict.message.partition(';')[0]}"


def test_what_only_one_gives_is_taken() -> None:
    register, conflicts = one(
        {"address": "0x10", "page": 7}, {"reset": "0x00", "fields": [{"name": "EN", "bits": 7}]}
    )
    assert register == {
        "name": "CTRL", "address": "0x10", "reset": "0x00", "page": 7,
        "fields": [{"name": "EN", "bits": 7}],
    }  # fmt: skip
    assert list(register) == ["name", "address", "reset", "page", "fields"]
    assert not conflicts


@pytest.mark.parametrize(
    ("here", "brought"),
    [
        ({"reset": "0x0B"}, {"reset": "0d11"}),
        ({"reset": "0xx0"}, {"reset": "0bxxxx0000"}),
        ({"address": "0x2B"}, {"address": "data:0x02b"}),
        ({"address": "data:0x2B io:0x0B"}, {"address": "io:0d11 data:0x2B"}),
        ({"title": "a  b"}, {"title": "a b"}),
        ({"aliases": "A B"}, {"aliases": "B A"}),
        ({"when": "A = 1 and B=0x2"}, {"when": "A=0b1 and B = 2"}),
        ({"fields": [{"name": "A", "bits": "7"}]}, {"fields": [{"name": "A", "bits": 7}]}),
        ({"fields": [{"name": "A", "bits": "7:6"}]}, {"fields": [{"name": "A", "bits": "7,6"}]}),
        ({"flags": "A - -"}, {"fields": [{"name": "A", "bits": 2}]}),
        ({"fields": [{"name": "A", "bits": 2}]}, {"flags": "A   -  -"}),
        ({"width": 8, "access": "read-write"}, {}),
        ({"flags": "A - -"}, {"reserved": [{"bits": "1:0"}]}),
        ({}, {"width": 8, "access": "read-write", "byteOrder": "little"}),
        ({"reserved": [{"bits": "7:4"}]}, {"reserved": [{"bits": 7}, {"bits": "6:5"}]}),
    ],
)
def test_other_spellings_of_the_same_are_nothing(here: Tree, brought: Tree) -> None:
    register, conflicts = one(here, brought)
    assert register == {"name": "CTRL", **here}
    assert not conflicts


@pytest.mark.parametrize(
    ("here", "brought", "conflict"),
    [
        ({"reset": "0x0B"}, {"reset": "0x0C"}, "reset: reset is 0x0B here and 0x0C in the import"),
        (
            {"address": "0x2B"}, {"address": "data:0x2C"},
            "address: address is data:0x2B here and data:0x2C in the import",
        ),
        ({"title": "A"}, {"title": "B"}, "title: title is A here and B in the import"),
        (
            {"flags": "A -"}, {"fields": [{"name": "B", "bits": 1}]},
            "flags/0: name is A here and B in the import",
        ),
        (
            {"flags": "A -"}, {"fields": [{"name": "A", "bits": 0}]},
            "flags/0: bits is 1 here and 0 in the import",
        ),
        (
            {"fields": [{"name": "A", "bits": "1:0"}]}, {"fields": [{"name": "B", "bits": "2:1"}]},
            "fields/0: the import has B at bits 2:1, where A stands",
        ),
        (
            {"reserved": [{"bits": 3}]}, {"fields": [{"name": "B", "bits": 3}]},
            "reserved/0: the import has B at bits 3, where reserved bits stands",
        ),
        (
            {"fields": [{"name": "A", "bits": 3}]}, {"reserved": [{"bits": "4:3"}]},
            "fields/0: the import says that bits 4:3 are reserved, where A stands",
        ),
        ({"page": 7}, {"page": 8}, "page: page is another in the import"),
    ],
)  # fmt: skip
def test_what_differs_stays_and_is_told(here: Tree, brought: Tree, conflict: str) -> None:
    register, conflicts = one(here, brought)
    assert conflicts == [conflict]
    for key, value in here.items():
        assert register[key] == value


def test_conflicts_stand_at_their_place_in_the_existing_file() -> None:
    text = SORREL40.read_text(encoding="utf-8")
    source = Source("sorrel40.json", text.encode(), "json")
    found = merge(json.loads(text), {
        "format": 1, "name": "sorrel40", "spaces": [{"name": "data", "size": "0x0640"}],
        "registers": [
            {"name": "NEW", "address": "0x21"},
            {"name": "CPU_STATUS", "flags": "CARRY NULL MINUS WRAP TRACE - LOCK IRQ"},
            {"name": "UART1_CTRL", "address": "0x12B"},
        ],
    })  # fmt: skip
    places = [source.place(item.finding()) for item in found.conflicts]
    lines = text.splitlines()
    assert [lines[place.line - 1][place.column - 1 :][:4] for place in places] == ["ZERO", '"0x2']
    assert all(item.message.endswith("change it by hand") for item in found.conflicts)
    assert [steps(origin) for origin in found.added] == [["registers", 0]]


def test_flag_that_becomes_a_field_leaves_a_dash() -> None:
    register, conflicts = one(
        {"flags": "EN IE - - - - - GO"},
        {"fields": [{"name": "IE", "bits": 6, "title": "asks for an interrupt"}]},
    )
    assert register["flags"] == "EN - - - - - - GO"
    assert register["fields"] == [{"name": "IE", "bits": 6, "title": "asks for an interrupt"}]
    assert not conflicts


def test_row_of_flags_goes_when_its_last_flag_moves_and_a_bare_bit_joins_it() -> None:
    field = {"name": "EN", "bits": 1, "title": "on"}
    register, _ = one({"flags": "EN -"}, {"fields": [field]})
    assert register == {"name": "CTRL", "fields": [field]}
    register, _ = one({"flags": "EN -"}, {"fields": [{"name": "GO", "bits": 0}]})
    assert register == {"name": "CTRL", "flags": "EN GO"}


def test_registers_are_known_by_address_and_windows() -> None:
    here = chip({"name": "OUTA", "address": "data:0x2B"}, windows=[WINDOW])
    found = merged(here, chip({"name": "OUT_A", "address": "io:0x0B", "reset": "0x00"}))
    assert found.tree["registers"] == [
        {"name": "OUTA", "address": "data:0x2B io:0x0B", "reset": "0x00"}
    ]
    assert [told(item) for item in found.conflicts] == [
        "name: name is OUTA here and OUT_A in the import"
    ]


def test_read_and_write_register_at_one_address_are_two() -> None:
    here = chip({"name": "RX", "address": "0x10", "access": "read-only"})
    found = merged(here, chip({"name": "TX", "address": "0x10", "access": "write-only"}))
    assert [item["name"] for item in found.tree["registers"]] == ["RX", "TX"]
    assert not found.conflicts


def test_new_registers_go_to_their_addresses_place() -> None:
    def names(*addresses: int) -> list[Tree]:
        return [{"name": f"R{at}", "address": f"0x{at:X}"} for at in addresses]

    rising = merged(chip(*names(1, 5, 9)), chip(*names(7, 3, 0, 10)))
    assert [item["name"] for item in rising.tree["registers"]] == [
        "R0", "R1", "R3", "R5", "R7", "R9", "R10",
    ]  # fmt: skip
    falling = merged(chip(*names(9, 5, 1)), chip(*names(7, 3)))
    assert [item["name"] for item in falling.tree["registers"]] == ["R9", "R7", "R5", "R3", "R1"]


def test_what_a_block_says_for_its_registers_reaches_new_ones() -> None:
    here = chip({"name": "A", "address": "0x0", "width": 32}, width=32)
    found = merged(here, chip({"name": "B", "address": "0x8"}, access="read-only"))
    assert found.tree["registers"][1] == {
        "name": "B", "address": "0x8", "width": 8, "access": "read-only",
    }  # fmt: skip
    assert "access" not in found.tree


def test_bytes_fill_the_halves_of_a_wide_register() -> None:
    halves = {"low": {"name": "COUNT_L"}, "high": {"name": "COUNT_H"}}
    whole = {"name": "COUNT", "address": "0x10", "width": 16, "halves": halves}
    found = merged(
        chip(whole),
        chip(
            {"name": "COUNT_L", "address": "0x10", "page": 9, "reset": "0x34"},
            {"name": "COUNT_H", "address": "0x11", "reset": "0x12", "flags": "UP - - - - - - -"},
        ),
    )
    (register,) = found.tree["registers"]
    assert register["reset"] == "0x1234"
    assert register["fields"] == [{"name": "UP", "bits": 15}]
    assert register["halves"]["low"]["page"] == 9
    assert not found.conflicts


@pytest.mark.parametrize(
    ("brought", "stays"),
    [
        ({"address": "0x10", "reset": "0x00"}, False),
        ({"address": "0x10", "reset": "0x00", "review": "is it?"}, True),
        ({"address": "0x11", "reset": "0x00"}, True),
        ({"reset": "0x00"}, True),
        ({"address": "0x10"}, True),
    ],
)
def test_mark_for_review_goes_when_all_of_it_is_confirmed(brought: Tree, *, stays: bool) -> None:
    register, _ = one({"address": "0x10", "reset": "0x00", "review": "0 or O?"}, brought)
    assert ("review" in register) == stays


def test_mark_comes_with_what_it_is_about() -> None:
    register, _ = one({}, {"reset": "0x10", "review": "10 or 1O?"})
    assert register["review"] == "10 or 1O?"
    register, _ = one({"reset": "0x10"}, {"reset": "0x10", "review": "10 or 1O?"})
    assert "review" not in register


def test_what_an_import_says_of_itself_comes_only_with_something_new() -> None:
    printed = {"printed": "row 4: 0x10 | CTRL", "comment": "worked out"}
    register, _ = one({"reset": "0x10"}, {"reset": "0x10", **printed})
    assert register == {"name": "CTRL", "reset": "0x10"}
    register, _ = one({}, {"reset": "0x10", **printed})
    assert register == {"name": "CTRL", "reset": "0x10", "printed": "row 4: 0x10 | CTRL"}


def test_registers_of_an_imported_block_are_known_by_their_names_on_the_chip() -> None:
    flat = chip(
        {"name": "UART0_CTRL", "address": "0x20"}, {"name": "UART1_CTRL", "address": "0x30"}
    )
    registers = [
        {"name": "CTRL", "offset": "0x0", "reset": "0x01"},
        {"name": "DATA", "offset": "0x1"},
    ]
    block = {"name": "UART", "count": 2, "stride": "0x10", "base": "0x20"}
    blocks = {**chip(), "blocks": [{**block, "registers": registers}]}
    found = merged(flat, blocks)
    assert [item["reset"] for item in found.tree["registers"]] == ["0x01", "0x01"]
    assert found.tree["blocks"] == [{**block, "registers": registers[1:]}]
    assert not found.conflicts
    assert merged(blocks, flat).tree == blocks


def test_flat_table_of_a_chip_with_blocks_adds_nothing() -> None:
    from regwright.importing.tables.printing import echo
    from regwright.importing.tables.reading import Wishes, import_table

    tree = json.loads(SORREL40.read_text(encoding="utf-8"))
    text = echo(tree, "summary", "csv").encode()
    brought = import_table("summary.csv", text, Wishes("sorrel40")).tree
    assert brought is not None
    found = merge(tree, brought)
    assert [item["name"] for item in found.tree["registers"]] == [
        item["name"] for item in tree["registers"]
    ]
    assert [item["name"] for item in found.tree["blocks"]] == ["UART"]
    assert not found.conflicts
    assert not merge(found.tree, brought).added


@settings(STEADY, max_examples=15)
@given(chips())
def test_merging_a_description_with_itself_changes_nothing(tree: Tree) -> None:
    found = merge(tree, tree)
    assert found.tree == tree
    assert not found.conflicts
    assert not found.added


PRUNED = ("registers", "fields", "blocks", "values", "reserved", "spaces")
LEFT_OUT = ("page", "address", "title", "review", "flags", "reset", "width", "access")


def thinned(draw: st.DrawFn, node: Any, key: str = "") -> Any:
    """Return a tree with some elements and properties left out."""
    if isinstance(node, list):
        kept = [item for item in node if key not in PRUNED or draw(st.booleans())]
        return [thinned(draw, item) for item in (kept or node[:1])]
    if not isinstance(node, dict):
        return node
    names = [name for name in node if name not in LEFT_OUT or key or draw(st.booleans())]
    return {name: thinned(draw, node[name], name) for name in names}


@st.composite
def views(draw: st.DrawFn) -> tuple[Tree, Tree]:
    """Return two descriptions that each leave out something of one, or two of their own."""
    tree = draw(chips())
    other = tree if draw(st.integers(0, 2)) else draw(chips())
    both = thinned(draw, tree), thinned(draw, other)
    is_valid = deciding_validator().is_valid
    return (both[0], both[1]) if all(map(is_valid, both)) else (tree, other)


@settings(STEADY, max_examples=12)
@given(views())
def test_nothing_is_lost_and_merging_again_adds_nothing(pair: tuple[Tree, Tree]) -> None:
    merged(*pair)


def lost(here: Any, found: Any) -> None:
    """Fail where a plain value that stood here is gone; marks and moved flags may be."""
    if isinstance(here, dict):
        for key, value in here.items():
            if key not in ("review", "flags", "address", "aliases"):
                lost(value, found[key])
    elif isinstance(here, list):
        assert len(found) >= len(here)
    else:
        assert found == here


@pytest.mark.parametrize(
    "bits",
    [
        {"flags": "- MODE2 MODE1 MODE0 - - - EN"},
        {
            "fields": [
                {"name": "MODE2", "bits": "6", "printed": "row 2: MODE2"},
                {"name": "MODE1", "bits": 5},
                {"name": "MODE0", "bits": "4"},
                {"name": "EN", "bits": "0"},
            ]
        },
    ],
)
def test_a_field_takes_the_place_of_its_bits(bits: dict[str, Any]) -> None:
    mode = {"name": "MODE", "bits": "6:4", "title": "how", "values": [{"name": "OFF", "value": 0}]}
    spaces = [{"name": "data", "size": "0x100"}]
    here = {
        "format": 1,
        "name": "c",
        "spaces": spaces,
        "registers": [{"name": "CTRL", "address": "0x40", **bits}],
    }
    brought = {**here, "registers": [{"name": "CTRL", "address": "0x40", "fields": [mode]}]}
    merged = merge(here, brought)
    assert merged.conflicts == ()
    (register,) = merged.tree["registers"]
    assert mode in register["fields"]
    names = {*register.get("flags", "").split(), *(item["name"] for item in register["fields"])}
    assert names - {"-"} == {"MODE", "EN"}
    again = merge(merged.tree, brought)
    assert (again.tree, again.conflicts, again.added) == (merged.tree, (), ())


def test_bits_of_which_more_is_known_stay() -> None:
    field = {"name": "MODE1", "bits": "1", "title": "edited by hand"}
    tree = {"format": 1, "name": "c", "spaces": [{"name": "data", "size": "0x100"}]}
    here = {
        **tree,
        "registers": [
            {"name": "CTRL", "address": "0x40", "fields": [field, {"name": "MODE0", "bits": "0"}]}
        ],
    }
    wide = [{"name": "MODE", "bits": "1:0"}]
    brought = {**tree, "registers": [{"name": "CTRL", "address": "0x40", "fields": wide}]}
    merged = merge(here, brought)
    assert merged.tree == here
    assert len(merged.conflicts) == 1
