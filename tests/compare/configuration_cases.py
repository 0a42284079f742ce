"""Configurations of two chips and exactly what differs, worked out by hand."""

from __future__ import annotations

from typing import Any

from memory_cases import both
from register_cases import Rows
from small_chips import Tree, chip

from regwright.resolve.chip import ResolvedChip

ON = {"name": "on", "value": 0}
OFF = {"name": "off", "value": 1, "hazards": "locked"}
WATCH: Tree = {"name": "WDT", "setting": "watchdog", "bits": "4", "choices": [ON, OFF]}
LOCKED: Tree = {"name": "locked", "kind": "locks-out"}
LOW: Tree = {"name": "low", "address": "0", "default": "0x62", "fields": [WATCH]}
HIGH: Tree = {"name": "high", "address": "1", "default": "0xFF", "fields": []}


def configuration(*words: Tree, **more: Any) -> ResolvedChip:
    found = {"space": "data", "hazards": [LOCKED], "words": list(words), **more}
    return chip(configuration=found)


def low(**more: Any) -> ResolvedChip:
    return configuration({**LOW, **more}, HIGH)


def watch(**more: Any) -> ResolvedChip:
    return low(fields=[{**WATCH, **more}])


def hazard(**more: Any) -> ResolvedChip:
    return configuration(LOW, HIGH, hazards=[{**LOCKED, **more}])


SETTING = "setting watchdog"
CONFIGURATION: list[tuple[ResolvedChip, ResolvedChip, Rows]] = [
    (
        *(chip(), low()),
        [("configuration-only-in-b", "", "configuration", "", "2 words, 1 setting")],
    ),
    (
        *(low(), configuration(LOW, HIGH, space="io")),
        both("configuration", "configuration-space", "data", "io"),
    ),
    (
        *(low(), configuration(LOW, HIGH, programmed=1)),
        both("configuration", "configuration-polarity", "0", "1"),
    ),
    # a bit without choices is named after what counts as programmed
    (
        low(fields=[{"name": "F", "setting": "f", "bits": 1}]),
        low(fields=[{"name": "F", "setting": "f", "bits": 1, "programmed": 1}]),
        [
            *both("setting f", "setting-polarity", "0", "1"),
            *both("setting f", "setting-default", "unprogrammed", "programmed"),
        ],
    ),
    (
        *(low(), configuration(LOW)),
        [
            (
                *("word-only-in-a", "word high", ""),
                *("address 0x1, 8 bits, 0xFF as delivered", ""),
            )
        ],
    ),
    # at the same address: the settings in it stay where they are
    (low(), low(name="fuse0"), [("word-renamed", "word low", "word fuse0", "low", "fuse0")]),
    (low(), low(address="2"), both("word low", "word-address", "0x0", "0x2")),
    (
        *(low(), low(width=16)),
        [
            *both("word low", "word-width", "8 bits", "16 bits"),
            *both("word low", "word-default", "0x62", "0x0062"),
        ],
    ),
    (low(), low(default="0x63"), both("word low", "word-default", "0x62", "0x63")),
    (low(), low(lock=True), both("word low", "word-lock", "no", "yes")),
    (
        low(unused=[{"bits": "7:6", "value": 1}, {"bits": 1, "value": 0}]),
        low(unused=[{"bits": "7", "value": 1}, {"bits": 6, "value": 1}, {"bits": 1}]),
        both("word low", "unused-bits", "0x02: 0, 0xC0: 1", "0xC0: 1, 0x02: anything"),
    ),
    (
        low(unused=[{"bits": "7:6", "title": "T"}], title="T", page=1, notes="N"),
        low(unused=[{"bits": "7:6", "title": "U"}], title="U", page=2, notes="M"),
        [
            *both("word low", "title", "T", "U"),
            *both("word low", "page", "1", "2"),
            *both("word low", "notes", "N", "M"),
            *both("word low", "title", "T", "U"),
        ],
    ),
    (
        *(low(), low(fields=[])),
        [("setting-only-in-a", SETTING, "", "low bit 4, on as delivered", "")],
    ),
    (
        *(low(), watch(name="WATCHDOG")),
        both(SETTING, "setting-name", "WDT", "WATCHDOG"),
    ),
    (low(), watch(bits="3"), both(SETTING, "setting-place", "low bit 4", "low bit 3")),
    (
        low(),
        configuration({**LOW, "fields": []}, {**HIGH, "default": "0xEF", "fields": [WATCH]}),
        [
            *both("word high", "word-default", "0xFF", "0xEF"),
            *both(SETTING, "setting-place", "low bit 4", "high bit 4"),
        ],
    ),
    # it stays in its bits; what it is delivered as has another name, or none
    (
        *(low(), low(default="0x72")),
        [
            *both("word low", "word-default", "0x62", "0x72"),
            *both(SETTING, "setting-default", "on", "off"),
        ],
    ),
    (
        *(low(), watch(choices=[OFF])),
        [
            *both(SETTING, "setting-default", "on", "0b0, which has no name"),
            ("choice-only-in-a", f"{SETTING} = on", "", "0b0", ""),
        ],
    ),
    (
        *(low(), watch(choices=[{**ON, "value": 1}, {**OFF, "value": 0}])),
        [
            *both(SETTING, "setting-default", "on", "off"),
            *both(f"{SETTING} = on", "choice-value", "0b0", "0b1"),
            *both(f"{SETTING} = off", "choice-value", "0b1", "0b0"),
        ],
    ),
    # one bit wider: its values are the same numbers
    (
        *(low(), watch(bits="5:4", choices=[{**ON, "value": 2}, OFF])),
        [
            *both(SETTING, "setting-place", "low bit 4", "low bits 5:4"),
            *both(f"{SETTING} = on", "choice-value", "0b0", "0b10"),
        ],
    ),
    (
        *(low(), watch(choices=[ON, {"name": "off", "value": 1}])),
        both(f"{SETTING} = off", "choice-hazards", "locked", ""),
    ),
    (
        watch(title="T", page=1, notes="N", choices=[{**ON, "title": "T"}, OFF]),
        watch(title="U", page=2, notes="M", choices=[{**ON, "title": "U"}, OFF]),
        [
            *both(SETTING, "title", "T", "U"),
            *both(SETTING, "page", "1", "2"),
            *both(SETTING, "notes", "N", "M"),
            *both(f"{SETTING} = on", "title", "T", "U"),
        ],
    ),
    (
        *(low(), configuration(LOW, HIGH, hazards=[])),
        [("hazard-only-in-a", "hazard locked", "", "locks-out", "")],
    ),
    (low(), hazard(kind="other"), both("hazard locked", "hazard-kind", "locks-out", "other")),
    (low(), hazard(caution="C"), both("hazard locked", "hazard-caution", "", "C")),
    (
        *(low(), hazard(when="watchdog = off")),
        both("hazard locked", "hazard-when", "", "watchdog = off"),
    ),
    (low(), hazard(title="T"), both("hazard locked", "title", "", "T")),
]
