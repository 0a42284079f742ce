"""``audit --fix --use-header``: definitions made by hand give way to the emitted header.

What the results mean is read from gcc: its preprocessor, and its compiler under strict warnings.
The addresses are those of ``descriptions/sorrel14.xml``: OUT_B at data 0x38, DIR_B at data 0x37.
"""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest
from audit_runs import Sources, audited, repaired, rules_of, texts_of
from described import made

from conftest import DESCRIPTIONS, ROOT, STRICT, Cli
from regwright.audit.audit import audit, repair
from regwright.code.text import C, CodeText
from regwright.macros.registers import chip_macros

HEADER = "sorrel14.h"
HAND_MADE, CLASH = "hand-made-definition", "name-of-the-header"

PINS = b"""\
/* pins.h: the pins of the vent controller */
#ifndef PINS_H
#define PINS_H
#include <stdint.h>
#include <stdbool.h>

#define OUT_B (*(volatile uint8_t *)0x38) /* latch */
#define DIRB  (*(volatile uint8_t *)(0x20 + 0x17))  /* direction */
#define OUT_B_LED_BITPOS 2
#define OUT_B_LED_MASK (1 << OUT_B_LED_BITPOS)
#define LAMP OUT_B
#define FAST 8
static inline bool lit(void) { return OUT_B & OUT_B_LED_MASK; }
#endif
"""
PINS_AFTER = b"""\
/* pins.h: the pins of the vent controller */
#ifndef PINS_H
#define PINS_H
#include <stdint.h>
#include <stdbool.h>
#include "sorrel14.h"

#define DIRB  DIR_B  /* direction */
#define LAMP OUT_B
#define FAST 8
static inline bool lit(void) { return OUT_B & OUT_B_LED_MASK; }
#endif
"""
MAIN = b"""\
#include "pins.h"

int main(void)
{
    DIRB |= OUT_B_LED_MASK;
    LAMP |= OUT_B_LED_MASK;
    return lit() ? FAST : 0;
}
"""


def _fixed(text: bytes, name: str = "pins.h") -> bytes:
    return texts_of(repaired({name: text}, use_header=HEADER).audited)[name]


def _gcc(folder: Path, *arguments: str, stdin: str = "") -> str:
    done = subprocess.run(
        ["gcc", "-std=c11", "-I", str(ROOT / "out"), *arguments],
        cwd=folder,
        input=stdin,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def _places(folder: Path, *names: str) -> dict[str, int]:
    """Return the address that each name dereferences once gcc has expanded it."""
    lines = '#include "pins.h"\n' + "".join(f'"{name}" {name} ;\n' for name in names)
    text = _gcc(folder, "-E", "-P", "-xc", "-", stdin=lines)
    pattern = r'"(\w+)" \(\*\(volatile uint8_t \*\)\s*\(?([^;()]+)\)*+ ;'
    return {
        name: sum(int(number.strip().rstrip("U"), 0) for number in body.split("+"))
        for name, body in re.findall(pattern, text)
    }


def test_definitions_give_way_and_all_else_stays(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "pins.h").write_bytes(PINS)
    (tmp_path / "main.c").write_bytes(MAIN)
    before = _places(tmp_path, "OUT_B", "DIRB", "LAMP")
    chip = DESCRIPTIONS / "sorrel14.xml"
    done = cli("audit", chip, "pins.h", "main.c", "--fix", "--use-header", HEADER)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == "2 sources, no findings; 4 repaired\n"
    assert (tmp_path / "pins.h").read_bytes() == PINS_AFTER
    assert (tmp_path / "main.c").read_bytes() == MAIN
    assert before == _places(tmp_path, "OUT_B", "DIRB", "LAMP")
    assert before == {"OUT_B": 0x38, "DIRB": 0x37, "LAMP": 0x38}
    _gcc(tmp_path, *STRICT, "-O2", "--param=min-pagesize=0", "-c", "main.c", "-o", "main.o")
    again = cli("audit", chip, "pins.h", "main.c", "--fix", "--use-header", HEADER)
    assert again.stdout == "2 sources, no findings; 0 repaired\n"
    assert (tmp_path / "pins.h").read_bytes() == PINS_AFTER


def test_the_io_address_behind_a_pointer_is_put_right_at_once(tmp_path: Path) -> None:
    text = PINS.replace(b"*)0x38", b"*)0x18").replace(b"0x20 + 0x17", b"0x17")
    after = _fixed(text)
    assert after == PINS_AFTER
    (tmp_path / "pins.h").write_bytes(after)
    assert _places(tmp_path, "OUT_B", "DIRB") == {"OUT_B": 0x38, "DIRB": 0x37}


def test_diff_shows_it_and_writes_nothing(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "pins.h").write_bytes(PINS)
    chip = DESCRIPTIONS / "sorrel14.xml"
    done = cli("audit", chip, "pins.h", "--diff", "--use-header", HEADER)
    assert done.returncode == 1
    assert (tmp_path / "pins.h").read_bytes() == PINS
    subprocess.run(["patch", "-s", "-p0"], cwd=tmp_path, input=done.stdout, text=True, check=True)
    assert (tmp_path / "pins.h").read_bytes() == PINS_AFTER


def test_without_the_option_nothing_is_said_of_it() -> None:
    assert rules_of(audited({"pins.h": PINS})) == []


ONE = b"#define OUT_B (*(volatile unsigned char *)0x38)\n"
OTHER = b"#define PORT (*(volatile unsigned char *)0x38)\n"
OTHER_AFTER = b"#define PORT OUT_B\n"
HERE = b'#include "sorrel14.h"\n'

#: A source and what becomes of it: where the include goes.
PLACED = {
    "nothing before it": (ONE, HERE),
    "below a remark": (b"/* lamp */\n\n" + ONE, b"/* lamp */\n\n" + HERE),
    "after a byte-order mark": (b"\xef\xbb\xbf" + ONE, b"\xef\xbb\xbf" + HERE),
    "within the guard": (
        b"#ifndef A_H\n#define A_H\n" + ONE + b"#endif\n",
        b"#ifndef A_H\n#define A_H\n" + HERE + b"#endif\n",
    ),
    "after #pragma once": (b"#pragma once\n" + ONE, b"#pragma once\n" + HERE),
    "after the last include": (
        b"#include <stdint.h>\n#include <stdio.h> /* for\n tests */\nint x;\n" + ONE,
        b"#include <stdint.h>\n#include <stdio.h> /* for\n tests */\n" + HERE + b"int x;\n",
    ),
    "not after an include of a branch": (
        b"#include <stdint.h>\n#ifdef PC\n#include <stdio.h>\n#endif\n" + ONE,
        b"#include <stdint.h>\n" + HERE + b"#ifdef PC\n#include <stdio.h>\n#endif\n",
    ),
    "not after a later include": (
        ONE + b"#include <stdint.h>\n",
        HERE + b"#include <stdint.h>\n",
    ),
    "before the branch": (
        b"int x;\n#if defined(A) && \\\n    defined(B)\n# ifdef C\n" + OTHER + b"# endif\n#endif\n",
        b"int x;\n" + HERE + b"#if defined(A) && \\\n    defined(B)\n# ifdef C\n" + OTHER_AFTER
        + b"# endif\n#endif\n",
    ),
    "before the second branch": (
        b"#ifdef A\nint x;\n#endif\nint y;\n#ifdef B\n#else\n" + OTHER + b"#endif\n",
        b"#ifdef A\nint x;\n#endif\nint y;\n" + HERE + b"#ifdef B\n#else\n" + OTHER_AFTER
        + b"#endif\n",
    ),
    "in lines that end as the others": (
        b"#include <stdint.h>\r\n" + OTHER.replace(b"\n", b"\r\n"),
        b"#include <stdint.h>\r\n" + HERE.replace(b"\n", b"\r\n")
        + OTHER_AFTER.replace(b"\n", b"\r\n"),
    ),
    "not twice": (HERE + ONE + OTHER, HERE + OTHER_AFTER),
    "not twice by another way": (
        b"#include <out/sorrel14.h>\n" + ONE, b"#include <out/sorrel14.h>\n"
    ),
    "beside a header whose name ends alike": (
        b'#include "my_sorrel14.h"\n' + ONE, b'#include "my_sorrel14.h"\n' + HERE
    ),
    "beside an include in a branch": (
        b"#ifdef A\n" + HERE + b"#endif\n" + OTHER, b"#ifdef A\n" + HERE + b"#endif\n" + HERE
        + OTHER_AFTER
    ),
    "once for several": (ONE + OTHER + b"#define OUT_B_LED_MASK 4\n", HERE + OTHER_AFTER),
    "the definition is indented": (b"int x;\n  " + ONE, b"int x;\n" + HERE),
    "the file ends with it": (ONE.rstrip(), HERE),
    "it goes over several lines": (
        b"#define OUT_B \\\n (*(volatile unsigned char *) /* one\n more */ \\\n 0x38)\nint x;\n",
        HERE + b"int x;\n",
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", PLACED.values(), ids=PLACED.keys())
def test_where_the_include_goes(case: tuple[bytes, bytes]) -> None:
    before, after = case
    assert _fixed(before) == after
    assert _fixed(after) == after


def test_each_file_that_loses_definitions_includes_the_header() -> None:
    found = repaired({"a.h": ONE, "b.h": OTHER, "c.c": b"int x;\n"}, use_header=HEADER)
    wanted: Sources = {"a.h": HERE, "b.h": HERE + OTHER_AFTER, "c.c": b"int x;\n"}
    assert texts_of(found.audited) == wanted
    assert found.numbers == {0: 1, 1: 1}


#: What only looks like a definition that the header makes superfluous.
KEPT = {
    "the header's own name already": b"#define PORT OUT_B\n",
    "the same in parentheses": b"#define PORT ((OUT_B))\n",
    "a name for a name": b"#define PORT LATCH\n",
    "another width": b"#define PORT (*(volatile unsigned short *)0x38)\n",
    "a pointer": b"#define PORT ((volatile unsigned char *)0x38)\n",
    "a number": b"#define PORT 0x38\n",
    "no register": b"#define PORT (*(volatile unsigned char *)0x100)\n",
    "a pointer variable": b"volatile unsigned char *const port = (volatile unsigned char *)0x38;\n",
    "another place under another condition": (
        b"#ifdef A\n#define BASE 0x20\n#else\n#define BASE 0x30\n#endif\n"
        b"#define PORT (*(volatile unsigned char *)(BASE + 0x18))\n"
    ),
    "the way the header reaches registers": (
        b"static unsigned char memory[0x160];\n#define SORREL14_REG8(address) (memory[address])\n"
        b'#include "sorrel14.h"\n'
    ),
}


@pytest.mark.parametrize("text", KEPT.values(), ids=KEPT.keys())
def test_what_is_left_alone(text: bytes) -> None:
    found = audited({"pins.h": text}, use_header=HEADER)
    assert not {HAND_MADE, CLASH} & set(rules_of(found))
    assert _fixed(text) == text


def test_of_several_registers_at_one_address_the_name_tells_which() -> None:
    """A wide register and its half are told apart by the width."""
    text = b"""\
#define RESULT_LOW (*(const volatile unsigned char *)0x57)
#define RESULT_BOTH (*(const volatile unsigned short *)0x57)
"""
    assert _fixed(text) == (
        HERE + b"#define RESULT_LOW ADC_RESULT_L\n#define RESULT_BOTH ADC_RESULT\n"
    )
    spaces = [{"name": "data", "size": "0x100"}]
    registers = [
        {"name": "RX", "address": "0x10", "access": "read-only"},
        {"name": "TX", "address": "0x10", "access": "write-only"},
    ]
    resolved = made(spaces=spaces, registers=registers)
    text = b"#define %s (*(volatile unsigned char *)0x10)\n"
    for name, after in ((b"DATA", text % b"DATA"), (b"TX", b'#include "made.h"\n')):
        files = [CodeText("a.h", text % name, C)]
        found = audit(resolved, chip_macros(resolved), files, use_header="made.h")
        assert texts_of(repair(found).audited) == {"a.h": after}


def test_a_name_under_two_conditions_that_is_the_same_in_both() -> None:
    text = (
        b"#ifdef A\n#define BASE 0x20\n#else\n#define BASE 0x00\n#endif\n"
        b"#define OUTB (*(volatile unsigned char *)(BASE + 0x18))\n"
    )
    found = [item for item in audited({"a.h": text}, use_header=HEADER).findings if item.edits]
    assert HAND_MADE in {item.rule for item in found}
    assert _fixed(text).endswith(b"#endif\n" + HERE + b"#define OUTB OUT_B\n")
    # without a name that tells it the address alone is not enough under both
    text = text.replace(b"OUTB", b"PORT")
    assert HAND_MADE not in rules_of(audited({"a.h": text}, use_header=HEADER))


#: A name of the header that is something else, and where.
CLASHES = {
    "a pointer": (b"#define OUT_B ((volatile unsigned char *)0x38)\n", "OUT_B"),
    "another number": (b"#define OUT_B_RESET 5\n", "OUT_B_RESET"),
    "another register": (b"#define OUT_B (*(volatile unsigned char *)0x2B)\n", "OUT_B"),
    "another width": (b"#define OUT_B (*(volatile unsigned short *)0x38)\n", "OUT_B"),
    "no constant": (b"#define OUT_B (port->out)\n", "OUT_B"),
    "a macro with parameters": (b"#define OUT_B(x) (x)\n", "OUT_B"),
    "one branch of two": (
        b"#ifdef A\n#define OUT_B (*(volatile unsigned char *)0x38)\n#else\n"
        b"#define OUT_B (memory[0])\n#endif\n",
        "OUT_B",
    ),
    "an enumerator": (b"enum { LED, OUT_B_LED_MASK = 4 };\n", "OUT_B_LED_MASK"),
    "a constant": (b"static const unsigned char OUT_B_LED_MASK = 4;\n", "OUT_B_LED_MASK"),
    "a variable": (b"unsigned char OUT_B;\n", "OUT_B"),
    "a variable among others": (b"extern volatile unsigned char a, *b, OUT_B, c;\n", "OUT_B"),
    "a pointer variable": (b"volatile unsigned char *OUT_B = 0;\n", "OUT_B"),
    "a member": (b"struct port { volatile unsigned char pins[2], OUT_B; };\n", "OUT_B"),
    "a parameter": (b"void set(unsigned char OUT_B);\n", "OUT_B"),
    "a function": (b"unsigned char OUT_B(void) { return 0; }\n", "OUT_B"),
    "taken away": (b"#  undef OUT_B\n", "OUT_B"),
}


@pytest.mark.parametrize("case", CLASHES.values(), ids=CLASHES.keys())
def test_a_name_that_is_something_else_is_told_and_keeps_the_header_out(
    case: tuple[bytes, str],
) -> None:
    text, name = case
    sources = {"a.c": b"#define DIRB (*(volatile unsigned char *)0x37)\n", "b.c": text}
    found = audited(sources, use_header=HEADER)
    clashes = [item for item in found.findings if item.rule == CLASH]
    assert [found.subject.text(item.at) for item in clashes] == [name]
    assert clashes[0].at.file == 1
    assert clashes[0].message.startswith(f"{name} is ")
    assert HEADER in clashes[0].message
    assert HAND_MADE in rules_of(found)
    assert not any(item.edits for item in found.findings if item.rule == HAND_MADE)
    after = texts_of(repaired(sources, use_header=HEADER).audited)
    assert not any(HERE in item for item in after.values())


def test_where_one_branch_differs_the_condition_is_told() -> None:
    found = audited({"b.c": CLASHES["one branch of two"][0]}, use_header=HEADER)
    (clash,) = [item for item in found.findings if item.rule == CLASH]
    assert clash.message.endswith(" (under #if !defined(A))")


def test_a_clash_that_is_silenced_keeps_nothing_out() -> None:
    quiet = b"/* regwright: silence name-of-the-header it is linked with a test only */\n"
    sources = {"a.c": OTHER, "b.c": quiet + b"unsigned char OUT_B;\n"}
    found = repaired(sources, use_header=HEADER)
    assert texts_of(found.audited) == {"a.c": HERE + OTHER_AFTER, "b.c": sources["b.c"]}
    assert rules_of(found.audited) == []


#: Uses of the header's names that declare nothing.
USES = b"""\
#include "sorrel14.h"
/* unsigned char OUT_B; */
const char *text = "unsigned char OUT_B;";
int f(int a, int b) {
    if (a) OUT_B = 1; else OUT_B = 2;
    do OUT_B |= OUT_B_LED_MASK; while (a * OUT_B);
    a = a * OUT_B + sizeof OUT_B, b = (unsigned char)OUT_B;
    for (; a * OUT_B < 4; a++) b = b * DIR_B, IN_B;
    return a * OUT_B;
}
#define LIT (OUT_B & OUT_B_LED_MASK)
"""


def test_uses_are_no_declarations() -> None:
    assert CLASH not in rules_of(audited({"a.c": USES}, use_header=HEADER))


def test_the_emitted_header_itself_is_left_alone() -> None:
    text = (ROOT / "out" / HEADER).read_bytes()
    found = audited({f"out/{HEADER}": text, "a.c": HERE}, use_header=HEADER)
    assert rules_of(found) == []


def test_an_assembler_file_gives_up_its_numbers(tmp_path: Path) -> None:
    text = b"""\
; the lamp
#define OUT_B_IO_ADDR 0x18
#define OUT_B_LED_BITPOS 2
#define OUT_B 0x18
        bset OUT_B_IO_ADDR, OUT_B_LED_BITPOS
"""
    after = _fixed(text, "lamp.S")
    assert after == (
        b'; the lamp\n#include "sorrel14.h"\n#define OUT_B 0x18\n'
        b"        bset OUT_B_IO_ADDR, OUT_B_LED_BITPOS\n"
    )
    (tmp_path / "lamp.S").write_bytes(after)
    lines = _gcc(tmp_path, "-E", "-P", "lamp.S").splitlines()
    assert lines[-1].split() == ["bset", "0x18U,", "2U"]


def test_an_equate_of_the_headers_name_is_a_clash() -> None:
    """GNU as 2.40, .equ: the name would be replaced by its number before as sees it."""
    text = b".equ OUT_B_IO_ADDR, 0x18\n#define OUT_B_LED_BITPOS 2\n"
    found = audited({"lamp.S": text}, use_header=HEADER)
    assert rules_of(found) == [CLASH, HAND_MADE]
    assert _fixed(text, "lamp.S") == text


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (["--use-header", HEADER], "--use-header changes files: give --fix, or --diff"),
        (["--fix", "--use-header", '"a.h"'], "--use-header takes the name of a header"),
        (["--fix", "--use-header", "<a.h>"], "--use-header takes the name of a header"),
        (["--fix", "--use-header", "a\nb"], "--use-header takes the name of a header"),
    ],
)
def test_what_the_option_takes(cli: Cli, tmp_path: Path, options: list[str], message: str) -> None:
    (tmp_path / "pins.h").write_bytes(PINS)
    done = cli("audit", DESCRIPTIONS / "sorrel14.xml", "pins.h", *options)
    assert done.returncode == 2
    assert message in done.stderr
    assert (tmp_path / "pins.h").read_bytes() == PINS
