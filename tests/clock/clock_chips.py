"""Chips invented for the tests of the clock, and how their clocks are asked."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

from hypothesis import settings

from regwright.clock.answer import Answer, Question, answer
from regwright.configuration.decode import decode
from regwright.configuration.encode import encode
from regwright.model.clock import Clock, ClockLimit, ClockOption, ClockSource, Rate
from regwright.read.description import read_description
from regwright.read.source import Source
from regwright.resolve.chip import ResolvedChip, resolve

Tree = dict[str, Any]

#: The same examples on each run, however slow the machine.
STEADY = settings(deadline=None, derandomize=True, database=None)

KHZ, MHZ = 1000, 1_000_000
SPACES: list[Tree] = [
    {"name": "data", "size": "0x0400"},
    {"name": "bytes", "size": "0x10", "pointer": False},
]


SOURCES: list[Tree] = [
    {
        **{"name": "internal", "kind": "internal", "frequency": "8 MHz", "tolerance": "10 %"},
        "when": "clock-source = internal",
    },
    {
        **{"name": "crystal", "kind": "crystal", "lowest": "1 MHz", "highest": "20 MHz"},
        **{"tolerance": "50 ppm", "when": "clock-source = crystal"},
    },
    {"name": "watchdog", "kind": "internal", "frequency": "128 kHz"},
]
#: Bit 7 of the low byte divides by 8 while it is 0, bits 3:0 choose the source.
CONFIGURATION: Tree = {
    "space": "bytes",
    "words": [
        {
            **{"name": "low", "address": 0, "default": "0x62"},
            "fields": [
                {
                    **{"name": "DIV8", "setting": "clock-divider", "bits": "7"},
                    "choices": [{"name": "divide-by-8", "value": 0}, {"name": "off", "value": 1}],
                },
                {
                    **{"name": "SOURCE", "setting": "clock-source", "bits": "3:0"},
                    "choices": [
                        {"name": "external", "value": 0},
                        {"name": "internal", "value": 2},
                        {"name": "crystal", "value": "0xF"},
                    ],
                },
            ],
            "unused": [{"bits": "6:4"}],
        }
    ],
}
DIVIDER: Tree = {
    **{"name": "start-divider", "setting": "clock-divider"},
    "options": [{"choice": "divide-by-8", "divide": 8}, {"choice": "off"}],
}
PRESCALER: Tree = {
    **{"name": "prescaler", "field": "CLOCK.DIVIDE"},
    "options": [{"value": value, "divide": 1 << value} for value in range(5)],
}
LIMITS: list[Tree] = [
    {"supply": "1.8 V", "highest": "4 MHz"},
    {"supply": "2.7 V", "highest": "8 MHz"},
    {"supply": "4.5 V", "highest": "16 MHz"},
]
REGISTERS: list[Tree] = [
    {
        **{"name": "CLOCK", "address": "data:0x61", "reset": "0x00"},
        "fields": [{"name": "DIVIDE", "bits": "3:0"}],
    },
    {
        **{"name": "TMR_CTRL", "address": "data:0x62", "reset": "0x00"},
        "fields": [{"name": "CLOCK", "bits": "2:0"}],
    },
    {"name": "TMR_COMPARE", "address": "data:0x63"},
    {"name": "BAUD_HIGH", "address": "data:0x64"},
    {
        **{"name": "BAUD_LOW", "address": "data:0x65"},
        "fields": [{"name": "VALUE", "bits": "7:4"}],
    },
]
TIMER: Tree = {
    **{"name": "tick", "kind": "timer", "prescale": "TMR_CTRL.CLOCK"},
    **{"divisor": "TMR_COMPARE", "plus": 1},
    "options": [
        {"value": value, "divide": divide}
        for value, divide in ((1, 1), (2, 8), (3, 64), (4, 256), (5, 1024))
    ],
}
LINE: Tree = {
    **{"name": "line", "kind": "serial", "scale": 16},
    **{"divisor": "BAUD_HIGH BAUD_LOW.VALUE", "plus": 1},
}


def clock_tree(**changes: Any) -> Tree:
    """Return the clock of the chip; ``changes`` replace its properties."""
    found = {
        **{"lowestSupply": "1.8 V", "highestSupply": "5.5 V", "sources": SOURCES},
        **{"dividers": [DIVIDER, PRESCALER], "limits": LIMITS, "rates": [TIMER, LINE]},
    }
    return {key: value for key, value in {**found, **changes}.items() if value is not None}


def chip_tree(*, configuration: Tree | None = CONFIGURATION, **changes: Any) -> Tree:
    """Return the whole description; ``changes`` are those of its clock."""
    tree: Tree = {"format": 1, "name": "thistle8", "spaces": SPACES, "registers": REGISTERS}
    if configuration is not None:
        tree["configuration"] = configuration
    return {**tree, "clock": clock_tree(**changes)}


def resolved(tree: Tree) -> ResolvedChip:
    reading = read_description(Source("thistle8.json", json.dumps(tree).encode(), "json"))
    assert reading.chip is not None, reading.findings
    return resolve(reading.chip)


def chip(**changes: Any) -> ResolvedChip:
    return resolved(chip_tree(**changes))


def asked(
    found: ResolvedChip,
    words: dict[str, int] | None = None,
    choices: dict[str, str] | None = None,
    **more: Any,
) -> Answer:
    """Return what comes of these words and choices; ``more`` is the rest of the question."""
    clock, configuration = found.chip.clock, found.chip.configuration
    assert clock is not None
    values: dict[str, int] = {}
    chosen: dict[str, str | None] = {}
    if configuration is not None:
        values = encode(configuration, words or {}, choices or {})
        chosen = decode(configuration, values)
    rest: dict[str, Any] = {"registers": {}, "frequencies": {}, **more}
    return answer(found, clock, Question(values, chosen, **rest))


def made_clock(limits: dict[str, int] | None = None, **more: Any) -> Clock:
    """Return a clock with limits given in volts and hertz, made without a description."""
    source = ClockSource("internal", "internal", frequency=Fraction(8 * MHZ))
    steps = tuple(
        ClockLimit(Fraction(volts), Fraction(most)) for volts, most in (limits or {}).items()
    )
    return Clock((source,), limits=steps, **more)


def made_rate(options: tuple[int, ...] = (), **more: Any) -> Rate:
    """Return a serial port whose prescaler divides by ``options``, at the values from 0 on."""
    steps = tuple(ClockOption(value=number, divide=by) for number, by in enumerate(options))
    return Rate("line", more.pop("kind", "serial"), ("DIVISOR",), options=steps, **more)
