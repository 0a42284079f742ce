"""The work of moving a program, with small chips on which it can be worked out by hand."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from compare_runs import source, tree
from small_chips import SPACES, Tree, field, flags, register

from conftest import ROOT, Cli
from regwright.code.text import ASSEMBLER, C, CodeText
from regwright.compare.differences import compare
from regwright.compare.pins import NO_PINS, Pins
from regwright.pipeline import check
from regwright.reports.compare_forms import FORMS
from regwright.reports.compared import Compared, touched
from regwright.reports.porting import Move, answer, move_of

INSTRUCTIONS = [
    {"names": "in", "space": "io", "access": "read", "address": 2},
    {"names": "bset bclr", "space": "io", "access": "modify", "address": 1, "bit": 2},
    {"names": "store", "space": "data", "access": "write", "address": 1, "value": 2},
]
AT_30 = "(*(volatile unsigned char *)0x30)"
Item = tuple[str, str, str]


def code(text: str, name: str = "main.c") -> CodeText:
    """Return a source; text of C that defines no function is put into one."""
    is_plain = name.endswith(".c") and "void" not in text
    data = (f"void f(void) {{ {text} }}\n" if is_plain else text).encode()
    return CodeText(name, data, C if name.endswith("c") else ASSEMBLER)


def compared(a: Tree, b: Tree, *files: CodeText, pins: Pins = NO_PINS) -> Compared:
    sources = source(a, "a.json"), source(b, "b.json")
    old, new = (check(item) for item in sources)
    assert old.resolved is not None, old.findings
    assert new.resolved is not None, new.findings
    assert old.subject is not None
    assert new.subject is not None
    comparison = compare(old.resolved, new.resolved, pins)
    move = move_of(comparison, old.subject.macros, new.subject.macros, files)
    return Compared(comparison, touched(comparison.changes, move.used), sources, move)


def moved(a: Tree, b: Tree, *files: CodeText | str, pins: Pins = NO_PINS) -> Move:
    texts = [code(item) if isinstance(item, str) else item for item in files]
    found = compared(a, b, *texts, pins=pins).move
    assert found is not None
    return found


def work(a: Tree, b: Tree, *files: CodeText | str) -> list[Item]:
    return [(item.danger, item.thing, item.message) for item in moved(a, b, *files).porting.work]


def small(*registers: Tree, **more: Any) -> Tree:
    return tree("one", *registers, instructions=INSTRUCTIONS, **more)


def large(*registers: Tree, **more: Any) -> Tree:
    return tree("two", *registers, instructions=INSTRUCTIONS, **more)


R = register("R", 0x30, fields=flags("F", "G"))


# Names of the header.


def test_name_of_another_thing_comes_before_all() -> None:
    """The match file says that CNT is NEW now, and that what is called CNT there is CMP."""
    one = small(R, register("CNT", 0x40), register("CMP", 0x41))
    two = large({**R, "address": "data:0x31"}, register("CNT", 0x41), register("NEW", 0x40))
    pins = Pins(frozenset({("CNT", "NEW"), ("CMP", "CNT")}))
    found = moved(one, two, f"{AT_30} = 0; CMP = 2; CNT = 1;", pins=pins).porting.work
    assert [(item.danger, item.thing, item.message, item.instead) for item in found[:2]] == [
        (
            "wrong",
            "CNT",
            "CNT is another thing's name on two: there it is what CMP is here",
            "write NEW",
        ),
        ("wrong", "R", "data address 0x30 → 0x31", "write 0x31, or use R of the header"),
    ]


def test_renamed_macro_is_said_with_its_new_name() -> None:
    two = large({**R, "name": "Q", "aliases": "R"})
    found = moved(small(R), two, "R = R_F_MASK;").porting.work
    assert [(item.danger, item.thing, item.message, item.instead) for item in found] == [
        ("missing", "R", "R is called Q on two", "write Q"),
        ("missing", "R.F", "R_F_MASK is called Q_F_MASK on two", "write Q_F_MASK"),
    ]


def test_what_is_gone_is_missing_and_the_program_cannot_move() -> None:
    one = small(R, register("LOST", 0x90, title="Nothing like it", fields=flags("X", "Y", "Z")))
    found = moved(one, large(R), "LOST = LOST_X_MASK;")
    assert {(item.danger, item.thing) for item in found.porting.work} == {
        ("missing", "LOST"),
        ("missing", "LOST.X"),
    }
    assert "LOST" in found.porting.homeless
    assert answer(found)[0].startswith("It cannot move to two without a change of design")


def test_field_that_is_gone_is_missing_by_name_and_wrong_by_number() -> None:
    two = large(register("R", 0x30, fields=flags("F")))
    assert work(small(R), two, "R |= R_G_MASK;") == [("missing", "R.G", "two has no R_G_MASK")]
    assert work(small(R), two, f"{AT_30} |= 2;") == [("wrong", "R.G", "two has no R.G")]


def test_value_that_is_gone_has_no_counterpart_but_its_field_has() -> None:
    values = [{"name": "SLOW", "value": 1}, {"name": "FAST", "value": 2}]
    one = small(register("R", 0x30, fields=[field("M", "1:0", values=values)]))
    two = large(register("R", 0x30, fields=[field("M", "1:0", values=values[:1])]))
    found = moved(one, two, "R = R_M_FAST;")
    assert [item.message for item in found.porting.work] == ["two has no R_M_FAST"]
    assert found.porting.homeless == ["R.M.FAST"]


def test_address_macro_that_is_gone_is_no_lost_register() -> None:
    one, two = small(R), large({**R, "address": "data:0x90"})
    start = code(".global start\nstart:\n  in r1, R_IO_ADDR\n", "start.S")
    found = moved(one, two, start)
    assert ("missing", "R") in {(item.danger, item.thing) for item in found.porting.work}
    assert "R has no address in that space: use R itself" in {
        item.instead for item in found.porting.work
    }
    assert found.porting.homeless == []
    assert answer(found)[0].startswith("It can move to two.")


def test_other_header_is_included_and_its_accesses_are_called_otherwise() -> None:
    text = '#include "lib/one.h"\n#define ONE_REG8(address) memory[address]\nvoid f(void) {}\n'
    found = moved(small(R), large(R), text).porting.work
    assert [(item.danger, item.thing, item.instead) for item in found] == [
        ("wrong", "one.h", "include two.h"),
        ("missing", "ONE_REG8", "write TWO_REG8"),
    ]
    same = {**large(R), "name": "one"}
    assert work(small(R), same, text) == []


# Addresses.


def test_address_is_wrong_by_number_and_moves_with_the_header() -> None:
    two = large({**R, "address": "data:0x31"})
    assert work(small(R), two, "R = 0;") == [("moved", "R", "data address 0x30 → 0x31")]
    assert work(small(R), two, f"{AT_30} = 0;") == [("wrong", "R", "data address 0x30 → 0x31")]


def test_macro_that_leads_to_the_header_is_the_header() -> None:
    two = large({**R, "address": "data:0x31"})
    text = "#define MINE R\n#define BIT R_G_MASK\nvoid f(void) { MINE |= BIT; }\n"
    assert work(small(R), two, text) == [("moved", "R", "data address 0x30 → 0x31")]
    own = f"#define MINE {AT_30}\nvoid f(void) {{ MINE = 0; }}\n"
    found = moved(small(R), two, own).porting.work
    assert [item.danger for item in found] == ["wrong"]
    # The definition, in the first line, and the use, in the second.
    assert [(place.how, own[: place.at.start].count("\n") + 1) for place in found[0].places] == [
        ("defined", 1),
        ("write", 2),
    ]


def test_both_ways_at_once_are_two_things_to_do() -> None:
    two = large({**R, "address": "data:0x31"})
    assert work(small(R), two, f"R = 0; {AT_30} = 1;") == [
        ("wrong", "R", "data address 0x30 → 0x31"),
        ("moved", "R", "data address 0x30 → 0x31"),
    ]


def test_instruction_that_loses_its_space_is_told_the_other_address() -> None:
    """0x30 in data space is 0x10 in I/O space, 0x20 less, by the window."""
    start = code("start:\n  in r1, 0x10\n", "start.S")
    two = large({**R, "address": "data:0x90"})
    found = [item for item in moved(small(R), two, start).porting.work if item.thing == "R"]
    assert [(item.danger, item.message, item.instead) for item in found] == [
        ("wrong", "io address 0x10 → nothing", "there only R_DATA_ADDR (0x90) reaches it")
    ]


OUT = "out of reach of single-bit instructions"


@pytest.mark.parametrize(
    ("file", "expected"),
    [
        (
            "R |= 1;",
            ("wrong", "out of reach of single-bit instructions: one bit takes several now"),
        ),
        ("R = 1;", None),
        (
            code("start:\n  bset 0x10, 0\n", "s.S"),
            ("missing", "out of reach of single-bit instructions"),
        ),
        (code("start:\n  in r1, 0x10\n", "s.S"), None),
    ],
)
def test_single_bit_reach(file: CodeText | str, expected: tuple[str, str] | None) -> None:
    """Data 0x30 is I/O 0x10, in reach up to 0x1F; data 0x50 is I/O 0x30, out of it."""
    found = [
        (danger, message)
        for danger, _, message in work(small(R), large({**R, "address": "data:0x50"}), file)
        if "reach" in message
    ]
    assert found == ([expected] if expected else [])


def test_memory_that_moved_is_the_linkers() -> None:
    def spaces(first: str) -> list[Tree]:
        regions = [{"name": "RAM", "kind": "ram", "first": first, "last": "0x3FF"}]
        return [{**SPACES[0], "regions": regions}, SPACES[1]]

    one, two = small(R, spaces=spaces("0x100")), large(R, spaces=spaces("0x200"))
    assert work(one, two, "R = 0;") == [
        ("wrong", "data.RAM", "memory 0x0100 to 0x03ff, ram → 0x0200 to 0x03ff, ram")
    ]


# Bits.


@pytest.mark.parametrize(
    ("text", "danger"),
    [
        ("R |= R_F_MASK;", "moved"),
        ("R |= 1;", "wrong"),
        ("R |= 1 << 0;", "wrong"),
        ("if (R & 1) { }", "wrong"),
        ("R |= 2;", None),
    ],
)
def test_bits_by_number_and_by_name(text: str, danger: str | None) -> None:
    two = large(register("R", 0x30, fields=[field("G", 1), field("F", 4)]))
    expected = [(danger, "R.F", "bit 0 → bit 4")] if danger else []
    assert work(small(R), two, text) == expected


def test_number_in_a_field_by_the_header_is_the_headers() -> None:
    one = small(register("R", 0x30, fields=[field("M", "1:0"), field("N", 7)]))
    two = large(register("R", 0x30, fields=[field("M", "3:2"), field("N", 7)]))
    assert work(one, two, "R = R_M_INSERT(R_N_MASK, 3u);") == [
        ("moved", "R.M", "bits 1:0 → bits 3:2")
    ]
    assert work(one, two, "R = R_N_MASK | 3u;") == [("wrong", "R.M", "bits 1:0 → bits 3:2")]


def test_bit_of_an_instruction_is_a_number() -> None:
    two = large(register("R", 0x30, fields=[field("G", 1), field("F", 4)]))
    start = code("start:\n  bset 0x10, 0\n", "s.S")
    assert work(small(R), two, start) == [("wrong", "R.F", "bit 0 → bit 4")]


def test_wider_field_is_work_only_where_numbers_stay() -> None:
    one = small(register("R", 0x30, fields=[field("M", "1:0")]))
    two = large(register("R", 0x30, fields=[field("M", "2:0")]))
    assert work(one, two, "R = R_M_INSERT(0, 1);") == [("moved", "R.M", "bits 1:0 → bits 2:0")]
    found = moved(one, two, "R = 1;").porting.work
    assert [(item.message, item.instead) for item in found] == [
        ("2 bits → 3 bits wide", "see that the bits that are new, 0x04, are written as meant")
    ]
    back = moved(two | {"name": "one"}, one | {"name": "two"}, "R = R_M_INSERT(0, 7);")
    assert ("wrong", "no value above 3 has room: check what is written") in {
        (item.danger, item.instead) for item in back.porting.work
    }


def test_field_in_another_register() -> None:
    far = [field("FAR", 3, title="the only one of its kind")]
    s = register("S", 0x31, title="Other")
    one = small(register("R", 0x30, fields=[*flags("F"), *far]), {**s, "fields": flags("P")})
    two = large(register("R", 0x30, fields=flags("F")), {**s, "fields": [*flags("P"), *far]})
    found = [item for item in moved(one, two, "R |= 8;").porting.work if item.thing == "R.FAR"]
    assert [(item.danger, item.message.split(" (")[0], item.instead) for item in found] == [
        ("wrong", "stands in S now, stood in R", "access S for it")
    ]


# What a register does.


def flag(effect: str | None) -> Tree:
    more = {"modifiedWriteValue": effect} if effect else {}
    return register("R", 0x30, fields=[field("F", 0, volatile=True, **more), field("G", 1)])


@pytest.mark.parametrize(
    ("before", "after", "text", "danger"),
    [
        ("zeroToClear", "oneToClear", "R &= (unsigned char)~R_F_MASK;", "wrong"),
        ("zeroToClear", "oneToClear", "R_F_CLEAR();", "moved"),
        ("zeroToClear", "oneToClear", "if (R & R_F_MASK) { }", None),
        (None, "oneToClear", "if (R & R_F_MASK) { }", "wrong"),  # it stays set now
        ("oneToClear", None, "R = R_F_MASK;", "wrong"),
    ],
)
def test_write_effect(before: str | None, after: str | None, text: str, danger: str | None) -> None:
    found = [
        (item[0], item[1])
        for item in work(small(flag(before)), large(flag(after)), text)
        if "a write acts" in item[2]
    ]
    assert found == ([(danger, "R.F")] if danger else [])


@pytest.mark.parametrize(
    ("text", "is_work"), [("R |= R_F_MASK;", True), ("R = 1; R |= R_F_MASK;", False)]
)
def test_reset_matters_where_it_is_not_set(text: str, *, is_work: bool) -> None:
    found = work(small({**R, "reset": "0x00"}), large({**R, "reset": "0x02"}), text)
    assert found == ([("wrong", "R", "after reset 0x00 → 0x02")] if is_work else [])


def test_what_cannot_be_written_cannot_be_set_first() -> None:
    pins = register("P", 0x30, access="read-only")
    one, two = small({**pins, "reset": "0x00"}), large({**pins, "reset": "0x02"})
    assert work(one, two, "if (P) { }") == []


@pytest.mark.parametrize(
    ("write", "text", "is_work"),
    [
        ("0", f"{AT_30} = 0x80;", True),
        ("0", f"{AT_30} |= 0x01;", False),  # the others stay as they are
        ("0", "R = R_F_MASK;", False),  # 0 at all but F
        ("1", "R = R_F_MASK;", True),
        ("preserve", "R = R_F_MASK;", True),
    ],
)
def test_reserved_bits_matter_in_plain_writes(write: str, text: str, *, is_work: bool) -> None:
    two = large({**R, "reserved": [{"bits": "7:6", "write": write}]})
    says = {"0": "write 0", "1": "write 1", "preserve": "write what was read"}[write]
    expected = [("wrong", "R", f"bits reserved now: 0xC0: {says}")] if is_work else []
    assert work(small(R), two, text) == expected


def test_bits_that_are_reserved_no_more_are_no_work() -> None:
    one = small({**R, "reserved": [{"bits": "7:2", "write": "0"}]})
    two = large({**R, "reserved": [{"bits": "7:3", "write": "0"}]})
    assert work(one, two, f"{AT_30} = 1;") == []


def test_width_access_and_order() -> None:
    wide = {"width": 16, "fields": flags("F", "G")}
    found = work(small(R), large(register("R", 0x30, **wide)), "R |= R_F_MASK;")
    assert ("wrong", "R", "8 bits → 16 bits wide") in found
    closed = large({**R, "access": "read-only"})
    assert ("missing", "R", "access read-write → read-only") in work(small(R), closed, "R = 1;")
    assert ("wrong", "R", "access read-write → read-only") in work(
        small(R), closed, f"{AT_30} = 1;"
    )

    def halves(first: str) -> Tree:
        names = {"low": {"name": "C_L"}, "high": {"name": "C_H"}}
        return register("C", 0x40, width=16, halves={"readFirst": first, **names})

    text = "unsigned c = C_L; c |= (unsigned)C_H << 8;"
    found = moved(small(halves("low")), large(halves("high")), text).porting.work
    orders = [item for item in found if "read order" in item.message]
    assert [(item.danger, item.message) for item in orders] == [("wrong", "read order low → high")]
    assert "C_READ_INTO(variable)" in orders[0].instead


def test_value_of_a_name_matters_by_number_or_by_that_name() -> None:
    def mode(fast: int) -> Tree:
        values = [{"name": "SLOW", "value": 1}, {"name": "FAST", "value": fast}]
        return register("R", 0x30, fields=[field("M", "1:0", values=values)])

    one, two = small(mode(2)), large(mode(3))
    assert work(one, two, "R = R_M_SLOW;") == []
    assert work(one, two, "R = R_M_FAST;") == [("moved", "R.M.FAST", "value 0x02 → 0x03")]
    assert work(one, two, "R = 2;") == [("wrong", "R.M.FAST", "value 0x02 → 0x03")]


@pytest.mark.parametrize(("text", "is_work"), [("if (R) { }", True), ("R = 1;", False)])
def test_read_that_acts_matters_to_reads(text: str, *, is_work: bool) -> None:
    found = work(small(R), large({**R, "readAction": "clear"}), text)
    expected = ("wrong", "R", "a read acts differently: nothing → clear")
    assert found == ([expected] if is_work else [])


def test_lost_register_by_number_says_what_is_there_now() -> None:
    one = small(register("LOST", 0x90, title="Nothing like it", fields=flags("X", "Y", "Z")), R)
    two = large(R, register("OTHER", 0x90, width=16))
    found = moved(one, two, "*(volatile unsigned char *)0x90 = 1;")
    assert [(item.danger, item.thing, item.instead) for item in found.porting.work] == [
        ("wrong", "LOST", "take this access out")
    ]
    assert "0x90 is" in found.porting.work[0].message
    assert "OTHER" in found.porting.work[0].message
    assert found.porting.homeless == ["LOST"]


def test_order_that_the_header_keeps_moves_with_it() -> None:
    def halves(first: str) -> Tree:
        names = {"low": {"name": "C_L"}, "high": {"name": "C_H"}}
        return register("C", 0x40, width=16, halves={"readFirst": first, **names})

    text = "unsigned short c; C_READ_INTO(c);"
    assert work(small(halves("low")), large(halves("high")), text) == [
        ("moved", "C", "read order low → high")
    ]


def test_width_of_int() -> None:
    assert work(small(R, intWidth=16), large(R, intWidth=32), "R = 0;") == [
        ("wrong", "int", "int has 32 bits, it had 16 bits")
    ]


# The list as a whole.


def test_most_dangerous_first_and_one_line_a_place() -> None:
    one = small({**R, "reset": "0x00"}, register("S", 0x40), register("T", 0x42, title="Third"))
    two = large({**R, "reset": "0x02"}, register("S", 0x41), register("T3", 0x42, title="Third"))
    text = "R |= R_F_MASK; R |= R_F_MASK; S = 1; T = 2;"
    pins = Pins(frozenset({("T", "T3")}))
    found = moved(one, two, text, pins=pins)
    assert [(item.danger, item.thing) for item in found.porting.work] == [
        ("wrong", "R"),
        ("missing", "T"),
        ("moved", "S"),
    ]
    printed = FORMS["text"](compared(one, two, code(text), pins=pins))
    assert printed.splitlines().count("     main.c:1:16") == 1  # both uses of R stand in line 1
    assert printed.endswith(
        "It can move to two. It takes: 1 thing to think about, where the compiler is silent; "
        "1 name to change, which the compiler asks for; "
        "1 thing that a build with the new header moves.\nIt uses 3 registers of one.\n"
    )


def test_program_that_moves_as_it_is() -> None:
    found = moved(small(R), large(R, register("MORE", 0x80)), "R = R_F_MASK;")
    assert found.porting.work == []
    assert answer(found) == ["It can move to two as it is.", "It uses 1 register of one."]


def test_reports_hold_the_list_and_nothing_breaks_out() -> None:
    one, two = small(R), large({**R, "address": "data:0x31"})
    evil = code(f"{AT_30} = 0;", "<i>`a`|b.c")
    found = compared(one, two, evil)
    markdown = FORMS["markdown"](found)
    assert markdown.startswith("# From one to two\n")
    assert "- [ ] `R`: data address 0x30 → 0x31" in markdown
    assert "  - `<i>'a'¦b.c:1:16`" in markdown  # no backtick ends the span (CommonMark 6.1)
    page = FORMS["html"](found)
    assert "&lt;i&gt;`a`|b.c:1:16" in page
    assert "<i>`" not in page
    assert 'id="work-wrong"' in page
    data = json.loads(FORMS["json"](found))
    schema = json.loads((ROOT / "schemas" / "compare.schema.json").read_text())
    jsonschema.Draft202012Validator(schema).validate(data)
    assert data["porting"]["registersUsed"] == 1
    assert data["porting"]["work"][0]["places"] == [
        {"file": "<i>`a`|b.c", "line": 1, "column": 16, "how": "write", "name": ""}
    ]


# The command.


@pytest.fixture
def chips(tmp_path: Path) -> Path:
    for name, chip in (("a", small(R)), ("b", large({**R, "address": "data:0x31"}))):
        (tmp_path / f"{name}.json").write_text(json.dumps(chip))
    (tmp_path / "none.c").write_text("int x;\n")
    (tmp_path / "some.c").write_text(f"void f(void) {{ {AT_30} = 0; }}\n")
    return tmp_path


@pytest.mark.usefixtures("chips")
def test_exit_codes(cli: Cli) -> None:
    command = "compare", "a.json", "b.json", "--source"
    nothing = cli(*command, "none.c")
    assert (nothing.returncode, nothing.stderr) == (0, "")
    assert nothing.stdout.startswith("It can move to two as it is.\n")
    some = cli(*command, "some.c", "--source", "none.c")
    assert (some.returncode, some.stderr) == (1, "")
    assert "  1. R: data address 0x30 → 0x31\n" in some.stdout
    lost = cli(*command, "nowhere.c")
    assert (lost.returncode, lost.stdout) == (2, "")
    assert "nowhere.c" in lost.stderr
    assert cli(*command, ".").returncode == 1


@pytest.mark.usefixtures("chips")
@pytest.mark.parametrize("other", ["--stat", "--breaking"])
def test_refused_together(cli: Cli, other: str) -> None:
    done = cli("compare", "a.json", "b.json", "--source", "some.c", other)
    assert (done.returncode, done.stdout) == (2, "")
    assert "--source" in done.stderr
