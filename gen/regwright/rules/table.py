"""The rule on the whole table: one mistake in every row is one finding, not one for each."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.macros.literals import shown
from regwright.model.finding import ERROR
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.verdicts import TableVerdict
from regwright.rules.wording import label

#: The exceptions listed by name are no more than this.
MOST_NAMES = 8


def _names(names: tuple[str, ...]) -> str:
    if not names:
        return ""
    shown_names = ", ".join(names[:MOST_NAMES])
    more = f" and {len(names) - MOST_NAMES} more" if len(names) > MOST_NAMES else ""
    return f"; not so {shown_names}{more}"


def _message(verdict: TableVerdict) -> str:
    window, count = verdict.window, len(verdict.explained)
    inner, outer = label(window.source), label(window.into)
    offset = shown(window.offset)
    if verdict.kind == "inner-for-outer":
        return (
            f"all {count} registers with only a {outer} address have one between "
            f"{shown(window.first)} and {shown(window.last)}, some of them among the CPU's own "
            f"registers: was the {inner} column copied? Then write {inner} addresses, or add "
            f"{offset} to each"
        )
    if verdict.kind == "outer-for-inner":
        return (
            f"all {count} registers with only an {inner} address have one between "
            f"{shown(window.first + window.offset)} and {shown(window.last + window.offset)}, some "
            f"past the window's end: was the {outer} column copied? Then write {outer} addresses, "
            f"or take {offset} from each"
        )
    rows = f"{count} of {verdict.total} registers"
    if verdict.distance == -window.offset:
        return (
            f"{rows} have their {inner} and {outer} addresses the wrong way round: were the two "
            f"columns swapped?{_names(verdict.others)}"
        )
    distance = shown(verdict.distance) if verdict.distance >= 0 else f"-{-verdict.distance:#04x}"
    why = ""
    if verdict.distance == 0:
        copied, over = (outer, inner) if verdict.is_past else (inner, outer)
        why = f", or was the {copied} column copied into the {over} column"
    elif verdict.distance == 2 * window.offset:
        why = f", or was {offset} added twice throughout"
    return (
        f"{rows} agree with an offset of {distance}, but the window says {offset}: is the window "
        f"wrong{why}?{_names(verdict.others)}"
    )


@rule("table-off-by-a-constant", ERROR)
def table_off_by_a_constant(subject: Subject) -> Iterator[Problem]:
    """Most rows of the table contradict the window in the same way.

    ## What it catches
    A constant that explains most registers of the description better than the window's offset
    does: none added, added twice, the two columns swapped, one column copied over the other, or
    another offset than the window's. It is said once; the rows that it does not explain are
    listed.

    ## Why it matters
    When forty rows are wrong in one way, one thing is wrong: the window, or the column that was
    copied. Forty findings would hide that.

    ## Example
    41 registers as `address="io:0x18 data:0x18"`, and a window with `offset="0x20"`.

    ## Instead
    On a core without a distance, `offset="0"`; otherwise the right column, as `data:0x38`.

    ## When to silence it
    Never: describe a second window where a part of the chip has another offset.
    """
    for verdict in subject.table_verdicts:
        key = "offset" if verdict.kind == "distance" else "into"
        yield Problem(_message(verdict), (verdict.window.origin, key))
