"""Rules on the limits of the clock: which frequency is allowed at which supply."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from regwright.clock.amounts import hertz
from regwright.model.finding import NOTE, WARNING
from regwright.rules.catalogue import Problem, Subject, rule


@rule("limits-contradict", WARNING)
def limits_contradict(subject: Subject) -> Iterator[Problem]:
    """Two limits of the clock do not go together.

    ## What it catches
    Two limits at one supply, and a limit whose supply is higher than that of another, but whose
    frequency is lower.

    ## Why it matters
    A chip may run faster with a higher supply, not slower. A digit was mistyped, and every answer
    on how fast the CPU may be is wrong from there on.

    ## Example
    `<limit supply="2.7 V" highest="10 MHz"/>` and `<limit supply="4.5 V" highest="2 MHz"/>`

    ## Instead
    `highest="20 MHz"` for the second, if the data sheet says so.

    ## When to silence it
    Where the data sheet does say so.
    """
    clock = subject.chip.clock
    limits = sorted(clock.limits if clock else (), key=lambda limit: limit.supply)
    for before, limit in pairwise(limits):
        supply, lower = f"{float(limit.supply):g} V", f"{float(before.supply):g} V"
        if before.supply == limit.supply:
            message = f"there is a limit at {supply} already; the lower frequency counts"
            yield Problem(f"{message}, look both up", (limit.origin, "supply"))
        elif before.highest > limit.highest:
            fast, slow = hertz(before.highest), hertz(limit.highest)
            message = f"{slow} at {supply} is less than {fast} at {lower}; look both up"
            yield Problem(message, (limit.origin, "highest"))


@rule("supply-without-limit", NOTE)
def supply_without_limit(subject: Subject) -> Iterator[Problem]:
    """The chip may have a supply at which no frequency is stated.

    ## What it catches
    A `lowestSupply` below the supply of the first limit.

    ## Why it matters
    Nothing says how fast the CPU may run in between. Either a limit is missing, or one of the two
    voltages was mistyped.

    ## Example
    `lowestSupply="1.6 V"`, and the first limit at 1.8 V.

    ## Instead
    `lowestSupply="1.8 V"`

    ## When to silence it
    Where the data sheet leaves it open too.
    """
    clock = subject.chip.clock
    if clock is None or clock.lowest_supply is None or not clock.limits:
        return
    first = min(limit.supply for limit in clock.limits)
    if clock.lowest_supply < first:
        message = (
            f"from {float(clock.lowest_supply):g} V to {float(first):g} V no limit states a "
            "frequency; add one, or look up the lowest supply"
        )
        yield Problem(message, (clock.origin, "lowestSupply"))
