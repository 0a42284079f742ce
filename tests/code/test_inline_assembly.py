"""Statements in the strings of ``asm``, and references to its operands: by hand and against gcc."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from regwright.code.assembler import Equate, Piece, Statement, statements
from regwright.code.inline_assembly import reference, template_statements


def strings_of(source: bytes) -> list[tuple[bytes, int]]:
    """Return the inside of each string of a source, and where it starts."""
    found = re.finditer(rb'"((?:[^"\\]|\\.)*)"', source, re.DOTALL)
    return [(match[1], match.start(1)) for match in found]


def test_places_in_two_strings() -> None:
    source = rb'asm("out %0, r1\n\t" "in  r2, %[port] ; wait" : : "i"(5));'
    strings = strings_of(source)[:2]
    assert list(template_statements(strings)) == [
        # The first string starts at 5; the second, behind 14 bytes, two quotes and a blank, at 22.
        Statement("", "out", (Piece("%0", 9, 11), Piece("r1", 13, 15)), 5, 15, 8),
        Statement("", "in", (Piece("r2", 26, 28), Piece("%[port]", 30, 37)), 22, 37, 24),
        Statement("", "wait", (), 40, 44, 44),
    ]
    assert source[30:37] == b"%[port]"


def test_a_statement_in_pieces() -> None:
    """Strings are put together before they mean anything (ISO C11 5.1.1.2, phase 6)."""
    source = b'asm("o" "ut PUMP" "_A, " "r1\\n")'
    (made,) = template_statements(strings_of(source))
    assert isinstance(made, Statement)
    assert (made.mnemonic, [operand.text for operand in made.operands]) == (
        "out",
        ["PUMP_A", "r1"],
    )
    assert source[made.start : made.mnemonic_end] == b'o" "ut'
    spans = [source[operand.start : operand.end] for operand in made.operands]
    assert spans == [b'PUMP" "_A', b"r1"]
    assert source[made.start : made.end] == b'o" "ut PUMP" "_A, " "r1'


@pytest.mark.parametrize(
    ("raw", "texts"),
    [
        (rb"load r1, \"a;b\"", ["r1", '"a;b"']),
        (rb"out\t5,\tr1\r\n", ["5", "r1"]),
        (rb"load r1, '\\'', \x41\103", ["r1", "'\\''", "AC"]),
        (rb"out \\port, a\?b\'", ["\\port", "a?b'"]),
        (rb"\012\x0aout 5", ["5"]),
        (b"out 5,\\\n 6\\\r\n7", ["5", "67"]),
        (b"out \\", []),
        (rb"out \x, \q", ["x", "q"]),
        (b"out \xc3\xbc, \xff", ["\u00fc", "\ufffd"]),
    ],
)
def test_escapes(raw: bytes, texts: list[str]) -> None:
    (made,) = template_statements([(raw, 7)])
    assert isinstance(made, Statement)
    assert [operand.text for operand in made.operands] == texts


def test_places_of_escapes() -> None:
    r"""An escape is as long as it is written: ``\x41`` is four bytes, ``A`` one."""
    (made,) = template_statements([(rb"out \x41, r1", 100)])
    assert made == Statement(
        "", "out", (Piece("A", 104, 108), Piece("r1", 110, 112)), 100, 112, 103
    )


def test_equates_and_labels() -> None:
    found = list(template_statements([(rb"1: .equ PUMP, 0x25\nwait\nlast:", 10)]))
    # PUMP stands behind 8 bytes, the line of the last label behind 26, as \n has two.
    assert found == [
        Equate(Piece("PUMP", 18, 22), Piece("0x25", 24, 28), 13, 28),
        Statement("", "wait", (), 30, 34, 34),
        Statement("last", "", (), 36, 40, 36),
    ]


@pytest.mark.parametrize("strings", [[], [(b"", 5)], [(b"", 5), (b"", 8)], [(rb"\n", 3)]])
def test_nothing(strings: list[tuple[bytes, int]]) -> None:
    assert list(template_statements(strings)) == []


@given(st.lists(st.binary(max_size=20) | st.text('out ,;\\"nt1%[]x', max_size=20).map(str.encode)))
def test_places_are_within_the_strings(raws: list[bytes]) -> None:
    strings, offset = [], 10
    for raw in raws:
        strings.append((raw, offset))
        offset += len(raw) + 3
    file = b'"'.ljust(10, b"#") + b'" "'.join(raws) + b'"'
    last = 0
    for made in template_statements(strings):
        assert last <= made.start <= made.end < offset
        last = made.end
        pieces = made.operands if isinstance(made, Statement) else (made.name, made.expression)
        for piece in pieces:
            assert made.start <= piece.start <= piece.end <= made.end
            raw = file[piece.start : piece.end]
            if not re.search(rb'\\|"|/\*', raw):
                assert piece.text == raw.decode("utf-8", "replace")


@given(st.binary(max_size=60).filter(lambda raw: b"\\" not in raw))
def test_without_escapes_it_is_the_text_itself(raw: bytes) -> None:
    plain = list(statements(b" " + raw, 6, semicolons_separate=True))
    assert list(template_statements([(b" " + raw, 6)])) == plain


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("%0", 0),
        ("%12", 12),
        ("%a3", 3),
        ("%[port]", "port"),
        ("%x[_port2]", "_port2"),
        ("%%r1", None),
        ("%", None),
        ("%a", None),
        ("%=", None),
        ("r1", None),
        ("%0+1", None),
        (" %0", None),
        ("%ab0", None),
        ("%[2port]", None),
        ("%[port", None),
        ("%\N{ARABIC-INDIC DIGIT ONE}", None),
        ("%" + "1" * 100_000, None),
        ("", None),
    ],
)
def test_references(text: str, expected: str | int | None) -> None:
    assert reference(text) == expected


# Against gcc, which reads the strings and puts its operands in: its x86 target prints a constant
# operand as $5, and without the $ where the letter c asks for it (gcc manual, "x86 Operand
# Modifiers").

SOURCE = rb"""
void f(void) {
    __asm__ volatile("out %0, %%r1\n\t"
                     "in %%r2, %[valve] ; wait\n"
                     "load \"a;b, \\\"\", '\\'', %%r\62"
                     "\n store PUMP" "+1, \x28%%r1, 4), %c[valve]\n"
                     "again%=: wait; .equ LAMP, %c0 ; .set FAN, (1, 2)\n"
        : : "i"(5), [valve] "i"(7));
}
"""


def test_gcc_reads_the_same_statements(tmp_path: Path) -> None:
    (tmp_path / "inline.c").write_bytes(SOURCE)
    command = ["gcc", "-S", "inline.c", "-o", "inline.s"]
    subprocess.run(command, cwd=tmp_path, check=True)
    text = (tmp_path / "inline.s").read_bytes()
    printed = text[text.index(b"#APP") : text.index(b"#NO_APP")]
    by_gcc = list(statements(printed, semicolons_separate=True))
    strings = strings_of(SOURCE[: SOURCE.index(b": :")])
    ours = list(template_statements(strings))
    assert len(ours) == len(by_gcc) == 8
    values = {0: 5, "valve": 7}

    def printed_as(piece: Piece) -> str:
        operand = reference(piece.text)
        if operand is None:
            return piece.text.replace("%%", "%")
        return ("" if piece.text.startswith("%c") else "$") + str(values[operand])

    for made, seen in zip(ours, by_gcc, strict=True):
        if isinstance(made, Statement):
            assert isinstance(seen, Statement)
            assert made.mnemonic == seen.mnemonic
            assert re.fullmatch(made.label.replace("%=", "[0-9]+"), seen.label)
            assert [printed_as(o) for o in made.operands] == [o.text for o in seen.operands]
        else:
            assert isinstance(seen, Equate)
            assert made.name.text == seen.name.text
            assert printed_as(made.expression) == seen.expression.text
