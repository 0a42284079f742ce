"""Code that uses the emitted header as it is meant has not one finding.

The programs use every macro of the header of every shipped description; what is proper is worked
out from the description, not by the rules. The compiler says whether they are C.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from header_programs import assembler_program, c_program

from conftest import DESCRIPTIONS, ROOT, Compile
from regwright.audit.audit import Audited, audit
from regwright.code.text import ASSEMBLER, C, CodeText
from regwright.macros.registers import macro_names
from regwright.pipeline import Checked, check
from regwright.read.source import Source, spelling_of

SHIPPED = sorted(path for path in DESCRIPTIONS.iterdir() if path.is_file())


def _checked(path: Path) -> Checked:
    data = path.read_bytes()
    return check(Source(path.name, data, spelling_of(path.name, data)))


def _audited(path: Path, *texts: CodeText) -> Audited:
    subject = _checked(path).subject
    assert subject is not None
    return audit(subject.resolved, subject.macros, texts, pedantic=True)


def _found(audited: Audited) -> list[str]:
    texts = audited.subject.files
    return [
        f"{item.rule}: {item.message} | {audited.subject.text(item.at)} "
        f"| line {texts[item.at.file].line(item.at.start)}"
        for item in audited.findings
    ]


@pytest.fixture(params=SHIPPED, ids=lambda path: path.stem)
def shipped(request: pytest.FixtureRequest) -> Path:
    path: Path = request.param
    return path


def _program(path: Path) -> str:
    subject = _checked(path).subject
    assert subject is not None
    return c_program(path.stem, subject.resolved, subject.macros)


def test_a_program_with_every_macro_has_no_finding(shipped: Path) -> None:
    program = CodeText("user.c", _program(shipped).encode(), C)
    assert _found(_audited(shipped, program)) == []


def test_it_is_c(shipped: Path, compile_c: Compile) -> None:
    flags = ("-fsyntax-only", "-Wall", "-Wextra", "-Werror", f"-I{ROOT / 'out'}")
    process = compile_c(_program(shipped), *flags, strict=False)
    assert (process.returncode, process.stderr) == (0, "")


def test_it_uses_every_macro(shipped: Path) -> None:
    subject = _checked(shipped).subject
    assert subject is not None
    used = set(re.findall(r"\w+", _program(shipped)))
    frame = subject.macros.frame
    guards = {frame.guard, *(name for name, _ in frame.marks)}
    assert set(macro_names(subject.macros)) - used == guards


def test_the_program_touches_the_registers(shipped: Path) -> None:
    # so that "no finding" is not for want of looking
    program = CodeText("user.c", _program(shipped).encode(), C)
    subject = _audited(shipped, program).subject
    reached = {item.name for touch in subject.touches for item in touch.registers}
    reached |= {
        item.name
        for use in subject.uses
        if use.address is not None
        for item in subject.registers_at(use.described.space, use.address)
    }
    ordered = {item.whole for item in subject.resolved.registers if item.whole}
    assert {item.name for item in subject.resolved.registers} - reached - ordered == set()


@pytest.mark.parametrize("name", ["sorrel14.xml", "sorrel40.json"])
def test_assembler_by_the_numbers_has_no_finding(name: str) -> None:
    path = DESCRIPTIONS / name
    subject = _checked(path).subject
    assert subject is not None
    text = assembler_program(path.stem, subject.macros)
    audited = _audited(path, CodeText("user.S", text.encode(), ASSEMBLER))
    assert _found(audited) == []
    assert len(audited.subject.uses) == len(re.findall(r"^\t(?!ret)", text, re.MULTILINE)) > 60


def test_the_emitted_files_themselves_have_no_finding(shipped: Path) -> None:
    names = (f"{shipped.stem}.h", f"{shipped.stem}_check.c")
    texts = [CodeText(name, (ROOT / "out" / name).read_bytes(), C) for name in names]
    assert _found(_audited(shipped, *texts)) == []


def test_the_header_among_the_sources_changes_nothing(shipped: Path) -> None:
    header = f"{shipped.stem}.h"
    texts = [
        CodeText("user.c", _program(shipped).encode(), C),
        CodeText(header, (ROOT / "out" / header).read_bytes(), C),
    ]
    assert _found(_audited(shipped, *texts)) == []


def test_the_example_of_the_readme_has_no_finding() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    programs = re.findall(r"```c\n(.*?)```", readme, re.DOTALL)
    (program,) = (text for text in programs if '#include "out/sorrel14.h"' in text)
    path = DESCRIPTIONS / "sorrel14.xml"
    assert _found(_audited(path, CodeText("lamp.c", program.encode(), C))) == []
    # the same on the chip itself, where the accesses are not to a row in memory
    chips_own = re.sub(r"#define SORREL14_REG8.*", "", program)
    audited = _audited(path, CodeText("lamp.c", chips_own.encode(), C))
    assert _found(audited) == []
    reached = [touch.registers[0].name for touch in audited.subject.touches]
    assert reached[:2] == ["OUT_B", "ADC_MUX"]
