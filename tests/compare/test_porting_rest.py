"""What concerns every program that moves, whatever registers it uses, worked out by hand.

Each pair of chips has one register, which is the same in both.
"""

from __future__ import annotations

from typing import Any

import pytest
from memory_cases import FLASH, RESET, TICK, WORDS
from small_chips import SPACES, Tree
from test_porting import R, large, moved, small

RAM: Tree = {"name": "RAM", "kind": "ram", "space": "data", "first": "0x100", "size": "0x200"}
ROOM = [*SPACES, WORDS]
Item = tuple[str, str, str]


def whole(one: dict[str, Any], two: dict[str, Any], text: str = "R = 0;") -> list[Item]:
    """Return thing, message and what to do of all work; it is the same in any program."""
    chips = small(R, spaces=ROOM, **one), large(R, spaces=ROOM, **two)
    work = moved(*chips, text).porting.work
    found = [item for item in work if item.danger == "whole"]
    assert work == found
    assert not any(item.places for item in found)
    assert moved(*chips, "int x;").porting.work == found
    return [(item.thing, item.message, item.instead) for item in found]


LINKER = "give the linker the new memory, and see that all fits"


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (RAM, {**RAM, "first": "0x140"}, "data 0x100 → data 0x140"),
        (
            *(RAM, {**RAM, "size": "0x300"}),
            "0x200 units (512 bytes) → 0x300 units (768 bytes)",
        ),
        (
            *(RAM, {**RAM, "size": "0x40"}),
            "smaller: 0x200 units (512 bytes) → 0x40 units (64 bytes)",
        ),
        (
            *(FLASH, {**FLASH, "size": "0x200"}),
            "smaller: 0x400 units (2048 bytes) → 0x200 units (1024 bytes)",
        ),
        # what is larger has room for the program; where its end is says nothing
        (FLASH, {**FLASH, "size": "0x800"}, ""),
        (FLASH, {**FLASH, "pageSize": "0x20"}, ""),
        # of the configuration its settings tell
        ({**FLASH, "kind": "configuration"}, {**FLASH, "kind": "configuration", "size": 1}, ""),
    ],
)
def test_memory_that_is_smaller_or_elsewhere(old: Tree, new: Tree, message: str) -> None:
    expected = [(f"memory {old['name']}", message, LINKER)] if message else []
    assert whole({"memories": [old]}, {"memories": [new]}) == expected


def test_memory_that_is_gone() -> None:
    gone = "two has no such memory: ram, data 0x100, 0x200 units (512 bytes)"
    assert whole({"memories": [FLASH, RAM]}, {"memories": [FLASH]}) == [
        ("memory RAM", gone, LINKER)
    ]


def test_memories_tell_all_that_regions_do() -> None:
    def chip(first: str) -> dict[str, Any]:
        region = {"name": "RAM", "kind": "ram", "first": first, "last": "0x3FF"}
        return {
            "spaces": [{**SPACES[0], "regions": [region]}, SPACES[1]],
            "memories": [{**RAM, "first": first}],
        }

    work = moved(small(R, **chip("0x100")), large(R, **chip("0x140")), "R = 0;").porting.work
    assert [(item.danger, item.thing) for item in work] == [("whole", "memory RAM")]


def table(*vectors: Tree, size: int = 1) -> dict[str, Any]:
    return {"vectorTable": {"space": "program", "size": size, "vectors": list(vectors)}}


START_UP = "take the start-up code and the linker script for the new chip, and its numbers"


def test_vectors_that_both_have() -> None:
    ring, bell = ({"number": n, "name": name} for n, name in ((2, "RING"), (3, "BELL")))
    one = table(RESET, TICK, ring, bell)
    two = table(RESET, {**ring, "number": 1}, {**TICK, "number": 2}, {"number": 9, "name": "NEW"})
    message = "other numbers: TICK 1 → 2, RING 2 → 1; two has no BELL"
    assert whole(one, two) == [("vectors", message, START_UP)]
    assert whole(table(RESET, TICK), table(RESET, TICK, {"number": 9, "name": "NEW"})) == []


def test_vectors_that_take_more_room() -> None:
    message = (
        "the table is now 2 units each, program from 0x00 on; was 1 unit each, program from 0x00 on"
    )
    assert whole(table(RESET), table(RESET, size=2)) == [("vectors", message, START_UP)]


def test_many_vectors_are_named_in_part() -> None:
    def of(first: int) -> dict[str, Any]:
        return table(RESET, *({"number": first + n, "name": f"V{n}"} for n in range(10)))

    [(_, message, _)] = whole(of(1), of(2))
    assert message.startswith("other numbers: V0 1 → 2, V1 2 → 3, ")
    assert message.endswith("V7 8 → 9 and 2 more")


def clock(frequency: str, **more: Any) -> dict[str, Any]:
    source = {"name": "inside", "kind": "internal", "frequency": frequency}
    return {"clock": {"sources": [source], **more}}


def test_other_clock_as_delivered() -> None:
    assert whole(clock("8 MHz"), clock("16 MHz")) == [
        (
            "clock",
            "the CPU of a chip as delivered runs at 16 MHz, ran at 8 MHz",
            "compute delays, timers and baud rates anew, or configure the clock",
        )
    ]
    divided = clock("16 MHz", dividers=[{"name": "half", "options": [{"divide": 2}]}])
    assert whole(clock("8 MHz"), divided) == []


def test_other_supply() -> None:
    one, two = (
        clock("8 MHz", lowestSupply="1.8 V", highestSupply=high) for high in ("5.5 V", "3.6 V")
    )
    assert whole(one, two) == [
        (
            "supply",
            "two works at 1.8 V to 3.6 V, one at 1.8 V to 5.5 V",
            "check what the board supplies, and the levels at its pins",
        )
    ]


WATCH: Tree = {"name": "WDT", "setting": "watchdog", "bits": "4"}
DELAY: Tree = {"name": "WAIT", "setting": "delay", "bits": "3:2"}


def settings(*fields: Tree, **more: Any) -> dict[str, Any]:
    word = {"name": "low", "address": "0", "default": "0x62", "fields": list(fields), **more}
    return {"configuration": {"space": "io", "words": [word]}}


@pytest.mark.parametrize(
    ("two", "message"),
    [
        (settings({**WATCH, "bits": "5"}, DELAY), "other bits or choices for watchdog"),
        (settings({**WATCH, "programmed": 1}, DELAY), "other bits or choices for watchdog"),
        (settings(DELAY), "two has no watchdog"),
        (settings(WATCH, DELAY, address="1"), ""),
        (settings(WATCH, DELAY, unused=[{"bits": "0", "value": 1}]), ""),
    ],
)
def test_configuration_is_computed_anew(two: dict[str, Any], message: str) -> None:
    anew = "compute the bytes anew, by settings (regwright config); never write the old ones"
    found = whole(settings(WATCH, DELAY), two)
    parts = ["its bytes mean something else", *([message] if message else [])]
    assert found == [("configuration", "; ".join(parts), anew)]


def test_configuration_that_is_the_same_but_for_words() -> None:
    two = settings({**WATCH, "title": "T"}, {**DELAY, "name": "START"}, default="0x63")
    assert whole(settings(WATCH, DELAY), two) == []


def package(name: str, *pins: tuple[int, int, str]) -> dict[str, Any]:
    made = [
        {"number": str(n), "name": f"A{bit}", "port": f"A.{bit}", "functions": what}
        for n, bit, what in pins
    ]
    form = {"name": name, "arrangement": "dual", "pinCount": 20, "pins": made}
    return {"ports": [{"name": "A", "bits": "7:0"}], "packages": [form]}


BOARD = "change the board, and which pins the program uses"


def test_functions_at_other_pins() -> None:
    one = package("DUAL20", (1, 0, "RXD"), (2, 1, "TXD"), (3, 2, "LED"))
    two = package("QUAD20", (1, 1, "RXD"), (2, 0, "TXD"))
    message = (
        "at other pins: RXD A.0 → A.1, TXD A.1 → A.0; two has no LED; there is no DUAL20 but QUAD20"
    )
    assert whole(one, two) == [("pins", message, BOARD)]


def test_pins_with_other_numbers() -> None:
    one, two = (package("DUAL20", (n, 0, "RXD"), (5, 4, "TXD")) for n in (1, 8))
    assert whole(one, two) == [("pins", "other numbers: DUAL20 A.0 1 → 8", BOARD)]


@pytest.mark.parametrize(
    "described",
    [
        {"memories": [RAM]},
        table(RESET, TICK),
        clock("8 MHz", lowestSupply="2 V", highestSupply="3 V"),
        settings(WATCH),
        package("DUAL20", (1, 0, "RXD")),
        {"identity": {"signature": "0x5A"}, "build": {"target": "t"}},
    ],
)
def test_nothing_is_said_of_what_only_the_new_one_describes(described: dict[str, Any]) -> None:
    assert whole({}, described) == []


# The header's names.


def test_names_of_the_header_for_what_is_no_register() -> None:
    """A value moves with the header; a name that is not there is missing; renamed, it is found."""
    one = small(R, spaces=ROOM, **table(RESET, TICK, {"number": 2, "name": "RING"}))
    two = large(R, spaces=ROOM, **table(RESET, {**TICK, "number": 2, "name": "T0"}))
    text = "int a = VECTORS_COUNT + VECTOR_TICK_NUMBER + VECTOR_RING_NUMBER + VECTORS_STEP;"
    found = [item for item in moved(one, two, text).porting.work if item.danger != "whole"]
    assert [(item.danger, item.thing, item.message, item.instead) for item in found] == [
        (
            *("missing", "the vector TICK", "VECTOR_TICK_NUMBER is called VECTOR_T0_NUMBER on two"),
            "write VECTOR_T0_NUMBER",
        ),
        (
            *("missing", "the vector RING", "two has no VECTOR_RING_NUMBER"),
            "see what two has in place of the vector RING",
        ),
    ]
    wider = large(R, spaces=ROOM, **table(RESET, TICK, {"number": 2, "name": "RING"}, size=2))
    found = [item for item in moved(one, wider, text).porting.work if item.danger != "whole"]
    assert [(item.danger, item.message, len(item.places)) for item in found] == [
        ("moved", "VECTORS_STEP 1 → 2", 1)
    ]
