"""Comments that silence a rule: on their line and the next, with a reason."""

from __future__ import annotations

import pytest
from audit_sources import subject_of

from regwright.audit.all import AUDIT_RULES
from regwright.audit.audit import audit
from regwright.audit.rules.comments import audible
from regwright.code.text import C, CodeText
from regwright.rules.settings import Settings

RULE = "comment-silences-nothing"
RESERVED = "reserved-bits-written"


def found(source: str, **levels: str) -> list[tuple[str, int]]:
    """Return the rules that are heard, and on which line."""
    subject = subject_of("")
    text = CodeText("f.c", source.encode(), C)
    settings = Settings(levels=levels) if levels else Settings()
    audited = audit(subject.resolved, subject.macros, [text], settings)
    return [(item.rule, text.line(item.at.start)) for item in audited.findings]


def function(*lines: str) -> str:
    return "\n".join(["void f(void)", "{", *lines, "}", ""])


WRONG = "DIR_B = 0xFF;"
QUIET = f"regwright: silence {RESERVED}"


def test_the_rule_runs_last() -> None:
    assert AUDIT_RULES[-1].name == RULE


@pytest.mark.parametrize(
    "lines",
    [
        [f"{WRONG} /* {QUIET} next revision */"],
        [f"{WRONG} // {QUIET} next revision"],
        [f"/* {QUIET} next revision */", WRONG],
        [f"// {QUIET}: next revision", WRONG],
        [f"/* {QUIET}", "   next revision */", WRONG],
        ["/*", f"   {QUIET} next revision", "   and more of it */", WRONG],
        [f"/* about this:{QUIET} next revision */ {WRONG}"],
    ],
)
def test_a_comment_silences_its_line_and_the_next(lines: list[str]) -> None:
    assert found(function(*lines)) == []


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        ([f"/* {QUIET} far away */", "", WRONG], [(RULE, 3), (RESERVED, 5)]),
        ([WRONG, f"/* {QUIET} too late */"], [(RESERVED, 3), (RULE, 4)]),
        ([f"/* {QUIET} */", WRONG], [(RULE, 3), (RESERVED, 4)]),
        ([f"/* {QUIET} was wrong once */", "DIR_B = 0x3F;"], [(RULE, 3)]),
        (["/* regwright: silence not-volatile other */", WRONG], [(RULE, 3), (RESERVED, 4)]),
        (["/* regwright: silence reserved-bits why */", WRONG], [(RULE, 3), (RESERVED, 4)]),
        ([f"/* {QUIET} both */", WRONG, WRONG], [(RESERVED, 5)]),
        ([f"/* regwright: silence {RULE} me */"], [(RULE, 3)]),
        ([f"/* regwright silence {RESERVED} no colon */", WRONG], [(RESERVED, 4)]),
        ([f'const char *text = "{QUIET} no comment";', WRONG], [(RESERVED, 4)]),
    ],
)
def test_what_a_comment_does_not_silence(lines: list[str], expected: list[tuple[str, int]]) -> None:
    assert found(function(*lines)) == expected


@pytest.mark.parametrize(
    ("comment", "message"),
    [
        (
            "/* regwright: silence reserved-bits-writen why */",
            "there is no rule 'reserved-bits-writen' about code; did you mean "
            "reserved-bits-written?",
        ),
        (
            "/* regwright: silence quiet-please why */",
            "there is no rule 'quiet-please' about code; regwright rules lists them",
        ),
        (
            "/* regwright: silence registers-overlap why */",  # a rule about descriptions
            "there is no rule 'registers-overlap' about code; ",
        ),
        (
            f"/* {QUIET} */",
            f"this silences {RESERVED} only with a reason behind it: say why",
        ),
        (
            f"/* {QUIET} why */",
            f"{RESERVED} finds nothing on this line and the next: remove the comment",
        ),
    ],
)
def test_what_is_said_of_it(comment: str, message: str) -> None:
    subject = subject_of("")
    text = CodeText("f.c", comment.encode(), C)
    (item,) = audit(subject.resolved, subject.macros, [text]).findings
    assert item.rule == RULE
    assert item.message.startswith(message)
    assert text.slice(item.at.start, item.at.end) == comment.split()[3]


def test_a_rule_that_is_switched_off_is_not_missed() -> None:
    source = function(f"/* {QUIET} why */", WRONG)
    assert found(source, **{RESERVED: "off"}) == []
    assert found(source, **{RESERVED: "note"}) == []
    assert found(function(f"/* {QUIET} why */"), **{RULE: "off"}) == []


def test_files_are_told_apart() -> None:
    subject = subject_of("")
    texts = [
        CodeText("a.c", function(f"/* {QUIET} why */", WRONG).encode(), C),
        CodeText("b.c", function("", WRONG).encode(), C),
    ]
    audited = audit(subject.resolved, subject.macros, texts)
    assert [(item.rule, item.at.file) for item in audited.findings] == [(RESERVED, 1)]


def test_without_comments_nothing_is_dropped() -> None:
    subject = subject_of(function(WRONG), name="f.c")
    every = audit(subject.resolved, subject.macros, subject.files).findings
    assert len(every) == 1
    assert audible(every, subject) is every


@pytest.mark.parametrize(
    "source",
    [b"/* regwright: silence", b"// regwright: silence x\\\n y", b"/* regwright: silence a */"],
)
def test_broken_comments_do_no_harm(source: bytes) -> None:
    subject = subject_of("")
    found_here = audit(subject.resolved, subject.macros, [CodeText("f.c", source, C)]).findings
    # a comment that never ends is told by a rule of its own
    assert {item.rule for item in found_here} <= {RULE, "not-understood"}
