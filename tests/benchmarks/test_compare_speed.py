"""The promised speed of comparing: against reading, and by the size of the descriptions.

Times in process are those that the processor worked. A machine that is busy with something else
distorts them all the same, so what is too slow is measured again, a few times at the most.
"""

from __future__ import annotations

import gc
import json
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from chips import description
from measure import REGWRIGHT, side_by_side

from regwright.compare.differences import compare
from regwright.compare.groups import collapsed
from regwright.compare.matching import match
from regwright.read.description import read_description
from regwright.read.source import Source
from regwright.resolve.chip import ResolvedChip, resolve
from regwright.write.spelling_json import to_json
from regwright.write.spelling_xml import to_xml

ATTEMPTS = 5
FEW, MANY = 1000, 8000
Tree = dict[str, Any]


@pytest.fixture(autouse=True)
def _no_collector() -> Iterator[None]:
    """As a command does: it leaves the collector of cycles off."""
    gc.disable()
    yield
    gc.enable()


def resolved(text: str, spelling: str) -> ResolvedChip:
    chip = read_description(Source(f"bench.{spelling}", text.encode(), spelling)).chip
    assert chip is not None
    return resolve(chip)


def seconds(work: Callable[[], object], rounds: int = 3) -> float:
    """Return the best of some times that ``work`` took."""
    taken = []
    for _ in range(rounds):
        start = time.process_time()
        work()
        taken.append(time.process_time() - start)
    return min(taken)


def at_most(limit: float, measure: Callable[[], float]) -> None:
    ratios = []
    for _ in range(ATTEMPTS):
        ratios.append(measure())
        if ratios[-1] <= limit:
            return
    pytest.fail(f"more than {limit} x each time: {', '.join(f'{r:.2f}' for r in ratios)}")


def differing(registers: int) -> Tree:
    """Return the benchmark's description with another address, name, title, bit in many places."""
    tree = description(registers)
    for number, node in enumerate(tree["registers"]):
        if number % 3 == 0:
            node["address"] = f"data:0x{0x10060 + number:X}"
        if number % 5 == 0:
            node["reset"] = "0x5A"
        if number % 7 == 0:
            node["name"] = f"NEW{number}"
        for field in node["fields"]:
            if number % 11 == 0:
                field["bits"] = str(7 - int(field["bits"]))
            if number % 13 == 0:
                field["name"] = f"G{field['name']}"
            if number % 4 == 0:
                field["access"] = "read-only"
            if number % 2:
                field["title"] += ", once more"
    tree["registers"].insert(0, {"name": "FIRST", "address": "data:0x50"})
    return tree


SPELLINGS = {"json": to_json, "xml": to_xml}


@pytest.mark.parametrize("spelling", ["json", "xml"])
def test_comparing_5000_registers_takes_at_most_twice_as_long_as_reading(spelling: str) -> None:
    texts = [SPELLINGS[spelling](tree) for tree in (description(5000), differing(5000))]

    def measure() -> float:
        reading = sum(seconds(lambda text=text: resolved(text, spelling)) for text in texts)  # type: ignore[misc]
        a, b = (resolved(text, spelling) for text in texts)
        return seconds(lambda: collapsed(compare(a, b).changes)) / reading

    at_most(2, measure)


@pytest.mark.parametrize("spelling", ["json", "xml"])
def test_a_comparison_takes_at_most_twice_as_long_as_a_check(tmp_path: Path, spelling: str) -> None:
    """Whole commands: both descriptions are checked before they are compared."""
    paths = []
    for name, tree in (("a", description(5000)), ("b", differing(5000))):
        path = tmp_path / f"{name}.{spelling}"
        path.write_text(SPELLINGS[spelling](tree), encoding="utf-8")
        paths.append(str(path))

    def measure() -> float:
        commands = {
            "check": [*REGWRIGHT, "check", *paths],
            "compare": [*REGWRIGHT, "compare", *paths],
        }
        costs = side_by_side(commands, tmp_path / "cache", 2)
        return costs["compare"].seconds / costs["check"].seconds

    at_most(2, measure)


# Growth.


def _each(tree: Tree, change: Callable[[int, Tree], None]) -> Tree:
    for number, node in enumerate(tree["registers"]):
        change(number, node)
    return tree


def _renamed(tree: Tree, start: str = "Z") -> Tree:
    return _each(tree, lambda _, node: node.update(name=start + node["name"]))


def _moved(tree: Tree) -> Tree:
    return _each(tree, lambda n, node: node.update(address=f"data:0x{0x20000 + n:X}"))


def _untitled(tree: Tree) -> Tree:
    for node in tree["registers"]:
        for item in (node, *node["fields"]):
            del item["title"]
    return tree


def _titled_alike(tree: Tree) -> Tree:
    for node in tree["registers"]:
        for item in (node, *node["fields"]):
            item["title"] = "The lamp of the greenhouse"
    return tree


def _other_names(tree: Tree) -> Tree:
    """Give everything a name and a title that nothing in the other description has."""
    for node in _renamed(tree, "OTHER_")["registers"]:
        node["title"] = f"Another {node['title']}"
        for item in node["fields"]:
            item["name"] = f"Q{item['name']}"
            item["title"] = f"Another {item['title']}"
    return tree


def _other_fields(tree: Tree) -> Tree:
    """Give each field a name that no other has."""
    for number, node in enumerate(tree["registers"]):
        for item in node["fields"]:
            item["name"] += f"_OF_{number}"
    return tree


def _in_one_block(tree: Tree, name: str) -> Tree:
    registers = tree.pop("registers")
    for number, node in enumerate(registers):
        del node["address"]
        node["offset"] = f"0x{number:X}"
    return {**tree, "blocks": [{"name": name, "base": "data:0x60", "registers": registers}]}


def _in_blocks_of_ten(tree: Tree, name: str) -> Tree:
    registers = tree.pop("registers")
    blocks = []
    for number in range(len(registers) // 10):
        inside = registers[10 * number : 10 * number + 10]
        for place, node in enumerate(inside):
            del node["address"]
            node |= {"name": f"R{place}", "offset": f"0x{place:X}"}
        base = f"data:0x{0x60 + 10 * number:X}"
        blocks.append({"name": f"{name}{number}", "base": base, "registers": inside})
    return {**tree, "blocks": blocks}


Case = Callable[[int], tuple[Tree, Tree]]
CASES: dict[str, Case] = {
    "the same": lambda n: (description(n), description(n)),
    "differing in many places": lambda n: (description(n), differing(n)),
    "all names different": lambda n: (description(n), _other_names(description(n))),
    "every register renamed": lambda n: (description(n), _renamed(description(n))),
    "all titles the same": lambda n: (
        _titled_alike(description(n)),
        _titled_alike(_renamed(description(n))),
    ),
    "no titles, all fields the same": lambda n: (
        _untitled(description(n)),
        _untitled(_moved(_renamed(description(n)))),
    ),
    "all fields different": lambda n: (
        _other_fields(_untitled(description(n))),
        _other_fields(_untitled(_moved(_renamed(description(n))))),
    ),
    "names with many parts": lambda n: (
        _untitled(_renamed(description(n), "A_B_C_D_")),
        _untitled(_moved(_renamed(description(n), "E_F_G_H_"))),
    ),
    "one block with all registers": lambda n: (
        _in_one_block(description(n), "A"),
        _in_one_block(_renamed(description(n)), "A"),
    ),
    "one renamed block": lambda n: (
        _in_one_block(_untitled(description(n)), "A"),
        _in_one_block(_untitled(_renamed(description(n))), "B"),
    ),
    "many blocks that might all be it": lambda n: (
        _in_blocks_of_ten(description(n), "A"),
        _in_blocks_of_ten(description(n), "B"),
    ),
}


@pytest.mark.parametrize("name", list(CASES))
def test_matching_a_register_does_not_cost_more_among_many(name: str) -> None:
    """From 1,000 to 8,000 registers: each costs at most 1.5 times as much."""
    few, many = (
        tuple(resolved(json.dumps(tree), "json") for tree in CASES[name](number))
        for number in (FEW, MANY)
    )

    def measure() -> float:
        return seconds(lambda: match(*many)) / seconds(lambda: match(*few), 5) * FEW / MANY

    at_most(1.5, measure)
