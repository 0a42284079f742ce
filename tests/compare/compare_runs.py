"""Comparisons for the tests of reports: the examples, a chip that changed much, hostile texts."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

from small_chips import SPACES, WINDOWS, Tree, field, flags, register

from regwright.compare.differences import compare
from regwright.pipeline import check
from regwright.read.source import Source, spelling_of
from regwright.reports.compared import Compared, chosen

ROOT = Path(__file__).resolve().parents[2]
DESCRIPTIONS = ROOT / "descriptions"


def compared(
    a: Source, b: Source, only: tuple[str, ...] = (), ignore: tuple[str, ...] = ()
) -> Compared:
    """Return what reports are made of."""
    chips = [check(source).resolved for source in (a, b)]
    assert chips[0] is not None
    assert chips[1] is not None
    comparison = compare(chips[0], chips[1])
    return Compared(comparison, chosen(comparison.changes, only, ignore), (a, b))


def source(tree: Tree, name: str) -> Source:
    return Source(name, json.dumps(tree).encode(), "json")


def example(name: str) -> Source:
    data = (DESCRIPTIONS / name).read_bytes()
    return Source(name, data, spelling_of(name, data))


@cache
def examples() -> Compared:
    """Return the small chip of the greenhouse controller against the large one."""
    return compared(example("sorrel14.xml"), example("sorrel40.json"))


def tree(name: str, *registers: Tree, **more: object) -> Tree:
    found: Tree = {"format": 1, "name": name, "spaces": SPACES, "windows": WINDOWS}
    return {**found, "registers": list(registers), **more}


def _halves(name: str, first: str) -> Tree:
    return {"readFirst": first, "low": {"name": f"{name}_L"}, "high": {"name": f"{name}_H"}}


def pump_old() -> Tree:
    """Return a chip with a row, halves, a field of two pieces, and a wide register of two parts."""
    level = field("LEVEL", "3:0")
    both = [
        field("LO", "7:0", title="low part of it"),
        field("HI", "15:8", title="high part of it"),
    ]
    control = [field("MODE", "5,1:0", access="read-only"), field("RUN", 7), field("LOST", 6)]
    return tree(
        "pump1",
        register("CNT", 0x40, width=16, title="Strokes of the pump", halves=_halves("CNT", "low")),
        register("CTRL", 0x44, fields=control, reserved=[{"bits": "4:3", "write": "preserve"}]),
        register("ROW", 0x100, count=12, fields=[level]),
        register("SAME", 0x50, fields=flags("P", "Q")),
        register("GONE", 0x90, fields=flags("A", "B")),
        register("BIG", 0xA0, width=16, fields=both),
        notes="One\nTwo",
    )


def pump_new() -> Tree:
    """Return the same chip as another: renamed, moved, split, and with other bits."""
    level = field("LEVEL", "4:0", modifiedWriteValue="oneToClear")
    control = [field("MODE", "3:1"), field("RUN", 6), field("LEFT", 7)]
    return tree(
        "pump2",
        register(
            "STROKES",
            0x60,
            width=16,
            title="Strokes of the pump",
            halves=_halves("STROKES", "high"),
        ),
        register("CTRL", 0x64, fields=control, reserved=[{"bits": "5:4", "write": "1"}]),
        register("ROW", 0x140, count=12, fields=[level]),
        register("SAME", 0x50, fields=flags("P", "Q")),
        register("PART_LO", 0xA0, fields=[field("LO", "7:0", title="low part of it")]),
        register("PART_HI", 0xA1, fields=[field("HI", "7:0", title="high part of it")]),
        register("FRESH", 0xB0, when="CTRL.RUN = 1"),
        notes="One\nThree",
    )


@cache
def pumps() -> Compared:
    """Return the first pump against the second."""
    return compared(source(pump_old(), "old.json"), source(pump_new(), "new.json"))


SCRIPT = "<script>alert(1)</script>"
#: Texts that could end what they stand in: HTML, Markdown, or a line of a terminal.
EVIL = (
    f"{SCRIPT} | `x` **b** ]]> \" ' [here](https://elsewhere.example/) "
    "\u202e \x9b2J \u2028 {{ 7*7 }} {% raw %}"
)
#: The same for names, which the format allows and a rule refuses.
EVIL_NAME = f"R|`{SCRIPT}\u202e"


@cache
def hostile() -> Compared:
    """Return two chips whose texts and names are made to break out."""
    bad = field(EVIL_NAME, 0, title=EVIL, values=[{"name": EVIL_NAME, "value": 1, "title": EVIL}])
    other = {**bad, "bits": "3", "title": "x", "notes": EVIL}
    more = {"title": EVIL, "family": EVIL, "document": {"title": EVIL}, "notes": EVIL}
    one = tree("one", register(EVIL_NAME, 0x60, title=EVIL, fields=[bad]), register("A", 1), **more)
    new = tree("two", register(EVIL_NAME, 0x70, title="y", fields=[other]), notes=f"{EVIL}\n- x")
    name = f"a|`b`<i>\x1b[2J{EVIL_NAME}.json"
    return compared(source(one, name), source(new, "b.json"))
