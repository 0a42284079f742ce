"""The findings as test results, in the XML of the Ant task junitreport, which CI systems read.

Each description is a suite. Each rule is a test of it: one that passes where the rule found nothing
that fails the check, else one failing test for each finding, for most readers show one failure of a
test and no more. What does not fail is in the output of the passing test.
"""

from __future__ import annotations

import html
from collections.abc import Iterator
from typing import NamedTuple

from regwright.model.words import visible
from regwright.reports.pages import is_off, rules_of
from regwright.reports.results import Found, Result, Run, Unreadable
from regwright.reports.words import advice, line_of

#: Readers demand a duration; ours are all nothing, so that equal input makes equal reports.
_TIME = "0.000"


class Case(NamedTuple):
    """A test: its name, its line in the description, and what is within, if anything."""

    name: str
    line: int
    inside: str = ""


class Suite(NamedTuple):
    """The tests of one file, and the one of the three counts that each belongs to."""

    file: str
    cases: list[Case]
    failures: int = 0
    errors: int = 0
    skipped: int = 0


def report(run: Run) -> str:
    """Return the run as XML."""
    suites = [_suite(run, item) for item in run.results] + [_unread(i) for i in run.unreadable]
    total = {
        "tests": sum(len(suite.cases) for suite in suites),
        "failures": sum(suite.failures for suite in suites),
        "errors": sum(suite.errors for suite in suites),
        "skipped": sum(suite.skipped for suite in suites),
    }
    lines = ['<?xml version="1.0" encoding="UTF-8"?>']
    lines.append(f"<testsuites{_attributes(name='regwright', **total, time=_TIME)}>")
    for suite in suites:
        lines += _written(suite)
    return "\n".join([*lines, "</testsuites>"]) + "\n"


def _escaped(text: str) -> str:
    return html.escape(visible(text))


def _attributes(**values: str | int) -> str:
    return "".join(f' {name}="{_escaped(str(value))}"' for name, value in values.items())


def _written(suite: Suite) -> Iterator[str]:
    _, cases, failures, errors, skipped = suite
    yield (
        "  <testsuite"
        + _attributes(
            name=suite.file,
            tests=len(cases),
            failures=failures,
            errors=errors,
            skipped=skipped,
            time=_TIME,
        )
        + ">"
    )
    # Readers split a class at its dots, into package and class.
    classname = "regwright." + suite.file.replace(".", "_")
    for name, line, inside in cases:
        attributes = _attributes(
            classname=classname, name=name, file=suite.file, line=line, time=_TIME
        )
        end = f">{inside}</testcase>" if inside else "/>"
        yield f"    <testcase{attributes}{end}"
    yield "  </testsuite>"


def _suite(run: Run, result: Result) -> Suite:
    failing: dict[str, list[Found]] = {}
    passing: dict[str, list[Found]] = {}
    for item in result.findings:
        (failing if run.fails(item) else passing).setdefault(item.rule, []).append(item)
    cases: list[Case] = []
    skipped = 0
    # Rules have run where there is a chip; a reader's finding is no rule's.
    rules = list(rules_of(run)) if result.chip is not None else []
    for rule in dict.fromkeys([*failing, *passing, *rules]):
        quiet = passing.get(rule, [])
        if rule in failing:
            cases += _failures(result, rule, failing[rule], quiet)
        elif is_off(run, rule) and not quiet:
            skipped += 1
            cases.append(Case(rule, 1, '<skipped message="switched off"/>'))
        else:
            cases.append(Case(rule, quiet[0].start_line if quiet else 1, _output(result, quiet)))
    return Suite(result.file, cases, sum(map(len, failing.values())), skipped=skipped)


def _failures(result: Result, rule: str, items: list[Found], quiet: list[Found]) -> Iterator[Case]:
    """Yield a failing test for each of ``items``, the first named as if it had passed."""
    for number, item in enumerate(items, 1):
        text = line_of(result, item)
        if what := advice(item):
            text += f"\n{what}"
        inside = (
            f"<failure{_attributes(message=item.message, type=item.level)}>"
            f"{html.escape(text)}</failure>"
        )
        name = rule if number == 1 else f"{rule} ({number})"
        yield Case(name, item.start_line, inside + (_output(result, quiet) if number == 1 else ""))


def _output(result: Result, items: list[Found]) -> str:
    if not items:
        return ""
    lines = "\n".join(html.escape(line_of(result, item)) for item in items)
    return f"<system-out>{lines}</system-out>"


def _unread(item: Unreadable) -> Suite:
    inside = f"<error{_attributes(message=item.reason, type='unreadable')}/>"
    return Suite(item.file, [Case("read", 1, inside)], errors=1)
