"""Two chips and exactly what differs between them, worked out by hand."""

from __future__ import annotations

from register_cases import HALVES, Rows, on, one
from small_chips import SPACES, WINDOWS, chip, field, flags, register

from regwright.resolve.chip import ResolvedChip

RAM = {"name": "RAM", "kind": "ram", "first": "0x60", "last": "0xFF"}
PLAIN = {key: value for key, value in WINDOWS[0].items() if key != "singleBit"}
READ = {"names": "in", "space": "io", "access": "read", "address": 2}

#: Two whole chips, for what is about more than one register.
CHIPS: list[tuple[ResolvedChip, ResolvedChip, Rows]] = [
    (
        *(chip(one()), chip()),
        [("register-only-in-a", "R", "", "data 0x100, 8 bits, read-write", "")],
    ),
    # of a register with halves that is alone, the halves go with it
    (
        *(chip(), chip(register("R", 0x30, width=16, access="read-only", halves=HALVES))),
        [("register-only-in-b", "", "R", "", "data 0x30, io 0x10, 16 bits, read-only")],
    ),
    (
        *(chip(one(aliases="OLD")), chip(register("OLD", 0x100))),
        [
            ("register-renamed", "R", "OLD", "R", "OLD"),
            ("register-aliases", "R", "OLD", "OLD", ""),
        ],
    ),
    # out of the window, and out of reach of single-bit instructions: io 0x1F is the last
    (
        *(chip(register("R", 0x3F)), chip(register("R", 0x60))),
        [
            ("address", "R", "R", "0x3F", "0x60"),
            ("address", "R", "R", "0x1F", ""),
            ("single-bit-reach", "R", "R", "reached", "not reached"),
        ],
    ),
    (
        *(chip(register("R", 0x3F)), chip(register("R", 0x40))),
        [
            ("address", "R", "R", "0x3F", "0x40"),
            ("address", "R", "R", "0x1F", "0x20"),
            ("single-bit-reach", "R", "R", "reached", "not reached"),
        ],
    ),
    # both printed or one derived: they are the same addresses
    (chip(register("R", 0x3F)), chip(one(address="io:0x1F data:0x3F")), []),
    (
        chip(one(width=16, halves=HALVES)),
        chip(one(width=16, halves=HALVES, address="data:0x102")),
        [
            ("address", "R", "R", "0x100", "0x102"),
            ("address", "RL", "RL", "0x100", "0x102"),
            ("address", "RH", "RH", "0x101", "0x103"),
        ],
    ),
    (
        chip(one(), register("X", 0x101, fields=flags("S"))),
        chip(one(when="X.S = 1"), register("X", 0x101, fields=flags("S"))),
        [("condition", "R", "R", "", "X.S = 0x1")],
    ),
    # the same condition: its field and its register have other names
    (
        chip(one(when="X.S = 1"), register("X", 0x101, title="Bank of R", fields=flags("S"))),
        chip(one(when="Y.T = 1"), register("Y", 0x101, title="Bank of R", fields=flags("T"))),
        [
            ("register-renamed", "X", "Y", "X", "Y"),
            ("field-renamed", "X.S", "Y.T", "S", "T"),
        ],
    ),
    (
        chip(one(), register("X", 0x101)),
        chip(one(aliasOf="X"), register("X", 0x101)),
        [("alias-of", "R", "R", "", "X")],
    ),
    (
        chip(one(aliasOf="X"), register("X", 0x101)),
        chip(one(aliasOf="X_"), register("X_", 0x101)),
        [("register-renamed", "X", "X_", "X", "X_")],
    ),
    (
        *(chip(one(width=16, halves=HALVES)), chip(one(width=16))),
        [
            ("halves", "R", "R", "RL, RH", ""),
            ("register-only-in-a", "RL", "", "data 0x100, 8 bits, read-write", ""),
            ("register-only-in-a", "RH", "", "data 0x101, 8 bits, read-write", ""),
        ],
    ),
    (
        chip(register("R_A", 0x100, fields=flags("S", "T")), register("R_B", 0x101)),
        chip(
            register("R_A", 0x100, fields=flags("S")),
            register("R_B", 0x101, fields=[field("T", 1)]),
        ),
        [("field-moved", "R_A.T", "R_B.T", "R_A", "R_B")],
    ),
    (
        chip(register("R", 0x100, fields=flags("S", "T"))),
        chip(register("R_A", 0x100, fields=flags("S")), register("R_B", 0x101, fields=flags("T"))),
        [
            ("register-only-in-a", "R", "", "data 0x100, 8 bits, read-write", ""),
            ("register-only-in-b", "", "R_A", "", "data 0x100, 8 bits, read-write"),
            ("register-only-in-b", "", "R_B", "", "data 0x101, 8 bits, read-write"),
            ("register-split", "R", "R_A, R_B", "", "R_A, R_B"),
            ("field-moved", "R.T", "R_B.T", "R", "R_B"),
            ("field-bits", "R.T", "R_B.T", "bit 1", "bit 0"),
            ("field-moved", "R.S", "R_A.S", "R", "R_A"),
        ],
    ),
    # Blocks.
    (
        chip(blocks=[{"name": "B", "base": "data:0x100", "registers": [register("R", offset=1)]}]),
        chip(
            blocks=[
                {
                    **{"name": "B", "base": "data:0x100", "title": "T", "page": 3, "notes": "N"},
                    **{"aliases": "C", "size": "0x10"},
                    "registers": [register("R", offset=2)],
                }
            ]
        ),
        [
            ("title", "B", "B", "", "T"),
            ("page", "B", "B", "", "3"),
            ("notes", "B", "B", "", "N"),
            ("register-aliases", "B", "B", "", "C"),
            ("address", "B_R", "B_R", "0x101", "0x102"),
        ],
    ),
    (
        chip(
            blocks=[
                {
                    "name": "B",
                    "instances": [
                        {"name": "B0", "base": "data:0x100", "title": "T"},
                        {"name": "B1", "base": "data:0x110", "page": 4},
                    ],
                    "registers": [register("R", offset=1)],
                }
            ]
        ),
        chip(
            blocks=[
                {
                    "name": "B",
                    "title": "said once",
                    "width": 16,
                    "instances": [
                        {"name": "B0", "base": "data:0x100", "title": "U"},
                        {"name": "B1", "base": "data:0x110", "page": 5},
                    ],
                    "registers": [register("R", offset=1)],
                }
            ]
        ),
        [
            ("title", "B0", "B0", "", "said once"),
            ("title", "B0", "B0", "T", "U"),
            ("page", "B1", "B1", "4", "5"),
            ("register-width", "B0_R", "B0_R", "8 bits", "16 bits"),
            ("register-width", "B1_R", "B1_R", "8 bits", "16 bits"),
        ],
    ),
    # in one block or in none: they are the same registers
    (
        chip(register("B_R", 0x101), register("B_S", 0x102)),
        chip(
            blocks=[
                {
                    **{"name": "B", "base": "data:0x100"},
                    "registers": [register("R", offset=1), register("S", offset=2)],
                }
            ]
        ),
        [],
    ),
    # The chip.
    (chip(), chip(name="other"), on("chip", "chip", "other", kind="chip-name")),
    (chip(), chip(kind="device"), on("chip", "chip", "device", kind="kind")),
    (chip(family="S"), chip(), on("chip", "S", "", kind="family")),
    (chip(), chip(intWidth=32), on("chip", "", "32 bits", kind="int-width")),
    (chip(compilerMacro="M"), chip(), on("chip", "M", "", kind="compiler-macro")),
    (chip(title="T"), chip(title="U"), on("chip", "T", "U", kind="title")),
    (chip(), chip(notes="N"), on("chip", "", "N", kind="notes")),
    (
        chip(document={"title": "Data sheet", "revision": "A", "date": "2026"}),
        chip(document={"title": "Data sheet", "revision": "B", "notes": "N"}),
        on("chip", "Data sheet, A, 2026", "Data sheet, B, N", kind="document"),
    ),
    (
        chip(),
        chip(spaces=[*SPACES, {"name": "flash", "size": "0x800", "unit": 16}]),
        [("space-only-in-b", "", "flash", "", "0x800 units of 16 bits, pointers reach it")],
    ),
    (
        chip(),
        chip(spaces=[{**SPACES[0], "pointer": False, "title": "D"}, SPACES[1]]),
        [
            (
                *("space", "data", "data", "0x400 units of 8 bits, pointers reach it"),
                "0x400 units of 8 bits, pointers do not reach it",
            ),
            ("title", "data", "data", "", "D"),
        ],
    ),
    (
        chip(spaces=[{**SPACES[0], "regions": [RAM]}, SPACES[1]]),
        chip(
            spaces=[{**SPACES[0], "regions": [{**RAM, "last": "0x1FF", "title": "T"}]}, SPACES[1]]
        ),
        [
            ("region", "data.RAM", "data.RAM", "0x0060 to 0x00ff, ram", "0x0060 to 0x01ff, ram"),
            ("title", "data.RAM", "data.RAM", "", "T"),
        ],
    ),
    (
        *(chip(spaces=[{**SPACES[0], "regions": [RAM]}, SPACES[1]]), chip()),
        [("region", "data.RAM", "", "0x0060 to 0x00ff, ram", "")],
    ),
    (
        *(chip(), chip(windows=[{**PLAIN, "offset": "0x0"}])),
        on(
            "io in data",
            "0x00 to 0x3f at +0x20, single-bit 0x00 to 0x1f",
            "0x00 to 0x3f at +0x00",
            kind="window",
        ),
    ),
    # on a chip without single-bit instructions no register is in reach: that is no news of each
    (
        *(chip(one(), windows=[PLAIN]), chip(one())),
        on(
            "io in data",
            "0x00 to 0x3f at +0x20",
            "0x00 to 0x3f at +0x20, single-bit 0x00 to 0x1f",
            kind="window",
        ),
    ),
    (
        *(chip(register("R", 0x21), windows=[]), chip(register("R", 0x21))),
        [
            ("window", "", "io in data", "", "0x00 to 0x3f at +0x20, single-bit 0x00 to 0x1f"),
            ("address", "R", "R", "", "0x01"),
            ("single-bit-reach", "R", "R", "", "reached"),
        ],
    ),
    (
        chip(instructions=[READ]),
        chip(instructions=[{**READ, "names": "in bin", "access": "write", "value": 1}]),
        [
            (
                *("instruction", "in", "in", "read io by operand 2"),
                "write io by operand 2, value by operand 1",
            ),
            ("instruction", "", "bin", "", "write io by operand 2, value by operand 1"),
        ],
    ),
    # the same, one by one
    (
        chip(instructions=[{**READ, "names": "in bin"}]),
        chip(instructions=[{**READ, "names": "bin"}, READ]),
        [],
    ),
]
