"""``regwright rules``: list the rules, or explain one."""

from __future__ import annotations

import inspect
import re
import shutil
import sys
import textwrap
from typing import TYPE_CHECKING

import click

from regwright.cli.exits import COULD_NOT_RUN
from regwright.cli.terminal import COLOURS, complain, wants_colour
from regwright.model.words import nearest

if TYPE_CHECKING:
    from regwright.rules.catalogue import Rule

#: Text wider than this is hard to read, however wide the terminal is.
_WIDEST = 88


@click.command(
    "rules",
    short_help="List the rules, or explain one.",
    epilog="Example: regwright rules offset-not-added",
)
@click.argument("name", required=False)
def command(name: str | None) -> None:
    """List the rules, or explain the rule NAME: what it catches, why, and what to write instead."""
    from regwright.audit.all import AUDIT_RULES
    from regwright.rules.all import RULES

    if name is None:
        _print(_list(RULES, AUDIT_RULES))
        return
    every = RULES + AUDIT_RULES
    found = next((item for item in every if item.name == name), None)
    if found is None:
        near = nearest(name, [item.name for item in every])
        hint = f"; did you mean {near}?" if near else "; regwright rules lists them"
        complain(f"there is no rule {name!r}{hint}")
        sys.exit(COULD_NOT_RUN)
    _print(_page(found))


def _print(text: str) -> None:
    click.echo(text, nl=False, color=wants_colour(sys.stdout))


def _width() -> int:
    return min(shutil.get_terminal_size((80, 24)).columns, _WIDEST)


def _summary(rule: Rule) -> str:
    return rule.documentation.strip().splitlines()[0].rstrip(".")


def _list(descriptions: tuple[Rule, ...], sources: tuple[Rule, ...]) -> str:
    """Return a line for each rule, its summary cut where the terminal ends."""
    widest = max(len(item.name) for item in descriptions + sources)
    parts = [
        click.style("For descriptions (regwright check):", underline=True) + "\n",
        _lines(descriptions, widest),
        click.style("For sources (regwright audit):", underline=True) + "\n",
        _lines(sources, widest),
        f"{len(descriptions)} and {len(sources)} rules; regwright rules NAME explains one\n",
    ]
    return "".join(parts)


def _lines(rules: tuple[Rule, ...], widest: int) -> str:
    lines = []
    for item in rules:
        level = click.style(f"{item.level:8}", fg=COLOURS[item.level])
        room = max(_width() - widest - 11, 20)
        summary = textwrap.shorten(_summary(item), room, placeholder=" …")
        lines.append(f"{click.style(item.name.ljust(widest), bold=True)}  {level} {summary}\n")
    return "".join(lines)


def _page(rule: Rule) -> str:
    """Return a rule's page, set for the terminal."""
    level = click.style(rule.level, fg=COLOURS[rule.level], bold=True)
    parts = [f"{click.style(rule.name, bold=True)} ({level})\n"]
    for block in re.split(r"\n\s*\n", inspect.cleandoc(rule.documentation)):
        heading, _, rest = block.partition("\n") if block.startswith("## ") else ("", "", block)
        if heading:
            parts.append("\n" + click.style(heading.removeprefix("## "), underline=True) + "\n")
        else:
            parts.append("\n")
        parts.append(_filled(rest))
    return "".join(parts)


def _filled(text: str) -> str:
    indent = "  "
    return (
        textwrap.fill(
            " ".join(text.split()),
            _width(),
            initial_indent=indent,
            subsequent_indent=indent,
            break_long_words=False,
            break_on_hyphens=False,
        )
        + "\n"
    )
