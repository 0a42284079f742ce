"""Rules on registers that stand in a row: one that is out of place, one that is missing."""

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from regwright.macros.literals import shown
from regwright.model.finding import NOTE, WARNING
from regwright.resolve.addresses import into_window, out_of_window
from regwright.resolve.chip import Placed
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.digits import explain_slip
from regwright.rules.wording import doubtful, given_pairs, label, place_of, word_of

#: Fewer registers than this have no order to speak of.
FEWEST_IN_ORDER = 6
#: Fewer registers than this, a gap among them, are no run.
FEWEST_IN_RUN = 4


class _Row(NamedTuple):
    """A register and its first address, in the order of the file."""

    placed: Placed
    value: int

    @property
    def end(self) -> int:
        """The first address behind the register."""
        return self.value + self.placed.units


class _Misplaced(NamedTuple):
    """A row that stands between two others which leave a hole for it at ``expected``."""

    row: _Row
    before: _Row
    after: _Row
    expected: int


def _rows(subject: Subject, space: str) -> list[_Row]:
    """Return the registers of ``space`` in the file's order, the first at each address only.

    Registers of which a rule of the mapping says that their addresses are wrong are left out.
    """
    rows: list[_Row] = []
    seen: set[int] = set()
    unsure = doubtful(subject.resolved) | subject.explained
    for placed in subject.described:
        found = placed.address(space)
        is_wanted = found is not None and not placed.half and id(placed) not in unsure
        if found is not None and is_wanted and found.value not in seen:
            seen.add(found.value)
            rows.append(_Row(placed, found.value))
    return rows


def _step(rows: list[_Row], index: int) -> int:
    """Return the step that the two rows before ``index`` or after it keep, or 0.

    All of them, and the row itself, are as wide as the step.
    """
    for one, other in ((index - 2, index - 1), (index + 1, index + 2)):
        if one >= 0 and other < len(rows):
            step = rows[other].value - rows[one].value
            if all(abs(step) == rows[i].placed.units for i in (one, other, index)):
                return step
    return 0


def _misplaced(rows: list[_Row]) -> Iterator[_Misplaced]:
    taken = {row.value for row in rows}
    for index in range(1, len(rows) - 1):
        before, row, after = rows[index - 1 : index + 2]
        step = _step(rows, index)
        expected = before.value + step
        if step and after.value == before.value + 2 * step and expected not in taken:
            yield _Misplaced(row, before, after, expected)


@rule("address-out-of-order", WARNING)
def address_out_of_order(subject: Subject) -> Iterator[Problem]:
    """One address breaks a regular run, and the place it leaves is empty.

    ## What it catches
    A register between two others whose addresses leave room for exactly it, while its own is
    somewhere else.

    ## Why it matters
    Where the document prints one address only, there is no second one to hold it against. The
    neighbours are.

    ## Example
    `0x60`, `0x61`, `0x26`, `0x63`: the digits of `0x62` were swapped.

    ## Instead
    `0x62`

    ## When to silence it
    When the document really has it there.
    """
    told: set[int] = set()
    for space in subject.chip.spaces:
        for row, before, after, expected in _misplaced(_rows(subject, space.name)):
            if id(row.placed) in told:
                continue
            told.add(id(row.placed))
            slip = explain_slip(row.value, expected)
            message = (
                f"{row.placed.name} has the {label(space.name)} address {shown(row.value)}, but "
                f"stands between {before.placed.name} at {shown(before.value)} and "
                f"{after.placed.name} at {shown(after.value)}: {shown(expected)} is free there"
            )
            yield Problem(
                message + (f"; {slip}" if slip else ""),
                place_of(row.placed),
                word_of(row.placed, space.name),
            )


@rule("address-against-order", NOTE)
def address_against_order(subject: Subject) -> Iterator[Problem]:
    """The table runs in the order of its addresses, but for one register.

    ## What it catches
    One register without which the addresses of the six or more around it would rise, or fall,
    from the first to the last.

    ## Why it matters
    Most documents list registers by address. The one that does not fit may have been mistyped.

    ## Example
    `0x60`, `0x61`, `0x64`, `0x47`, `0x68`, `0x6A`: `0x67` was meant, perhaps.

    ## Instead
    Look the address up; if it is right, move the register to where it belongs in the order.

    ## When to silence it
    When the document has that order.
    """
    told = {id(item.origin) for item in subject.findings if item.rule == "address-out-of-order"}
    for space in subject.chip.spaces:
        groups: dict[str, list[_Row]] = {}
        for row in _rows(subject, space.name):
            groups.setdefault(row.placed.block, []).append(row)
        for rows in groups.values():
            index = _only_one_against(rows)
            if index is None or id(rows[index].placed.register.origin) in told:
                continue
            row = rows[index]
            told.add(id(row.placed.register.origin))
            near = rows[index - 1 if index else 1]
            message = (
                f"{row.placed.name} has the {label(space.name)} address {shown(row.value)} and "
                f"comes {'after' if index else 'before'} {near.placed.name} at "
                f"{shown(near.value)}; without it the table would be in the order of its addresses"
            )
            yield Problem(message, place_of(row.placed), word_of(row.placed, space.name))


def _only_one_against(rows: list[_Row]) -> int | None:
    """Return the index of the only row that breaks a rising or falling order, if there is one."""
    if len(rows) < FEWEST_IN_ORDER:
        return None
    values = [row.value for row in rows]
    for ordered in (values, [-value for value in values]):
        breaks = [i for i in range(1, len(ordered)) if ordered[i] < ordered[i - 1]]
        if not breaks or len(breaks) > 2:
            continue
        at = breaks[0]
        fitting = [
            index
            for index in (at - 1, at)
            if all(one < other for one, other in _neighbours(ordered, index))
        ]
        if len(fitting) == 2 and at >= 2:
            # either may be wrong; the one whose place is still free is
            before, row, after = rows[at - 2], rows[at - 1], rows[at]
            return at - 1 if after.value == before.end + row.placed.units else at
        if fitting:
            return fitting[-1]
    return None


def _neighbours(values: list[int], without: int) -> Iterator[tuple[int, int]]:
    """Yield each two neighbours of ``values``, the one at ``without`` left out."""
    left = values[:without] + values[without + 1 :]
    return pairwise(left)


@rule("address-skipped", NOTE)
def address_skipped(subject: Subject) -> Iterator[Problem]:
    """One register is missing in an otherwise regular run.

    ## What it catches
    A gap as wide as the registers beside it, within a run of at least four that otherwise follow
    each other closely.

    ## Why it matters
    A row of the document may have been skipped while copying.

    ## Example
    Registers at `0x22`, `0x23`, `0x25` and `0x26`, nothing at `0x24`.

    ## Instead
    Look at the document; describe what is there, if something is.

    ## When to silence it
    When the document has nothing there.
    """
    told: set[int] = set()
    for space in subject.chip.spaces:
        explained = {item.expected for item in _misplaced(_rows(subject, space.name))}
        explained |= _other_places(subject, space.name)
        spans = _spans(subject, space.name)
        for index in range(1, len(spans)):
            before, after = spans[index - 1], spans[index]
            size = after.value - before.end
            narrow = min(before.placed.units, after.placed.units)
            if size < 1 or size not in (1, narrow) or before.end in explained:
                continue
            run = _run(spans, index - 1, -1) + _run(spans, index, 1)
            if run < FEWEST_IN_RUN or id(after.placed.register.origin) in told:
                continue
            told.add(id(after.placed.register.origin))
            what = "address" if size == 1 else f"{size} addresses from"
            message = (
                f"the {label(space.name)} {what} {shown(before.end)} "
                f"{'is' if size == 1 else 'are'} skipped between {before.placed.name} at "
                f"{shown(before.value)} and {after.placed.name} at {shown(after.value)}: does the "
                "document have a register there?"
            )
            yield Problem(message, place_of(after.placed), word_of(after.placed, space.name))


def _spans(subject: Subject, space: str) -> list[_Row]:
    """Return the registers of ``space`` by address, the widest at each address only."""
    widest: dict[int, _Row] = {}
    for placed in subject.resolved.registers:
        found = placed.address(space)
        if found is not None and not placed.half:
            row = widest.get(found.value)
            if row is None or row.placed.units < placed.units:
                widest[found.value] = _Row(placed, found.value)
    return [widest[value] for value in sorted(widest)]


def _run(spans: list[_Row], index: int, step: int) -> int:
    """Count the spans from ``index`` on, towards ``step``, that follow each other closely."""
    count = 1
    while count < FEWEST_IN_RUN and 0 <= index + step < len(spans):
        low, high = sorted((index, index + step))
        if spans[low].end != spans[high].value:
            break
        index += step
        count += 1
    return count


def _other_places(subject: Subject, space: str) -> set[int]:
    """Return where registers would be whose two addresses contradict each other."""
    found: set[int] = set()
    for placed, window, inside, outside in given_pairs(subject.resolved, subject.described):
        value = None
        if space == window.into:
            value = into_window(window, inside.value)
        elif space == window.source:
            value = out_of_window(window, outside.value)
        if value is not None and id(placed) not in subject.explained:
            found.add(value)
    return found
