"""What of the clock, the tools and the hazards a move must see to, worked out by hand."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from memory_cases import FLASH
from small_chips import Tree, field, register
from test_porting import AT_30, R, answer, large, moved, small
from test_porting_rest import DELAY, WATCH, Item, settings, whole

from regwright.compare.porting_power import is_slower
from regwright.model.clock import Clock, ClockLimit

INSIDE: Tree = {"name": "inside", "kind": "internal", "frequency": "8 MHz"}
SLOW: Tree = {"name": "slow", "kind": "internal", "frequency": "32 kHz"}
BAUD = register("BAUD", 0x30, fields=[field("DIV", "6:0"), field("FAST", 7)])
TCTL = register("TCTL", 0x32, fields=[field("CS", "1:0"), field("RUN", 7)])
DIVIDE = register("DIVIDE", 0x34, reset="0x00", fields=[field("BY", "1:0")])
REGISTERS = BAUD, TCTL, DIVIDE
LINE: Tree = {"name": "line", "kind": "serial", "scale": 16, "divisor": "BAUD.DIV", "plus": 1}
OPTIONS = [{"value": 0}, {"value": 1, "divide": 8}, {"value": 2, "divide": 64}]
TIMED: Tree = {**LINE, "prescale": "TCTL.CS", "options": OPTIONS}
BY: Tree = {"name": "by", "field": "DIVIDE.BY", "options": OPTIONS}


def clock(*sources: Tree, **more: Any) -> dict[str, Any]:
    return {"clock": {"sources": list(sources or (INSIDE,)), **more}}


def silent(one: dict[str, Any], two: dict[str, Any], text: str) -> list[tuple[Item, list[str]]]:
    """Return the work that compiles and is wrong, with the names or uses at its places."""
    chips = small(*REGISTERS, **one), large(*REGISTERS, **two)
    found = [item for item in moved(*chips, text).porting.work if item.danger == "wrong"]
    return [
        ((item.thing, item.message, item.instead), [spot.name or spot.how for spot in item.places])
        for item in found
    ]


# Rates.

ANEW = "compute anew what is written there (regwright clock, with the new description)"
FORMULA = "serial: CPU clock / 16 / (BAUD.DIV + 1)"


@pytest.mark.parametrize(
    ("one", "two", "message"),
    [
        (LINE, {**LINE, "scale": 8}, f"{FORMULA} → serial: CPU clock / 8 / (BAUD.DIV + 1)"),
        (LINE, {**LINE, "plus": 0}, f"{FORMULA} → serial: CPU clock / 16 / BAUD.DIV"),
        (LINE, {**LINE, "clock": "slow"}, f"{FORMULA} → serial: slow / 16 / (BAUD.DIV + 1)"),
        (LINE, {**LINE, "lowest": 3}, f"{FORMULA} → {FORMULA}, BAUD.DIV at least 3"),
        (LINE, {**LINE, "highest": "0x63"}, f"{FORMULA} → {FORMULA}, BAUD.DIV at most 99"),
        # all that fits in seven bits, and more than there was
        (LINE, {**LINE, "highest": "0x7F"}, ""),
        ({**LINE, "highest": "0x9", "lowest": 4}, {**LINE, "highest": "0xA", "lowest": 3}, ""),
        (LINE, {**LINE, "kind": "timer", "title": "T", "page": 3}, ""),
        # found again by its register, where its name is another
        *((LINE, {**LINE, "name": "uart"}, ""), (TIMED, TIMED, "")),
        (
            *(LINE, {**LINE, "name": "uart", "scale": 8}),
            f"{FORMULA} → serial: CPU clock / 8 / (BAUD.DIV + 1)",
        ),
        (LINE, {**LINE, "name": "beat", "divisor": "DIVIDE.BY"}, "two describes no such rate"),
        (
            TIMED,
            {**TIMED, "options": [{"value": 0}, {"value": 1, "divide": 4}]},
            "TCTL.CS 1: ÷ 8 → ÷ 4; TCTL.CS 2: ÷ 64 → nothing",
        ),
        (TIMED, {**TIMED, "options": [*OPTIONS, {"value": 3, "divide": 2}]}, ""),
    ],
)
def test_rate_that_is_made_otherwise(one: Tree, two: Tree, message: str) -> None:
    chips = clock(INSIDE, SLOW, rates=[one]), clock(INSIDE, SLOW, rates=[two])
    expected = [(("rate line", message, ANEW), ["BAUD"])] if message else []
    assert silent(*chips, "BAUD = 77;") == expected
    assert silent(*chips, "DIVIDE = 1;") == []
    assert silent(*chips, "int x;") == []


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("TCTL = 1;", ["TCTL"]),
        ("BAUD = 1; TCTL |= TCTL_CS_MASK;", ["BAUD", "TCTL"]),
        (f"{AT_30} = 1;", ["write"]),
        ("BAUD = 1; while (TCTL & TCTL_RUN_MASK) { }", ["BAUD"]),
        ("if (BAUD) { }", ["BAUD"]),
    ],
)
def test_places_of_divisor_and_prescaler(text: str, names: list[str]) -> None:
    one, two = (clock(rates=[{**TIMED, "scale": scale}]) for scale in (16, 8))
    [(_, found)] = silent(one, two, text)
    assert found == names


def test_halves_of_a_divisor_are_it() -> None:
    halves = {"readFirst": "low", "low": {"name": "RATE_L"}, "high": {"name": "RATE_H"}}
    rate = register("RATE", 0x40, width=16, halves=halves)
    one, two = (clock(rates=[{**LINE, "divisor": "RATE", "scale": scale}]) for scale in (16, 8))
    for text in ("RATE = 1;", "RATE_L = 1;"):
        found = moved(small(rate, **one), large(rate, **two), text).porting.work
        assert [item.thing for item in found] == ["rate line"], text


def test_source_of_a_rate_at_another_frequency() -> None:
    one, two = (
        clock({**SLOW, "frequency": at, "when": "watchdog = 1"}, rates=[{**LINE, "clock": "slow"}])
        for at in ("32 kHz", "128 kHz")
    )
    message = "its clock slow runs at 128 kHz, ran at 32 kHz"
    assert silent(one, two, "BAUD = 1;") == [(("rate line", message, ANEW), ["BAUD"])]


def test_nothing_is_said_where_one_describes_no_rates() -> None:
    for two in (clock(), {}):
        assert silent(clock(rates=[LINE], dividers=[BY]), two, "BAUD = 1; DIVIDE = 1;") == []
        assert silent(two, clock(rates=[LINE], dividers=[BY]), "BAUD = 1; DIVIDE = 1;") == []


# Dividers.


@pytest.mark.parametrize(
    ("two", "message"),
    [
        (
            {**BY, "options": [*OPTIONS[:2], {"value": 2, "divide": 32}]},
            "2: ÷ 64 → ÷ 32",
        ),
        ({**BY, "options": OPTIONS[:2]}, "2: ÷ 64 → nothing"),
        ({**BY, "options": [*OPTIONS, {"value": 3, "divide": 2}]}, ""),
        ({**BY, "name": "other", "page": 7}, ""),
        ({**BY, "field": "TCTL.CS"}, "decided by DIVIDE.BY → TCTL.CS"),
        (
            {"name": "other", "field": "TCTL.CS", "options": OPTIONS},
            "two describes no such divider of its clock",
        ),
    ],
)
def test_divider_that_the_program_sets(two: Tree, message: str) -> None:
    chips = clock(dividers=[BY]), clock(dividers=[two])
    instead = (
        "see what is written there, and how fast the CPU runs (regwright clock, with the new "
        "description)"
    )
    expected = [(("clock divider by", message, instead), ["DIVIDE"])] if message else []
    assert silent(*chips, "DIVIDE = 2;") == expected
    assert silent(*chips, "BAUD = 2;") == []


def test_divider_that_the_configuration_sets() -> None:
    by: Tree = {"name": "by", "setting": "delay"}
    one, two = (
        {
            **settings(WATCH, {**DELAY, "choices": [{"name": "a", "value": 0}]}),
            **clock(INSIDE, SLOW, dividers=[{**by, "options": [{"choice": "a", "divide": n}]}]),
        }
        for n in (2, 4)
    )
    instead = "choose anew, and see how fast the CPU runs (regwright clock)"
    assert whole(one, two) == [("clock divider by", "a: ÷ 2 → ÷ 4", instead)]


# Limits and sources.


def limits(*steps: tuple[str, str], **more: Any) -> dict[str, Any]:
    found = [{"supply": supply, "highest": highest} for supply, highest in steps]
    return clock(limits=found, **more)


def test_limit_that_is_lower() -> None:
    one = limits(("1.8 V", "4 MHz"), ("2.7 V", "10 MHz"))
    two = limits(("1.8 V", "4 MHz"), ("2.7 V", "8 MHz"))
    assert whole(one, two) == [
        (
            "clock limits",
            "slower at some supplies: 4 MHz from 1.8 V on, 10 MHz from 2.7 V on → 4 MHz from "
            "1.8 V on, 8 MHz from 2.7 V on",
            "see that the supply allows the program's clock (regwright clock, with the new "
            "description)",
        )
    ]
    assert whole(two, one) == []
    assert whole(one, clock()) == whole(clock(), one) == []


def tree_of(*steps: tuple[int, int], between: str = "step", **more: int) -> Clock:
    """Return a clock with limits: volts and hertz."""
    found = tuple(ClockLimit(Fraction(volt), Fraction(hertz)) for volt, hertz in steps)
    supplies = {key: Fraction(value) for key, value in more.items()}
    return Clock((), limits=found, between=between, **supplies)


@pytest.mark.parametrize(
    ("one", "other", "slower"),
    [
        (tree_of((2, 4), (4, 8)), tree_of((2, 4), (3, 8)), False),
        (tree_of((2, 4), (3, 8)), tree_of((2, 4), (4, 8)), True),
        # where the other does not work at all, its supply tells
        (tree_of((1, 4)), tree_of((2, 4), lowest_supply=2), False),
        (tree_of((1, 4)), tree_of((2, 4)), True),
        (tree_of((2, 4), (5, 9)), tree_of((2, 4), highest_supply=4), False),
        # between the same ends a line is above steps
        (tree_of((2, 4), (4, 8)), tree_of((2, 4), (4, 8), between="linear"), False),
        (tree_of((2, 4), (4, 8), between="linear"), tree_of((2, 4), (4, 8)), True),
        # it crosses the line only right before 4 V
        (tree_of((2, 4), (4, 8), between="linear"), tree_of((2, 7), (4, 8)), True),
        (tree_of((2, 4), (4, 8), between="linear"), tree_of((2, 8)), False),
        # both work at no supply
        (tree_of((2, 4), highest_supply=3), tree_of((4, 1), lowest_supply=4), False),
    ],
)
def test_slower_at_a_supply_that_both_work_at(one: Clock, other: Clock, *, slower: bool) -> None:
    assert is_slower(one, other) is slower
    assert not is_slower(one, one)
    assert not is_slower(other, other)


CRYSTAL: Tree = {"name": "crystal", "kind": "crystal", "lowest": "1 MHz", "highest": "9 MHz"}
STILL = "see that delays, timers and baud rates made from it are still right"
BOARD = "see that the crystal or clock on the board is within it"


@pytest.mark.parametrize(
    ("one", "two", "message", "instead"),
    [
        ({"tolerance": "1 %"}, {"tolerance": "3 %"}, "is off by up to 1 % → 3 %", STILL),
        ({"tolerance": "3 %"}, {"tolerance": "1 %"}, "", ""),
        ({}, {"tolerance": "3 %"}, "", ""),
        ({"frequency": "8 MHz"}, {"frequency": "9 MHz"}, "runs at 8 MHz → 9 MHz", STILL),
        (CRYSTAL, {**CRYSTAL, "lowest": "2 MHz"}, "takes 1 MHz to 9 MHz → 2 MHz to 9 MHz", BOARD),
        (CRYSTAL, {**CRYSTAL, "highest": "8 MHz"}, "takes 1 MHz to 9 MHz → 1 MHz to 8 MHz", BOARD),
        (CRYSTAL, {**CRYSTAL, "lowest": "0 Hz", "highest": "99 MHz"}, "", ""),
    ],
)
def test_source_that_is_another(one: Tree, two: Tree, message: str, instead: str) -> None:
    """Beside a source that is the same, so that none is the one as delivered."""
    name = one.get("name", "slow")
    chips = [clock(INSIDE, side if name == "crystal" else {**SLOW, **side}) for side in (one, two)]
    expected = [(f"clock source {name}", message, instead)] if message else []
    assert whole(*chips) == expected


def test_source_behind_dividers_that_a_program_may_set() -> None:
    """As delivered the CPU of both runs at 4 MHz; with the dividers set to 1 it does not."""
    fast = {**INSIDE, "frequency": "16 MHz"}
    one, two = (
        {**clock(source, dividers=[{"name": "by", "field": "DIVIDE.BY", "options": options}])}
        for source, options in (
            (INSIDE, [{"value": 0, "divide": 2}, {"value": 1}]),
            (fast, [{"value": 0, "divide": 4}, {"value": 1}]),
        )
    )
    work = moved(small(*REGISTERS, **one), large(*REGISTERS, **two), "int x;").porting.work
    assert [(item.thing, item.message) for item in work] == [
        ("clock source inside", "runs at 8 MHz → 16 MHz")
    ]


# Memories, tools, hazards.


def test_pages_of_memories() -> None:
    instead = "if the program writes it itself: change its buffers and steps to the new sizes"
    one, two = (
        {"memories": [{**FLASH, "pageSize": hex(page), "eraseUnit": hex(page * 4)}]}
        for page in (16, 32)
    )
    message = (
        "written at once 0x10 units (32 bytes) → 0x20 units (64 bytes); "
        "erased at once 0x40 units (128 bytes) → 0x80 units (256 bytes)"
    )
    assert whole(one, two) == [("memory FLASH", message, instead)]
    assert whole(one, {"memories": [FLASH]}) == whole({"memories": [FLASH]}, one) == []


def test_names_that_tools_use() -> None:
    one, two = (
        {
            "identity": {"signature": f"0x5A 0x0{n}"},
            "build": {"target": f"c{n}", "instructionSet": f"i{n}", "programmerPart": f"p{n}"},
        }
        for n in (1, 2)
    )
    assert whole(one, two) == [
        (
            "programmer",
            "signature 0x5A 0x01 → 0x5A 0x02; programmer's name p1 → p2",
            "tell the programmer, and what checks the signature",
        ),
        (
            "compiler",
            "compiler's name c1 → c2; instruction set i1 → i2",
            "tell the compiler and the build files",
        ),
    ]


HEED = "heed it before the configuration is written (regwright config shows it)"
DEAD: Tree = {"name": "dead", "kind": "locks-out", "caution": "nothing reaches it"}
WET: Tree = {"name": "wet", "kind": "needs-hardware", "caution": "stands still"}


def risky(*hazards: Tree, delay: str = "dead") -> dict[str, Any]:
    choices = [{"name": "a", "value": 0, "hazards": delay}, {"name": "b", "value": 1}]
    found = settings(WATCH, {**DELAY, "choices": choices})
    return {"configuration": {**found["configuration"], "hazards": list(hazards)}}


@pytest.mark.parametrize(
    ("two", "expected"),
    [
        (
            risky(DEAD, {**WET, "when": "delay = b"}),
            [("hazard wet", "new on two: needs-hardware: stands still", HEED)],
        ),
        (
            risky({**DEAD, "kind": "needs-hardware"}),
            [("hazard dead", "locks-out → needs-hardware", HEED)],
        ),
        (
            risky({**DEAD, "when": "delay = b"}),
            [("hazard dead", "when any choice that has it → when delay = b", HEED)],
        ),
        (risky({**DEAD, "caution": "x", "title": "y"}), []),
        # the new hazard is told once
        (
            risky(DEAD, WET, delay="dead wet"),
            [("hazard wet", "new on two: needs-hardware: stands still", HEED)],
        ),
    ],
)
def test_hazards_that_only_the_new_one_has(two: dict[str, Any], expected: list[Item]) -> None:
    assert whole(risky(DEAD), two) == expected
    assert whole(two, two) == []


def test_choice_that_has_a_hazard_now() -> None:
    one, two = risky(DEAD, WET), risky(DEAD, WET, delay="dead wet")
    assert whole(one, two) == [("setting delay = a", "has the hazard wet now", HEED)]
    assert whole(two, one) == []
    assert whole(risky(DEAD, WET), risky(DEAD)) == []


def test_program_with_any_of_this_does_not_move_as_it_is() -> None:
    one, two = (clock(rates=[{**LINE, "scale": scale}]) for scale in (16, 8))
    found = moved(small(BAUD, R | {"address": "data:0x50"}, **one), large(BAUD, **two), "BAUD = 1;")
    assert answer(found)[0] == (
        "It can move to two. It takes: 1 thing to think about, where the compiler is silent."
    )
