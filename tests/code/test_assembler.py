"""Statements and equates of assembler sources: by hand, by law, and against GNU as.

The invented chips have the instructions ``in``, ``out``, ``load``, ``store`` and ``wait``.
"""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from regwright.code.assembler import MOST_OPERANDS, Equate, Piece, Statement, statements

Short = tuple[str, ...]


def short(text: str, *, semicolons_separate: bool = False) -> list[Short]:
    """Return label, mnemonic and operands of each statement; ``=`` and both parts of equates."""
    found: list[Short] = []
    for made in statements(text.encode(), semicolons_separate=semicolons_separate):
        if isinstance(made, Equate):
            found.append(("=", made.name.text, made.expression.text))
        else:
            label = f"{made.label}:" if made.label else ""
            found.append((label, made.mnemonic, *(operand.text for operand in made.operands)))
    return found


def pieces(made: Statement | Equate) -> tuple[Piece, ...]:
    return made.operands if isinstance(made, Statement) else (made.name, made.expression)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", []),
        ("\n \t\r\n", []),
        ("wait", [("", "wait")]),
        ("  OUT 0x25 , r1\r\n", [("", "out", "0x25", "r1")]),
        ("\tin\tr1,PUMP+1\nwait", [("", "in", "r1", "PUMP+1"), ("", "wait")]),
        # Labels: also of digits, several on a line, alone, with arguments of macros.
        ("start:\n  wait", [("start:", ""), ("", "wait")]),
        ("1: wait\n.L2$x:wait", [("1:", "wait"), (".L2$x:", "wait")]),
        ("a: b : c:wait", [("a:", ""), ("b:", ""), ("c:", "wait")]),
        ("again\\@: out \\port, \\()r1", [("again\\@:", "out", "\\port", "\\()r1")]),
        ("a::wait", [("a:", "wait")]),
        # Operands are split at commas outside of parentheses, brackets, braces and quotes.
        ("out (1, 2), [r1, 4]!, {r1, r2}", [("", "out", "(1, 2)", "[r1, 4]!", "{r1, r2}")]),
        ("out ((1),(2, 3)),4", [("", "out", "((1),(2, 3))", "4")]),
        ("out 1), 2", [("", "out", "1)", "2")]),
        ("out (1, 2\nwait", [("", "out", "(1, 2"), ("", "wait")]),
        ('.ascii "a, b; c // d", "\\", e"', [("", ".ascii", '"a, b; c // d"', '"\\", e"')]),
        ("load r1, ',', r2", [("", "load", "r1", "','", "r2")]),
        ("load r1, ';', '\\'', r2", [("", "load", "r1", "';'", "'\\''", "r2")]),
        ("load r1, '; ; x", [("", "load", "r1", "';")]),
        ("load r1, '\nwait", [("", "load", "r1", "'"), ("", "wait")]),
        ('.ascii "open, ; x\nwait', [("", ".ascii", '"open, ; x'), ("", "wait")]),
        ("out ,r1\nout 5,", [("", "out", "", "r1"), ("", "out", "5", "")]),
        ("out ,", [("", "out", "", "")]),
        ("out -1, ~(PUMP | 4) / 2", [("", "out", "-1", "~(PUMP | 4) / 2")]),
        # Comments.
        ("; wait\n// wait\n/* wait\nwait */ wait ; out 1", [("", "wait")]),
        ("out 1, 2;out 3\nwait", [("", "out", "1", "2"), ("", "wait")]),
        ("out 4 // 5\nout 6//7", [("", "out", "4"), ("", "out", "6")]),
        ("out /* a, b */ 1, /* c */ 2 /* d */", [("", "out", "1", "2")]),
        ("out 1 /* a\nb */ + 2, r1", [("", "out", "1           + 2", "r1")]),
        ("a /* b */ : wait", [("a:", "wait")]),
        ('.ascii "/* a", "b */" /* "c */', [("", ".ascii", '"/* a"', '"b */"')]),
        ("wait /* out 1\nout 2", [("", "wait")]),
        ("# it's a comment \\\n@ this too\n  # and \" this\nwait", [("", "wait")]),
        ("wait # out 1\nout 1, r1 @ x, y", [("", "wait"), ("", "out", "1", "r1")]),
        ("a: # b\nwait", [("a:", ""), ("", "wait")]),
        ("wait # if /* this\nwait", [("", "wait"), ("", "wait")]),
        ("out #1, #2\nout r1, # 5", [("", "out", "#1", "#2"), ("", "out", "r1", "# 5")]),
        ("in r1,@r2\nin r1, @ r2", [("", "in", "r1", "@r2"), ("", "in", "r1", "@ r2")]),
        # The C preprocessor's lines, which a backslash or a comment continues.
        ("#define OUT(x) \\\n  out x, \\\r\n r1\n#include <sorrel.h>\nwait", [("", "wait")]),
        ("#if A /* b\nout 1\n*/ || C\nwait\n # endif // d", [("", "wait")]),
        ('#define A "/*"\nwait\n#define B \'"\'\nwait', [("", "wait"), ("", "wait")]),
        ("# 1 \"sorrel.s\"\nwait", [("", "wait")]),
        # Equates, with all of the value.
        (".equ PUMP, 0x25 ; the pump", [("=", "PUMP", "0x25")]),
        ("a: .SET PUMP,lo(1, 2)", [("=", "PUMP", "lo(1, 2)")]),
        (".equiv PUMP , /* a */ 5 /* b */ + 1 # c", [("=", "PUMP", "5         + 1")]),
        (".eqv PUMP, 'a'\n.equ VALVE = 6", [("=", "PUMP", "'a'"), ("=", "VALVE", "6")]),
        ("PUMP = 5\nVALVE==6\nA=\nB = (C == 1)", [
            ("=", "PUMP", "5"), ("=", "VALVE", "6"), ("=", "A", ""), ("=", "B", "(C == 1)"),
        ]),
        # GNU as manual, ".equ symbol, expression": the syntax of two of its targets.
        ("PUMP equ 5\nVALVE .EQU 6", [("=", "PUMP", "5"), ("=", "VALVE", "6")]),
        (". = . + 4\nwait", [("", "wait")]),
        (".equ PUMP\n.equ (A), 1", [("", ".equ", "PUMP"), ("", ".equ", "(A)", "1")]),
        # What is no statement.
        ("5 out 1\n(x), y\n\"a\" : b\n, ,\n+\n:=\nwait", [("", "wait")]),
        ("\x00\nwait\x00", [("", "wait", "\x00")]),
        ("\ufeffstart: wait", [("start:", "wait")]),
        ("p\u00fc: out \u00e4, (\u00f6), r1", [("p\u00fc:", "out", "\u00e4", "(\u00f6)", "r1")]),
    ],
)  # fmt: skip
def test_statements_of_files(text: str, expected: list[Short]) -> None:
    assert short(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("out 1, r1; wait;in r1,2", [("", "out", "1", "r1"), ("", "wait"), ("", "in", "r1", "2")]),
        (";;wait; ;wait;", [("", "wait"), ("", "wait")]),
        ("wait; a: out PUMP + 1, (r1)", [("", "wait"), ("a:", "out", "PUMP + 1", "(r1)")]),
        ("wait; A = 5;.equ B, 6", [("", "wait"), ("=", "A", "5"), ("=", "B", "6")]),
        ("1: wait\n\tout %0, r1 ; %[port]\n", [("1:", "wait"), ("", "out", "%0", "r1")]),
        # Prose: two words that nothing joins, or no word behind the semicolon.
        ("wait ; now open the valve; wait\nwait", [("", "wait"), ("", "wait")]),
        ("wait ; (out 1)\nwait ; then, wait\nwait ; don't", [("", "wait")] * 3),
        ("wait ; one, two three\n", [("", "wait")]),
        # One word alone may be an instruction, so it is taken for one.
        ("wait ; done", [("", "wait"), ("", "done")]),
        ('.ascii "a;b";wait // c;out 1', [("", ".ascii", '"a;b"'), ("", "wait")]),
        ("wait # d;out 1\nwait", [("", "wait"), ("", "wait")]),
        ("wait /* a; out 1 */;wait", [("", "wait"), ("", "wait")]),
    ],
)  # fmt: skip
def test_statements_of_inline_assembly(text: str, expected: list[Short]) -> None:
    assert short(text, semicolons_separate=True) == expected


def test_places() -> None:
    text = b"x: Out  PUMP /* p */ , (r1)\n.equ VALVE, 7 ;\nlast:"
    assert list(statements(text, 100)) == [
        # 3 bytes to the mnemonic, which has 3; the operands stand at 8 and 23.
        Statement("x", "out", (Piece("PUMP", 108, 112), Piece("(r1)", 123, 127)), 103, 127, 106),
        # The line starts at 28.
        Equate(Piece("VALVE", 133, 138), Piece("7", 140, 141), 128, 141),
        Statement("last", "", (), 144, 148, 144),
    ]


def test_many_operands_stay_together_at_the_end() -> None:
    for operand in ("1", "(1)"):
        (made,) = statements(b".byte " + b",".join([operand.encode()] * 1000))
        assert isinstance(made, Statement)
        assert len(made.operands) == MOST_OPERANDS
        assert made.operands[-1].text == ",".join([operand] * (1000 - MOST_OPERANDS + 1))
        assert made.end == len(".byte ") + 1000 * len(operand) + 999


@pytest.mark.parametrize("semicolons_separate", [False, True])
@pytest.mark.parametrize(
    ("unit", "number"),
    [
        # How many statements or equates a million bytes of this have in a file and inline.
        (b"a:", (500_000, 500_000)),
        (b"a ", (1, 1)),
        (b"a", (1, 1)),
        (b"1 ", (0, 0)),
        (b"a=", (1, 1)),
        (b"a,", (1, 1)),
        (b"a equ ", (1, 1)),
        (b"a/**/", (1, 1)),
        (b";a", (0, 500_000)),
        (b"out 1;", (1, 166_667)),
        (b"; a b c ", (0, 0)),
        (b"/*", (0, 0)),
        (b"# ", (0, 0)),
        (b"'", (0, 0)),
        (b'"', (0, 0)),
        (b"(", (0, 0)),
        (b"\\", (0, 0)),
        (b"\xff", (1, 1)),
        (b"#define \\\n", (0, 0)),
        (b"#define '", (0, 0)),
        (b"\n", (0, 0)),
    ],
)
def test_endless_lines(unit: bytes, number: tuple[int, int], semicolons_separate: bool) -> None:
    """Each is read once: with time that grows as the square, these would take hours."""
    text = (unit * 1_000_000)[:1_000_000]
    made = sum(1 for _ in statements(text, semicolons_separate=semicolons_separate))
    assert made == number[semicolons_separate]


LIKELY = st.lists(
    st.sampled_from(
        ["out", " ", "\t", ",", "r1", "PUMP", "1", ":", "=", "==", ";", "//", "/*", "*/", "#", "@",
         "#define", "\n", "\r\n", "\\", '"', "'", "(", ")", "[", "]", ".equ ", " equ ",
         "\u00fc", "+"]
    ),
    max_size=30,
).map(lambda parts: "".join(parts).encode())  # fmt: skip
TEXTS = LIKELY | st.binary(max_size=60)


@given(TEXTS, st.booleans())
@example(b"a/**/: out \xff/*\xff*/, (", False)
def test_places_give_the_texts(text: bytes, inline: bool) -> None:
    """Places are in order and within the text; a piece is what stands there, but for comments."""
    last = 0
    for made in statements(text, 1000, semicolons_separate=inline):
        start, end = made.start - 1000, made.end - 1000
        assert last <= start <= end <= len(text)
        last = end
        if isinstance(made, Statement):
            word = text[start : made.mnemonic_end - 1000].decode("utf-8", "replace")
            assert word.lower() == made.mnemonic
            assert word or text[start:end].decode("utf-8", "replace") == made.label
        within = start
        for piece in pieces(made):
            begin, stop = piece.start - 1000, piece.end - 1000
            assert within <= begin <= stop <= end
            within = stop
            raw = text[begin:stop]
            assert piece.text == piece.text.strip(" \t\r\n\f\v")
            if not re.search(rb"[\"']", raw):  # in quotes, a comment is none
                raw = re.sub(rb"/\*.*?(\*/|\Z)", lambda m: b" " * len(m[0]), raw, flags=re.DOTALL)
            assert piece.text == raw.decode("utf-8", "replace") or b"/*" in raw


@given(TEXTS, TEXTS)
def test_lines_do_not_depend_on_the_lines_before(first: bytes, second: bytes) -> None:
    """But where a comment or a line of the preprocessor goes on."""
    head = first.replace(b"/*", b"").replace(b"\\", b"") + b"\n"
    if b"/*" in head or second.startswith(b"\xef\xbb\xbf"):
        return
    alone = [*statements(head), *statements(second, len(head))]
    assert list(statements(head + second)) == alone


# Against GNU as, behind the C preprocessor as gcc runs it for a .S file: for its x86 target, where
# a semicolon separates, so that the sample has none outside of quotes.

PRINTING = "".join(
    f'.macro {name} a=, b=, c=, d=\n.ascii "<{name}|\\a|\\b|\\c|\\d>\\n"\n.endm\n'
    for name in ("in", "out", "load", "store", "wait")
)
SAMPLE = """\
/* The pump and
   its valve */
        .equ    PUMP, 0x25      // its port
        .set    VALVE, PUMP + 1
        .equiv  BEDS, 'a'
        .equ    QUOTE, '"'
LAMP = 7        # the lamp
FAN == LAMP     /* never set
                   again */ + 2
#define UNUSED(x) \\
        in      x, 99
# a comment with an apostrophe: it's here
start:  load    r1,5            // five
1:      out     PUMP , r1       # to the pump
        wait
again: twice: in r1 , VALVE /* read */
        store   /* where */ x+1,r1 // out 1,2
third:
        out     ,r2
        wait # out 1
  fourth : wait
        in a,b,c,d
        .equ LAST, 9
"""


def assembled(text: str, folder: Path) -> None:
    (folder / "sample.S").write_text(text)
    command = ["gcc", "-c", "sample.S"]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")


def symbols(folder: Path) -> dict[str, tuple[str, int]]:
    """Return the kind and the value of each symbol of the object file, as nm prints them."""
    command = ["nm", "sample.o"]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=True)
    rows = (line.split() for line in done.stdout.splitlines())
    return {name: (kind, int(value, 16)) for value, kind, name in rows}


def test_the_sample_means_the_same_to_gnu_as(tmp_path: Path) -> None:
    assembled(PRINTING + SAMPLE, tmp_path)
    found = list(statements(SAMPLE.encode()))
    equates = {made.name.text for made in found if isinstance(made, Equate)}
    labels = {made.label for made in found if isinstance(made, Statement)} - {"", "1"}
    by_as = symbols(tmp_path)
    assert equates == {name for name, (kind, _) in by_as.items() if kind == "a"}
    assert labels == {name for name, (kind, _) in by_as.items() if kind == "t"}
    section = ["objcopy", "-O", "binary", "-j", ".text", "sample.o", "text"]
    subprocess.run(section, cwd=tmp_path, check=True)
    lines = (tmp_path / "text").read_text()
    ours = [made for made in found if isinstance(made, Statement) and made.mnemonic]
    assert (
        "".join(
            "<" + "|".join([made.mnemonic, *(o.text for o in made.operands), *[""] * 4][:5]) + ">\n"
            for made in ours
        )
        == lines
    )
    assert len(ours) == 9


def test_values_of_equates_mean_the_same_to_gnu_as(tmp_path: Path) -> None:
    """What is found as the value gives, put in its place, the same object file."""
    found = [made for made in statements(SAMPLE.encode()) if isinstance(made, Equate)]
    rewritten = "".join(f"{made.name.text} = {made.expression.text}\n" for made in found)
    assembled(rewritten, tmp_path)
    again = symbols(tmp_path)
    assembled(PRINTING + SAMPLE, tmp_path)
    absolute = {name: row for name, row in symbols(tmp_path).items() if row[0] == "a"}
    assert again == absolute
    assert absolute["VALVE"] == ("a", 0x26)
    assert absolute["BEDS"] == ("a", 0x61)
    assert absolute["QUOTE"] == ("a", 0x22)
    assert absolute["FAN"] == ("a", 9)
