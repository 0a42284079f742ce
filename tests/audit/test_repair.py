"""``audit --fix`` and ``--diff``: what is certain is repaired, and no other byte changes.

The addresses are those of ``descriptions/sorrel14.xml``: I/O 0x18 is data 0x38 (OUT_B), I/O 0x0E is
data 0x2E (TMR_FLAGS). Source of what a patch is: GNU patch and git, which apply it.
"""

from __future__ import annotations

import os
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import pytest
from audit_runs import audited, chip, repaired, rules_of, texts_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from conftest import DESCRIPTIONS, PACKAGES, Cli
from regwright.audit.audit import Audited, repair
from regwright.audit.catalogue import CodeFinding
from regwright.audit.edits import applied
from regwright.audit.problem import CodeEdit
from regwright.code.seen import Where
from regwright.code.text import C, CodeText
from regwright.model.finding import ERROR, WARNING
from regwright.rules.settings import Settings

SORREL14 = DESCRIPTIONS / "sorrel14.xml"
OFFSET = "io-address-behind-pointer"

#: What stands around the slips: everything that a repair could spoil.
AROUND = {
    "plain": b"/* a remark */\nint x;\n",
    "line ends of DOS": b"/* a remark */\r\nint x;\r\n",
    "both line ends": b"/* one */\r\n/* two */\nint x;\r\n\n\r\n",
    "a lone carriage return": b"/* one\rtwo */\nint x;\n",
    "UTF-8": "/* Lüftung, \U0001d11e\u2028 */\nint x;\n".encode(),
    "Latin-1": b"/* L\xfcftung */ // \xe4\nint x;\n",
    "bytes that are no text": b"/* \x80\xff\xfe\xc3( \xed\xa0\x80 \x1b\x7f\x01 */\nint x;\n",
    "tabs, blanks, form feeds": b"\t \x0c\nint x ;  \t\n   \n",
    "an unfinished remark before a number": b"int x; // 0x18 \\\n 0x18\n",
    "a literal": b'const char *t = "\xe4 0x18 \\" (*(volatile char *)0x18)";\n',
    "no code": b"#error 0x18\n@@ ` $ 0x18\n",
}
WRONG = b"#define OUT_B (*(volatile unsigned char *)0x18)%s\nvoid f(void) { OUT_B |= 4; }"
RIGHT = WRONG.replace(b"0x18", b"0x38")


def _raw(folder: Path, *arguments: str | Path) -> subprocess.CompletedProcess[bytes]:
    """Run the command line and return bytes: text would lose how lines end."""
    return subprocess.run(
        [sys.executable, "-m", "regwright", *map(str, arguments)],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": PACKAGES},
        capture_output=True,
        check=False,
    )


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with a source for each thing around a slip, and one with a mark."""
    (tmp_path / "src").mkdir()
    for name, data in _spelled(WRONG).items():
        (tmp_path / name).write_bytes(data)
    return tmp_path


def _spelled(slip: bytes) -> dict[str, bytes]:
    """Return the sources; ``slip`` stands in each, with remarks of all kinds on its line."""
    found = {}
    for number, data in enumerate(AROUND.values()):
        line = slip % (b" /* L\xfcfter \xff */" if number % 2 else b"")
        if b"\r\n" in data:
            line = line.replace(b"\n", b"\r\n")
        end = b"" if number % 3 else b"\n"  # some have no line end at their end
        found[f"src/f{number:02}.c"] = data + line + b"\n" + data + end
        found[f"src/g{number:02}.c"] = data + line
    found["src/mark.c"] = b"\xef\xbb\xbf/* lamp */\n" + slip % b""
    found["src/mark first.c"] = b"\xef\xbb\xbf" + slip % b""
    return found


def test_every_byte_outside_the_edits_is_kept(folder: Path) -> None:
    for name, data in _spelled(WRONG).items():
        after = texts_of(repaired({name: data}).audited)[name]
        assert after == _spelled(RIGHT)[name], name
    done = _raw(folder, "audit", SORREL14, "src", "--fix")
    count = len(_spelled(WRONG))
    end = f"{count} sources, no findings; {count} repaired\n"
    assert (done.returncode, done.stdout, done.stderr) == (0, end.encode(), b"")
    for name, data in _spelled(RIGHT).items():
        assert (folder / name).read_bytes() == data, name


def test_a_second_time_nothing_changes(folder: Path) -> None:
    _raw(folder, "audit", SORREL14, "src", "--fix")
    before = {path: (path.read_bytes(), path.stat().st_mtime_ns) for path in folder.rglob("*.c")}
    assert len(before) == len(_spelled(WRONG))
    done = _raw(folder, "audit", SORREL14, "src", "--fix")
    assert done.returncode == 0
    assert done.stdout.endswith(b"sources, no findings; 0 repaired\n")
    assert before == {
        path: (path.read_bytes(), path.stat().st_mtime_ns) for path in folder.rglob("*.c")
    }


@pytest.mark.parametrize("command", [["patch", "-s", "-p0", "--binary"], ["git", "apply", "-p0"]])
def test_diff_is_a_patch_and_writes_nothing(folder: Path, command: list[str]) -> None:
    before, after = _spelled(WRONG), _spelled(RIGHT)
    done = _raw(folder, "audit", SORREL14, "src", "--diff")
    assert done.returncode == 1
    assert f"; {len(before)} can be repaired\n".encode() in done.stderr
    assert all((folder / name).read_bytes() == data for name, data in before.items())
    more = ["--whitespace=nowarn"] if command[0] == "git" else []
    subprocess.run(
        [*command, *more], cwd=folder, input=done.stdout, check=True, capture_output=True
    )
    assert {name: (folder / name).read_bytes() for name in after} == after


def test_diff_of_what_is_clean_is_empty(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "a.c").write_bytes(RIGHT % b"")
    done = cli("audit", SORREL14, "a.c", "--diff")
    assert (done.returncode, done.stdout) == (0, "")
    assert done.stderr == "1 source, no findings; 0 can be repaired\n"


def test_a_patch_of_standard_input(cli: Cli) -> None:
    done = cli("audit", SORREL14, "-", "--diff", stdin=(WRONG % b"").decode())
    assert done.returncode == 1
    assert done.stdout.startswith("--- <stdin>\n+++ <stdin>\n@@ -1,2 +1,2 @@\n-#define OUT_B ")
    assert "\n+#define OUT_B (*(volatile unsigned char *)0x38)\n" in done.stdout


def test_a_repair_in_another_file_than_its_finding(cli: Cli, tmp_path: Path) -> None:
    """The number is in one file, the pointer in another; both may have findings."""
    (tmp_path / "a.c").write_text("#define OUT_B (*(volatile unsigned char *)OUT_B_PLACE)\n")
    (tmp_path / "b.h").write_text("#define OUT_B_PLACE 0x18\n")
    done = cli("audit", SORREL14, "a.c", "b.h", "--fix")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == "2 sources, no findings; 1 repaired\n"
    assert (tmp_path / "b.h").read_text() == "#define OUT_B_PLACE 0x38\n"


def test_what_remains_is_reported_where_it_stands_now(cli: Cli, tmp_path: Path) -> None:
    text = b"#define OUT_B (*(volatile unsigned char *)0x18)\n#define IN_B *(unsigned char *)0x39\n"
    (tmp_path / "a.h").write_bytes(text + b"void f(void) { IN_B = 1; }\n")
    done = cli("audit", SORREL14, "a.h", "--fix")
    assert done.returncode == 1
    *lines, end = done.stdout.splitlines()
    assert end.startswith("1 source, 1 error; ")
    assert lines[0].startswith("a.h:3:16: error: IN_B ")
    assert b"#define IN_B (*(volatile unsigned char *)0x39)\n" in (tmp_path / "a.h").read_bytes()


def test_known_findings_are_not_repaired(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "a.c").write_bytes(WRONG % b"")
    cli("audit", SORREL14, "a.c", "--write-known", "known.json")
    done = cli("audit", SORREL14, "a.c", "--known", "known.json", "--fix")
    assert (done.returncode, done.stdout) == (0, "1 source, no findings; 0 repaired\n")
    assert (tmp_path / "a.c").read_bytes() == WRONG % b""


def test_a_link_is_repaired_where_it_leads_to(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "real.c").write_bytes(WRONG % b"")
    (tmp_path / "real.c").chmod(0o640)
    (tmp_path / "link.c").symlink_to("real.c")
    assert cli("audit", SORREL14, "link.c", "--fix").returncode == 0
    assert (tmp_path / "link.c").is_symlink()
    assert (tmp_path / "real.c").read_bytes() == RIGHT % b""
    assert (tmp_path / "real.c").stat().st_mode & 0o777 == 0o640


def test_a_file_given_by_two_names_is_repaired_once(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "real.c").write_bytes(WRONG % b"")
    (tmp_path / "link.c").symlink_to("real.c")
    done = cli("audit", SORREL14, "link.c", "real.c", "--fix")
    assert (done.returncode, done.stderr) == (0, "")
    assert (tmp_path / "real.c").read_bytes() == RIGHT % b""


#: Runs the command line after changing how the audit ends: another process writes the file then.
MEANWHILE = """
import sys
from regwright.cli import auditing, main
made = auditing.outcomes
def late(*arguments):
    found = made(*arguments)
    open("a.c", "ab").write(b"\\n")
    return found
auditing.outcomes = late
sys.argv = ["regwright", *sys.argv[1:]]
main()
"""


def test_a_file_that_was_changed_meanwhile_is_left_alone(tmp_path: Path) -> None:
    for name in ("a.c", "b.c"):
        (tmp_path / name).write_bytes(WRONG % b"")
    done = subprocess.run(
        [sys.executable, "-c", MEANWHILE, "audit", str(SORREL14), "b.c", "a.c", "--fix"],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": PACKAGES},
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "regwright: a.c: was changed meanwhile; nothing was repaired\n"
    assert (tmp_path / "a.c").read_bytes() == WRONG % b"" + b"\n"
    assert (tmp_path / "b.c").read_bytes() == WRONG % b""


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_cannot_be_written(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "src").mkdir()
    (tmp_path / "src" / "a.c").write_bytes(WRONG % b"")
    (tmp_path / "src").chmod(0o500)
    done = cli("audit", SORREL14, "src", "--fix")
    (tmp_path / "src").chmod(0o700)
    assert done.returncode == 2
    assert "src/a.c: cannot be written: Permission denied; nothing was changed" in done.stderr


def test_where_one_file_cannot_be_written_none_is(tmp_path: Path) -> None:
    """The folder is gone when the repairs are written; that fails for everybody, root too."""
    (tmp_path / "src").mkdir()
    for name in ("b.c", "src/a.c"):
        (tmp_path / name).write_bytes(WRONG % b"")
    ends = 'open("a.c", "ab").write(b"\\n")'
    program = MEANWHILE.replace(ends, "__import__('shutil').rmtree('src')")
    assert program != MEANWHILE
    done = subprocess.run(
        [sys.executable, "-c", program, "audit", str(SORREL14), "b.c", "src/a.c", "--fix"],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": PACKAGES},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert done.stderr.startswith("regwright: src/a.c: cannot be repaired: ")
    assert (tmp_path / "b.c").read_bytes() == WRONG % b""


def test_one_unreadable_source_and_the_others_are_repaired(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "a.c").write_bytes(WRONG % b"")
    done = cli("audit", SORREL14, "a.c", "gone.c", "--fix")
    assert done.returncode == 2
    assert "gone.c" in done.stderr
    assert (tmp_path / "a.c").read_bytes() == RIGHT % b""


# How edits are put together.

TEXT = b"0123456789"


def _finding(*edits: tuple[int, int, str], rule: str = "x", level: str = WARNING) -> CodeFinding:
    made = tuple(CodeEdit(Where(0, start, end), text) for start, end, text in edits)
    return CodeFinding(rule, level, "", Where(0, 0, 1), made)


def _applied(*findings: CodeFinding) -> tuple[bytes, list[CodeFinding]]:
    files, done = applied([CodeText("a.c", TEXT, C)], findings)
    return files[0].data, done


def test_of_repairs_that_overlap_the_first_wins() -> None:
    one, two = _finding((2, 5, "a")), _finding((4, 6, "b"))
    assert _applied(one, two) == (b"01a56789", [one])
    assert _applied(two, one) == (b"0123b6789", [two])
    around = _finding((2, 2, "("), (6, 6, ")"))
    assert _applied(around, one) == (b"01(a5)6789", [around, one])
    assert _applied(one, around) == (b"01(a5)6789", [one, around])
    across = _finding((4, 4, "("), (9, 9, ")"))
    assert _applied(one, across) == (b"01a56789", [one])


def test_the_same_edit_twice_is_made_once_and_settles_both() -> None:
    one, same = _finding((2, 5, "a")), _finding((0, 0, "h"), (2, 5, "a"))
    assert _applied(one, same) == (b"h01a56789", [one, same])
    other = _finding((2, 2, "x"))
    assert _applied(_finding((2, 2, "y")), other)[0] == b"01y23456789"


def test_a_finding_has_all_of_its_edits_made_or_none() -> None:
    one, two = _finding((2, 5, "a")), _finding((3, 4, "b"), (8, 9, "c"))
    assert _applied(one, two) == (b"01a56789", [one])


@settings(deadline=None, max_examples=200, derandomize=True)
@given(
    st.lists(
        st.lists(
            st.tuples(st.integers(0, 10), st.integers(0, 3), st.sampled_from(["", "x", "é"])),
            min_size=1,
            max_size=3,
        ),
        max_size=8,
    )
)
def test_what_is_done_is_what_replacing_from_the_end_makes(
    wanted: list[list[tuple[int, int, str]]],
) -> None:
    findings = [
        _finding(*((at, min(at + size, 10), text) for at, size, text in edits)) for edits in wanted
    ]
    data, done = _applied(*findings)
    edits = sorted({edit for item in done for edit in item.edits})
    expected = TEXT
    for at, text in reversed(edits):
        expected = expected[: at.start] + text.encode() + expected[at.end :]
    assert data == expected
    for one, other in pairwise(edits):
        assert one.at.end <= other.at.start
        assert one.at != other.at


# Repairs that would spoil something.


def _with(found: Audited, *more: CodeFinding) -> Audited:
    return found._replace(findings=[*more, *found.findings])


def _spoiling(data: bytes) -> CodeFinding:
    """Return a warning whose repair would put an I/O address behind the pointer of IN_B."""
    start = data.index(b"0x39")
    edit = CodeEdit(Where(0, start, start + 4), "0x19")
    return CodeFinding("spoiling", WARNING, "", edit.at, (edit,))


BESIDE = WRONG % b"" + b"\n#define IN_B (*(const volatile unsigned char *)0x39)\n"


def test_a_repair_that_would_bring_an_error_is_not_made() -> None:
    found = audited({"a.c": BESIDE})
    assert rules_of(found) == [OFFSET]
    after = repair(_with(found, _spoiling(BESIDE)))
    assert texts_of(after.audited) == {"a.c": BESIDE.replace(b"0x18", b"0x38")}
    assert after.numbers == {0: 1}
    alone = repair(_with(audited({"a.c": BESIDE.replace(b"0x18", b"0x38")}), _spoiling(BESIDE)))
    assert texts_of(alone.audited) == {"a.c": BESIDE.replace(b"0x18", b"0x38")}
    assert alone.numbers == {}


def test_many_good_repairs_do_not_hide_a_bad_one() -> None:
    names = ("STACK", "TMR0_COUNT", "TMR0_COMPARE", "NVM_ADDRESS", "NVM_DATA", "NVM_CTRL")
    places = (0x03, 0x0B, 0x0C, 0x2D, 0x2E, 0x2F)  # I/O addresses by the description
    line = "#define {} (*(unsigned char *){:#04x})\n"
    right = "#define {} (*(volatile unsigned char *){:#04x})\n"
    pairs = [*zip(names, places, strict=True)]
    bad = "".join(line.format(name, place + 0x20) for name, place in pairs).encode()
    good = "".join(right.format(name, place + 0x20) for name, place in pairs).encode()
    rest = b"#define IN_B (*(const volatile unsigned char *)0x39)\n"
    found = audited({"a.c": bad + rest})
    assert rules_of(found) == ["not-volatile"] * 6
    spoiling = [_spoiling(bad + rest)]
    for at in (0, 3, 6):
        mixed = found._replace(findings=[*found.findings[:at], *spoiling, *found.findings[at:]])
        after = repair(mixed)
        assert texts_of(after.audited) == {"a.c": good + rest}
        assert after.numbers == {0: 6}


def test_looking_for_the_bad_ones_ends() -> None:
    """Every repair is bad here: each round tries so often and no more."""
    data = BESIDE.replace(b"0x18", b"0x38") + b"/*" + b"x" * 400 + b"*/"
    found = audited({"a.c": data})
    first = data.index(b"x" * 400)
    edit = _spoiling(data).edits[0]
    findings = []
    for number in range(400):
        own = CodeEdit(Where(0, first + number, first + number + 1), "y")
        findings.append(CodeFinding("spoiling", WARNING, "", edit.at, (own, edit)))
    after = repair(_with(found, *findings))
    assert texts_of(after.audited) == {"a.c": data}
    assert after.numbers == {}


def test_settings_are_kept_through_the_rounds() -> None:
    text = b"#define OUT_B *(unsigned char *)0x38\n"
    levels = Settings(levels={"not-volatile": "off"})
    found = audited({"a.c": text}, settings=levels)
    assert rules_of(found) == ["macro-without-parentheses"]
    after = repair(found, levels)
    assert texts_of(after.audited) == {"a.c": b"#define OUT_B (*(unsigned char *)0x38)\n"}
    assert rules_of(after.audited) == []


# Laws.

_REGISTERS = {
    placed.name: (placed.address("io"), placed.address("data"))
    for placed in chip().resolved.registers
    if placed.facts.width == 8
}
_PLACES = st.one_of(
    st.integers(0x00, 0x7F),
    st.sampled_from([0x100, 0x15F, 0x200]),
    st.sampled_from(sorted(a.value for pair in _REGISTERS.values() for a in pair if a)),
)
_NAMES = st.one_of(
    st.sampled_from(sorted(_REGISTERS)),
    st.sampled_from(["DIRB", "outA", "X", "LATCH", "port_b_dir", "OUT_B_LED_MASK", "LED"]),
)
_FORMS = st.sampled_from(
    [
        "#define {0} (*(volatile unsigned char *){1})",
        "#define {0} *(volatile unsigned char *){1}",
        "#define {0} (*(unsigned char *){1})",
        "#define {0} *(unsigned char*)({1})",
        "#define {0} ((volatile unsigned char *)({1} + 0x20)) /* \xfc */",
        "#define {0} {1}",
        "#define {0} 1<<{1}",
        "#ifdef A\n#define {0} (*(volatile unsigned char *){1})\n#endif",
        "volatile unsigned char *const p{0} = (volatile unsigned char *){1};",
        "static const unsigned char {0} = {1};",
        "enum {{ e{0} = {1} }};",
        "void f{1}(void) {{ *(volatile unsigned char *){1} |= {0}; }}",
        "void g{1}(void) {{ {0} = 1 << {1}; {0} |= OUT_B_LED_MASK; }}",
        'void h(void) {{ asm("out {1}, r1"); asm("bset {1}, 2" :: "i"({0})); }}',
    ]
)
_SPELLINGS = st.sampled_from(["{:#x}", "{:#04X}", "{}", "{:#o}u", "{:#b}"])


@st.composite
def programs(draw: st.DrawFn) -> bytes:
    """Draw a program of lines that are right, wrong or nonsense."""
    lines = []
    for _ in range(draw(st.integers(1, 7))):
        spelled = draw(_SPELLINGS).format(draw(_PLACES)).replace("0o", "0").replace("0X", "0x")
        lines.append(draw(_FORMS).format(draw(_NAMES), spelled))
    end = draw(st.sampled_from(["\n", "\r\n"]))
    return end.join([*lines, draw(st.sampled_from(["", "/* \xff */"]))]).encode("latin-1")


STEADY = settings(
    deadline=None, max_examples=60, suppress_health_check=list(HealthCheck), derandomize=True
)


@STEADY
@given(programs(), st.sampled_from(["", "sorrel14.h"]))
def test_what_is_repaired_has_nothing_left_to_repair(program: bytes, header: str) -> None:
    found = audited({"a.c": program}, use_header=header)
    after = repair(found)
    again = audited(texts_of(after.audited), use_header=header)
    assert again.findings == after.audited.findings
    assert again.errors <= found.errors
    assert repair(again).numbers == {}
    # a repair that is left would bring an error, or stands in the way of one that would
    for item in again.findings:
        if item.edits:
            files, _ = applied(again.subject.files, [item])
            one = audited({"a.c": files[0].data}, use_header=header)
            assert one.errors > again.errors, item
    if not any(item.edits for item in found.findings):
        assert texts_of(after.audited) == {"a.c": program}


def _like(item: CodeFinding, findings: list[CodeFinding]) -> int:
    return sum((one.rule, one.message) == (item.rule, item.message) for one in findings)


@STEADY
@given(programs())
def test_a_repair_settles_its_finding(program: bytes) -> None:
    found = audited({"a.c": program})
    for item in found.findings:
        if not item.edits:
            continue
        files, done = applied(found.subject.files, [item])
        assert done == [item]
        left = audited({"a.c": files[0].data}).findings
        assert _like(item, left) < _like(item, found.findings)


@STEADY
@given(programs())
def test_edits_lie_in_the_text_and_apart(program: bytes) -> None:
    for item in audited({"a.c": program}).findings:
        ends = sorted((edit.at.start, edit.at.end) for edit in item.edits)
        assert all(0 <= start <= end <= len(program) for start, end in ends)
        assert all(one[1] <= other[0] for one, other in pairwise(ends))
        assert item.level in (ERROR, WARNING, "note")
