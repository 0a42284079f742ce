"""What is passed over or remembered makes no difference: all is seen and found as it is without."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from audit_runs import Sources, audited
from made_programs import program

from regwright.code.text import CPP, C, language_of

CASES = Path(__file__).resolve().parent.parent / "cases" / "audit"
SOURCES = [path for path in sorted(CASES.rglob("*")) if language_of(path.name) is not None]
PROGRAMS = 400

Shortcut = Callable[[pytest.MonkeyPatch], None]


def without_passing(patch: pytest.MonkeyPatch) -> None:
    """Read every body."""
    patch.setattr("regwright.code.passing.bodies", lambda _: [])


def without_memory(patch: pytest.MonkeyPatch) -> None:
    """Work out every expression anew."""
    patch.setattr("regwright.code.anywhere.Anywhere.since", lambda _, __, ___: None)


def without_leads(patch: pytest.MonkeyPatch) -> None:
    """Take it that every value with names may stand for something in some choice of arms."""
    patch.setattr("regwright.code.valueless.lead_of", lambda _, **__: None)


def without_blocks(patch: pytest.MonkeyPatch) -> None:
    """Let the names of local constants count everywhere."""
    for module in ("valueless", "interest", "passing"):
        patch.setattr(f"regwright.code.{module}.known_in", lambda _: None)


def without_either(patch: pytest.MonkeyPatch) -> None:
    """Read every body, and work out every expression anew."""
    without_passing(patch)
    without_memory(patch)


def result(sources: Sources) -> tuple[object, ...]:
    """Return all that is seen and found in ``sources``."""
    found = audited(sources, pedantic=True)
    return tuple(found.subject.seen), [
        (item.rule, item.message, item.at) for item in found.findings
    ]


@pytest.mark.parametrize(
    "switch_off", [without_passing, without_memory, without_leads, without_blocks]
)
@pytest.mark.parametrize("path", SOURCES, ids=lambda path: f"{path.parent.name}-{path.name}")
def test_sources_of_the_cases(
    path: Path, switch_off: Shortcut, monkeypatch: pytest.MonkeyPatch
) -> None:
    sources = {path.name: path.read_bytes()}
    usual = result(sources)
    switch_off(monkeypatch)
    assert result(sources) == usual


@pytest.mark.parametrize(
    "switch_off", [without_passing, without_memory, without_either, without_leads, without_blocks]
)
@pytest.mark.parametrize("language", [C, CPP])
def test_programs_made_up(
    language: str, switch_off: Shortcut, monkeypatch: pytest.MonkeyPatch
) -> None:
    ending = "c" if language == C else "cpp"
    made = [{f"f.{ending}": program(seed, language).encode()} for seed in range(PROGRAMS)]
    usual = [result(sources) for sources in made]
    switch_off(monkeypatch)
    for sources, expected in zip(made, usual, strict=True):
        assert result(sources) == expected, sources


@pytest.mark.parametrize("language", [C, CPP])
def test_what_words_do_not_tell_of_does_nothing(
    language: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    ending = "c" if language == C else "cpp"
    made = [{f"f.{ending}": program(seed, language).encode()} for seed in range(PROGRAMS)]
    usual = [audited(sources).subject.seen for sources in made]
    without_either(monkeypatch)
    monkeypatch.setattr("regwright.code.interest.Telling.tells", lambda _, __, ___: True)
    for sources, expected in zip(made, usual, strict=True):
        seen = audited(sources).subject.seen
        assert (seen.accesses, seen.instructions) == (
            expected.accesses,
            expected.instructions,
        ), sources


def test_a_place_in_a_macro_stays_where_it_is() -> None:
    """The second use of a register's macro has the literal of its definition."""
    text = b"#define OUT_B (*(volatile uint8_t *)0x35)\nvoid f(void) { OUT_B = 1; OUT_B = 1; }\n"
    found = audited({"f.c": text})
    assert [(item.rule, item.at.start) for item in found.findings] == [
        ("name-at-other-address", text.find(b"OUT_B"))
    ]
