"""How fast the CPU may be at a supply voltage."""

from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from regwright.clock.chain import Frequency
from regwright.model.clock import Clock

#: What a supply says of a frequency.
ALLOWED, TOO_FAST, TOO_LOW, TOO_HIGH = "allowed", "too-fast", "supply-too-low", "supply-too-high"
#: Nothing says it: there is no limit, or the frequency is not known.
NO_LIMIT, NOT_KNOWN = "no-limit", "not-known"


class Verdict(NamedTuple):
    """What the limits say of a frequency; ``supply`` is ``None`` when any supply would do.

    ``fastest`` is allowed at that supply, or at the best one (hertz), ``least`` is the lowest
    supply at which the frequency is allowed (volts). ``worst`` tells whether the limit also holds
    for the highest frequency that the tolerance leaves open.
    """

    outcome: str
    supply: Fraction | None
    fastest: Fraction | None
    least: Fraction | None
    worst: bool | None

    @property
    def forbids(self) -> bool:
        """Whether the frequency must not be."""
        return self.outcome in (TOO_FAST, TOO_LOW, TOO_HIGH)


def _steps(clock: Clock) -> list[tuple[Fraction, Fraction]]:
    """Return the supplies at which limits stand, in order, and the frequency allowed there."""
    found: dict[Fraction, Fraction] = {}
    for limit in clock.limits:
        found[limit.supply] = min(limit.highest, found.get(limit.supply, limit.highest))
    return sorted(found.items())


def fastest_at(clock: Clock, supply: Fraction) -> Fraction | None:
    """Return the highest frequency (hertz) at ``supply`` (volts).

    ``None`` when no limit reaches so low. Of two limits at one supply the lower counts.
    """
    steps = _steps(clock)
    below = [step for step in steps if step[0] <= supply]
    if not below:
        return None
    start, highest = below[-1]
    above = steps[len(below) :]
    if clock.between == "step" or not above:
        return highest
    end, then = above[0]
    return highest + (then - highest) * (supply - start) / (end - start)


def least_supply(clock: Clock, frequency: Fraction) -> Fraction | None:
    """Return the lowest supply (volts) at which the CPU may run at ``frequency`` (hertz).

    ``None`` when there is none within the chip's supplies. Without limits it is the lowest supply.
    """
    steps = _steps(clock)
    if not steps:
        return clock.lowest_supply
    candidates = {supply for supply, _ in steps}
    if clock.lowest_supply is not None:
        candidates.add(clock.lowest_supply)
    if clock.between == "linear":
        for (start, slow), (end, fast) in pairwise(steps):
            if slow < frequency < fast:
                candidates.add(start + (end - start) * (frequency - slow) / (fast - slow))
    return min((item for item in candidates if _allows(clock, item, frequency)), default=None)


def _allows(clock: Clock, supply: Fraction, frequency: Fraction) -> bool:
    if _outside(clock, supply):
        return False
    fastest = fastest_at(clock, supply)
    return fastest is not None and frequency <= fastest


def _outside(clock: Clock, supply: Fraction) -> str:
    if clock.lowest_supply is not None and supply < clock.lowest_supply:
        return TOO_LOW
    if clock.highest_supply is not None and supply > clock.highest_supply:
        return TOO_HIGH
    return ""


def _best(clock: Clock) -> Fraction | None:
    """Return the highest frequency that any supply of the chip allows."""
    supplies = {limit.supply for limit in clock.limits}
    supplies |= {item for item in (clock.lowest_supply, clock.highest_supply) if item is not None}
    allowed = [fastest_at(clock, item) for item in supplies if not _outside(clock, item)]
    return max((item for item in allowed if item is not None), default=None)


def judge(clock: Clock, frequency: Frequency, supply: Fraction | None = None) -> Verdict:
    """Return what the limits say of ``frequency`` at ``supply`` (volts), or at any supply.

    Of a range, the lowest frequency is judged: if that is too fast, all are.
    """
    wanted = frequency.lowest if frequency.nominal is None else frequency.nominal
    least = None if wanted is None else least_supply(clock, wanted)
    fastest = _best(clock) if supply is None else fastest_at(clock, supply)
    outside = "" if supply is None else _outside(clock, supply)
    if outside:
        return Verdict(outside, supply, None, least, None)
    if not clock.limits:
        return Verdict(NO_LIMIT, supply, None, least, None)
    if fastest is None:  # below the first limit, or no limit within the supplies
        return Verdict(TOO_LOW if supply is not None else TOO_FAST, supply, None, least, None)
    if wanted is not None and wanted > fastest:
        return Verdict(TOO_FAST, supply, fastest, least, worst=False)
    if frequency.nominal is None:
        return Verdict(NOT_KNOWN, supply, fastest, least, None)
    highest = frequency.highest or frequency.nominal
    return Verdict(ALLOWED, supply, fastest, least, highest <= fastest)
