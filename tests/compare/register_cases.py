"""Two registers and exactly what differs between them, worked out by hand."""

from __future__ import annotations

from typing import Any

from small_chips import Tree, field, flags, register

Rows = list[tuple[str, ...]]


def one(**more: Any) -> Tree:
    """Return the register that most cases change."""
    return {**register("R", 0x100), **more}


def with_field(**more: Any) -> Tree:
    return one(fields=[{"name": "F", "bits": "3:2", **more}])


def with_value(**more: Any) -> Tree:
    return with_field(values=[{"name": "V", "value": 1, **more}])


def on(name: str, *texts: str, kind: str = "") -> Rows:
    """Return the one difference of a thing that has the same name in both chips."""
    return [(kind, name, name, *texts)]


HALVES = {"low": {"name": "RL"}, "high": {"name": "RH"}}

#: A register in A and in B, and what differs: kind, what in A, what in B, before, after.
REGISTERS: list[tuple[Tree, Tree, Rows]] = [
    (one(), one(aliases="Y X"), on("R", "", "X Y", kind="register-aliases")),
    (one(aliases="X"), one(aliases="X"), []),
    (
        *(one(address="data:0x100"), one(address="data:0x1FE")),
        on("R", "0x100", "0x1FE", kind="address"),
    ),
    (one(width=16), one(width=32), on("R", "16 bits", "32 bits", kind="register-width")),
    (
        *(one(), one(access="read-only")),
        on("R", "read-write", "read-only", kind="register-access"),
    ),
    (one(), one(readAction="clear"), on("R", "", "clear", kind="register-read-action")),
    (one(reset="0x0"), one(reset="0xA5"), on("R", "0x00", "0xA5", kind="register-reset")),
    (one(reset="0xxF"), one(), on("R", "0bxxxx1111", "", kind="register-reset")),
    (
        one(reserved=[{"bits": "7:4", "write": "0"}, {"bits": "0"}]),
        one(reserved=[{"bits": "7:4", "write": "1"}, {"bits": "1:0", "write": "preserve"}]),
        on(
            "R",
            "0xF0: write 0, 0x01: not said",
            "0x03: preserve, 0xF0: write 1",
            kind="reserved",
        ),
    ),
    # two pieces of one kind are the same as one of both
    (
        one(reserved=[{"bits": "7:6", "write": "0"}, {"bits": "5:4", "write": "0"}]),
        one(reserved=[{"bits": "7:4", "write": "0"}]),
        [],
    ),
    (
        one(reserved=[{"bits": "7:4", "title": "kept free", "page": 3}]),
        one(reserved=[{"bits": "7:4", "title": "kept free by us", "page": 4}]),
        [
            ("title", "R", "R", "kept free", "kept free by us"),
            ("page", "R", "R", "3", "4"),
        ],
    ),
    (
        *(one(width=16), one(width=16, byteOrder="big")),
        on("R", "little", "big", kind="byte-order"),
    ),
    # of one address both ends are the same; in a wider register it is the width that differs
    (one(), one(byteOrder="big"), []),
    (one(), one(width=16, byteOrder="big"), on("R", "8 bits", "16 bits", kind="register-width")),
    (
        one(width=16, halves=HALVES),
        one(width=16, halves={**HALVES, "readFirst": "low", "writeFirst": "high"}),
        [
            ("read-order", "R", "R", "", "low"),
            ("write-order", "R", "R", "", "high"),
        ],
    ),
    (
        one(width=16, halves={**HALVES, "readFirst": "low", "temporary": "T"}),
        one(width=16, halves={**HALVES, "readFirst": "high", "temporary": "U"}),
        [
            ("read-order", "R", "R", "low", "high"),
            ("temporary", "R", "R", "T", "U"),
        ],
    ),
    # what a half has from its register is said of it; what it says itself, of itself
    (
        one(width=16, page=1, title="Old", halves=HALVES),
        one(width=16, page=2, title="New", halves=HALVES),
        [("title", "R", "R", "Old", "New"), ("page", "R", "R", "1", "2")],
    ),
    (
        one(width=16, halves=HALVES),
        one(width=16, halves={**HALVES, "low": {"name": "RL", "title": "Low", "page": 7}}),
        [("title", "RL", "RL", "", "Low"), ("page", "RL", "RL", "", "7")],
    ),
    (
        one(width=16, halves=HALVES),
        one(width=16, halves={**HALVES, "low": {"name": "RLOW", "aliases": "RL"}}),
        [
            ("register-renamed", "RL", "RLOW", "RL", "RLOW"),
            ("register-aliases", "RL", "RLOW", "", "RL"),
        ],
    ),
    (
        one(width=16, access="read-write", reset="0x1234", halves=HALVES),
        one(width=16, access="read-only", reset="0x5634", halves=HALVES),
        [
            ("register-access", "R", "R", "read-write", "read-only"),
            ("register-reset", "R", "R", "0x1234", "0x5634"),
            ("register-access", "RL", "RL", "read-write", "read-only"),
            ("register-access", "RH", "RH", "read-write", "read-only"),
            ("register-reset", "RH", "RH", "0x12", "0x56"),
        ],
    ),
    (one(title="A"), one(), on("R", "A", "", kind="title")),
    (one(), one(page=7), on("R", "", "7", kind="page")),
    (one(notes="A\nB"), one(notes="C"), on("R", "A\nB", "C", kind="notes")),
    (one(), one(comment="for the checks", singleBit=False), []),
    # Fields.
    (
        with_field(),
        one(fields=[{"name": "F", "bits": "3:2"}, {"name": "G", "bits": "0"}]),
        [("field-only-in-b", "", "R.G", "", "bit 0, read-write")],
    ),
    (
        *(with_field(), with_field(name="G")),
        [("field-renamed", "R.F", "R.G", "F", "G")],
    ),
    (with_field(), with_field(aliases="Z"), on("R.F", "", "Z", kind="field-aliases")),
    (with_field(), with_field(bits="7,5"), on("R.F", "bits 3:2", "bits 7,5", kind="field-bits")),
    (
        with_field(),
        with_field(bits="4:2"),
        [
            ("field-bits", "R.F", "R.F", "bits 3:2", "bits 4:2"),
            ("field-width", "R.F", "R.F", "2 bits", "3 bits"),
        ],
    ),
    # the same bits, written another way
    (with_field(bits="3:2"), with_field(bits="3,2"), []),
    (
        *(with_field(), with_field(access="read-only")),
        on("R.F", "read-write", "read-only", kind="field-access"),
    ),
    (with_field(), with_field(access="read-write"), []),
    # a field that says nothing has its register's access: that is one change
    (
        one(access="read-write", fields=flags("F", "G")),
        one(access="read-only", fields=flags("F", "G")),
        on("R", "read-write", "read-only", kind="register-access"),
    ),
    (
        *(with_field(), with_field(modifiedWriteValue="oneToClear")),
        on("R.F", "", "oneToClear", kind="write-effect"),
    ),
    (with_field(), with_field(readAction="set"), on("R.F", "", "set", kind="field-read-action")),
    (with_field(), with_field(volatile=False), on("R.F", "", "no", kind="volatile")),
    (
        with_field(volatile=False),
        with_field(volatile=True),
        on("R.F", "no", "yes", kind="volatile"),
    ),
    (
        with_field(reset="0b01"),
        with_field(reset="0b11"),
        [
            # 0b01 at the bits 3:2 of eight, all others are left open
            ("register-reset", "R", "R", "0bxxxx01xx", "0bxxxx11xx"),
            ("field-reset", "R.F", "R.F", "0x01", "0x03"),
        ],
    ),
    (
        one(reset="0x04", fields=[field("F", "3:2")]),
        one(reset="0x14", fields=[field("F", "3:2")]),
        on("R", "0x04", "0x14", kind="register-reset"),
    ),
    # more bits of 0, or of nothing, are no other reset
    (
        one(reset="0x04"),
        one(reset="0x0004", width=16),
        on("R", "8 bits", "16 bits", kind="register-width"),
    ),
    (
        with_field(reset="0bxx"),
        with_field(reset="0bxxx", bits="4:2"),
        [
            ("field-bits", "R.F", "R.F", "bits 3:2", "bits 4:2"),
            ("field-width", "R.F", "R.F", "2 bits", "3 bits"),
        ],
    ),
    (with_field(), with_field(valuesComplete=True), on("R.F", "no", "yes", kind="values-complete")),
    (with_field(title="T"), with_field(), on("R.F", "T", "", kind="title")),
    (with_field(page=1), with_field(page=2), on("R.F", "1", "2", kind="page")),
    (with_field(notes="N"), with_field(notes="M"), on("R.F", "N", "M", kind="notes")),
    # Values.
    (
        with_field(),
        with_value(),
        [("value-only-in-b", "", "R.F.V", "", "0x01")],
    ),
    (
        *(with_value(), with_value(name="W")),
        [("value-renamed", "R.F.V", "R.F.W", "V", "W")],
    ),
    (with_value(), with_value(value=2), on("R.F.V", "0x01", "0x02", kind="value")),
    (
        *(with_value(), with_value(usage="write")),
        on("R.F.V", "read-write", "write", kind="value-usage"),
    ),
    (with_value(), with_value(aliases="X"), on("R.F.V", "", "X", kind="value-aliases")),
    (with_value(title="T"), with_value(title="U"), on("R.F.V", "T", "U", kind="title")),
    # one number with two names: not when their titles or numbers say that they are two
    (
        with_value(name="DIV4"),
        with_value(name="DIV8"),
        [
            ("value-only-in-a", "R.F.DIV4", "", "0x01", ""),
            ("value-only-in-b", "", "R.F.DIV8", "", "0x01"),
        ],
    ),
    (
        with_value(title="stopped"),
        with_value(name="W", title="the outside clock"),
        [
            ("value-only-in-a", "R.F.V", "", "0x01", ""),
            ("value-only-in-b", "", "R.F.W", "", "0x01"),
        ],
    ),
    # by alias, by names alike and by title, whatever the number
    (
        with_value(name="OFF"),
        with_value(name="STOP", value=3, aliases="OFF"),
        [
            ("value-renamed", "R.F.OFF", "R.F.STOP", "OFF", "STOP"),
            ("value", "R.F.OFF", "R.F.STOP", "0x01", "0x03"),
            ("value-aliases", "R.F.OFF", "R.F.STOP", "", "OFF"),
        ],
    ),
    (
        with_value(name="TURN_ON"),
        with_value(name="TURNON"),
        [("value-renamed", "R.F.TURN_ON", "R.F.TURNON", "TURN_ON", "TURNON")],
    ),
    (
        with_value(title="no clock"),
        with_value(name="W", value=3, title="No clock!"),
        [
            ("value-renamed", "R.F.V", "R.F.W", "V", "W"),
            ("value", "R.F.V", "R.F.W", "0x01", "0x03"),
            ("title", "R.F.V", "R.F.W", "no clock", "No clock!"),
        ],
    ),
]
