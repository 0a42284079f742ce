"""Clocks of two chips and exactly what differs, worked out by hand."""

from __future__ import annotations

from typing import Any

from memory_cases import both
from register_cases import Rows
from small_chips import Tree, chip, flags, register

from regwright.resolve.chip import ResolvedChip

SOURCE: Tree = {"name": "internal", "kind": "internal", "frequency": "8 MHz"}
DIVIDER: Tree = {"name": "half", "options": [{"divide": 2}]}
RATE: Tree = {"name": "line", "kind": "serial", "divisor": "BAUD", "plus": 1}
BAUD = register("BAUD", 0x100, title="Divisor of the line", fields=flags("B"))


def clock(*sources: Tree, registers: tuple[Tree, ...] = (BAUD,), **more: Any) -> ResolvedChip:
    found = {"sources": list(sources or (SOURCE,)), **more}
    return chip(*registers, clock=found)


def source(**more: Any) -> ResolvedChip:
    """Return a clock with two sources, so that none is the one."""
    return clock({**SOURCE, **more}, {**SOURCE, "name": "other"})


def rate(**more: Any) -> ResolvedChip:
    return clock(rates=[{**RATE, **more}])


CLOCK: list[tuple[ResolvedChip, ResolvedChip, Rows]] = [
    (
        *(clock(rates=[RATE]), chip(BAUD)),
        [("clock-only-in-a", "clock", "", "1 source, 1 rate", "")],
    ),
    # the source is as before, the CPU is not: nothing decides the divider
    (
        *(clock(), clock(dividers=[DIVIDER])),
        [
            *both("clock", "default-clock", "8 MHz", "4 MHz"),
            ("clock-divider-only-in-b", "", "clock divider half", "", "÷ 2"),
        ],
    ),
    (
        *(clock(), source()),
        [
            *both("clock", "default-clock", "8 MHz", ""),
            ("clock-source-only-in-b", "", "clock source other", "", "internal, 8 MHz"),
        ],
    ),
    (
        clock(lowestSupply="1.8 V", highestSupply="5.5 V"),
        clock(highestSupply="3.6 V"),
        both("clock", "supply", "1.8 V to 5.5 V", "up to 3.6 V"),
    ),
    (
        clock(limits=[{"supply": "2 V", "highest": "4 MHz", "page": 5}]),
        clock(
            limits=[
                {"supply": "4 V", "highest": "8 MHz", "page": 6},
                {"supply": "2 V", "highest": "4 MHz"},
            ],
            between="linear",
        ),
        [
            *both(
                *("clock", "clock-limits", "4 MHz from 2 V on"),
                "4 MHz from 2 V on, 8 MHz from 4 V on, on a line between",
            ),
            *both("clock", "page", "5", "6"),
        ],
    ),
    (clock(constant="HZ"), clock(), both("clock", "clock-constant", "HZ", "")),
    (
        *(clock(), clock({**SOURCE, "kind": "crystal"})),
        both("clock source internal", "clock-source-kind", "internal", "crystal"),
    ),
    (
        *(source(), source(frequency="4 MHz", highest="5 MHz")),
        both("clock source internal", "clock-source-frequency", "8 MHz", "4 MHz, up to 5 MHz"),
    ),
    (
        *(source(), source(tolerance="2 %")),
        both("clock source internal", "clock-source-tolerance", "", "2 %"),
    ),
    (
        *(source(), source(when="b = on and a = off")),
        [
            *both("clock source internal", "clock-source-when", "", "a = off and b = on"),
            *both("clock", "default-clock", "", "8 MHz"),
        ],
    ),
    (
        *(source(title="T", page=1), source(title="U", page=2)),
        [
            *both("clock source internal", "title", "T", "U"),
            *both("clock source internal", "page", "1", "2"),
        ],
    ),
    (
        clock(dividers=[{**DIVIDER, "setting": "speed", "when": "a = on"}]),
        clock(dividers=[{**DIVIDER, "field": "BAUD.B", "when": "b = on", "title": "T"}]),
        [
            *both("clock divider half", "clock-divider-decided", "speed", "BAUD.B"),
            *both("clock divider half", "clock-divider-when", "a = on", "b = on"),
            *both("clock divider half", "title", "", "T"),
        ],
    ),
    # decided by a field that has another name
    (
        clock(dividers=[{**DIVIDER, "field": "BAUD.B", "options": [{"value": 1}]}]),
        clock(
            registers=(register("LINE", 0x100, title="Divisor of the line", fields=flags("B")),),
            dividers=[{**DIVIDER, "field": "LINE.B", "options": [{"value": 1}]}],
        ),
        [("register-renamed", "BAUD", "LINE", "BAUD", "LINE")],
    ),
    (
        clock(dividers=[{**DIVIDER, "setting": "s", "options": [{"choice": "x", "divide": 4}]}]),
        clock(
            dividers=[
                {**DIVIDER, "setting": "s", "options": [{"choice": "x", "value": 2, "divide": 8}]}
            ]
        ),
        both("clock divider half", "clock-divider-options", "x: ÷ 4", "x 2: ÷ 8"),
    ),
    (
        *(clock(rates=[RATE]), clock()),
        [("rate-only-in-a", "rate line", "", "serial: CPU clock / (BAUD + 1)", "")],
    ),
    (
        rate(),
        rate(scale=16, clock="internal", prescale="BAUD.B", plus=0, highest=9),
        both(
            *("rate line", "rate-formula", "serial: CPU clock / (BAUD + 1)"),
            "serial: internal / 16 / BAUD.B / BAUD, BAUD at most 9",
        ),
    ),
    (
        rate(),
        clock(
            registers=(register("LINE", 0x100, title="Divisor of the line", fields=flags("B")),),
            rates=[{**RATE, "divisor": "LINE"}],
        ),
        [("register-renamed", "BAUD", "LINE", "BAUD", "LINE")],
    ),
    (
        rate(prescale="BAUD.B", options=[{"value": 1, "divide": 4}, {"value": 0}]),
        rate(prescale="BAUD.B", options=[{"value": 0}, {"value": 1, "divide": 8}]),
        both("rate line", "rate-options", "0: ÷ 1, 1: ÷ 4", "0: ÷ 1, 1: ÷ 8"),
    ),
    (
        *(rate(title="T", page=1, notes="N"), rate()),
        [
            *both("rate line", "title", "T", ""),
            *both("rate line", "page", "1", ""),
            *both("rate line", "notes", "N", ""),
        ],
    ),
]
