"""What an answer about a clock says, in words and in rows of texts, for every form of it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from regwright.clock import amounts
from regwright.clock.answer import Answer
from regwright.clock.chain import REGISTER, RESET, SETTING, Frequency, Step
from regwright.clock.limits import ALLOWED, NO_LIMIT, NOT_KNOWN, TOO_FAST, TOO_HIGH, TOO_LOW
from regwright.configuration.hazards import cause_in_words
from regwright.configuration.words import hexadecimal, place_of
from regwright.model.configuration import SettingIs
from regwright.reports.configuration import about_hazard
from regwright.resolve.layout import bits_in_words, layout

CAUTION = (
    "Check the datasheet and its errata: how far an oscillator is off depends on temperature and "
    "supply."
)


class Row(NamedTuple):
    """A part of the chain: its name, what it does, the frequency behind it, and why."""

    name: str
    effect: str
    frequency: str
    because: str


def heading(answer: Answer) -> str:
    """Return the answer in one line."""
    name, end = answer.resolved.chip.name, end_of(answer)
    if answer.wrong:
        return f"{name}: these bytes cannot be right"
    if answer.chain.problems:
        return f"{name}: the frequency of the {end} cannot be told"
    cpu = answer.chain.cpu
    if cpu.nominal == 0:
        return f"{name}: the {end} stands still, at 0 Hz"
    shown = frequency(cpu)
    if cpu.nominal is None:
        shown += ", depending on what is connected"
    return f"{name}: the {end} runs at {shown}"


def end_of(answer: Answer) -> str:
    """Return what the clock is for: a device has no CPU."""
    return "CPU" if answer.resolved.chip.kind == "chip" else "clock"


def frequency(value: Frequency) -> str:
    """Return a frequency, or the range it is in."""
    if value.nominal is not None:
        return amounts.hertz(value.nominal)
    low, high = value.lowest, value.highest
    if low is not None and high is not None:
        return f"{amounts.hertz(low)} to {amounts.hertz(high)}"
    if low is not None:
        return f"{amounts.hertz(low)} or more"
    return f"{amounts.hertz(high)} or less" if high is not None else "any frequency"


def words_given(answer: Answer) -> str:
    """Return the configuration words, as ``low = 0x62, high = 0xDF``; empty without any."""
    configuration = answer.resolved.chip.configuration
    if configuration is None:
        return ""
    return ", ".join(
        f"{word.name} = {hexadecimal(answer.question.words[word.name], word.width)}"
        for word in configuration.words
        if not word.lock
    )


def rows(answer: Answer) -> list[Row]:
    """Return the chain, from the source to the CPU."""
    chain = answer.chain
    if chain.source is None:
        return []
    found = [_source_row(answer)]
    for step in chain.steps:
        effect = amounts.factor(step.factor)
        found.append(Row(step.divider.name, effect, frequency(step.after), _because(answer, step)))
    if not chain.problems:
        found.append(Row(end_of(answer), "", frequency(chain.cpu), _bounds(chain.cpu)))
    return found


def _source_row(answer: Answer) -> Row:
    source = answer.chain.source
    if source is None:
        raise ValueError("a chain without a source has no row for it")
    reasons = [_setting(answer, item) for item in source.when]
    if source.tolerance:
        reasons.append(f"± {amounts.share(source.tolerance)}")
    if source.name in answer.question.frequencies:
        own = source.frequency
        differs = own not in (None, answer.chain.start.nominal)
        instead = f", instead of {amounts.hertz(own)}" if own is not None and differs else ""
        reasons.append(f"as given{instead}")
    kind = "" if source.kind in source.name else source.kind
    return Row(source.name, kind, frequency(answer.chain.start), "; ".join(reasons))


def _setting(answer: Answer, item: SettingIs) -> str:
    """Return a setting, its choice and where that stands."""
    configuration = answer.resolved.chip.configuration
    found = place_of(configuration, item.setting) if configuration else None
    text = f"{item.setting} = {item.choice}"
    if found is None:
        return text
    word, field = found
    return f"{text} ({word.name}, {bits_in_words(layout(field.bits).mask)})"


def _because(answer: Answer, step: Step) -> str:
    if step.by == SETTING:
        return _setting(answer, SettingIs(step.divider.setting or "", step.choice or ""))
    if step.by in (REGISTER, RESET):
        how = "after reset" if step.by == RESET else "as given"
        return f"{step.divider.field} = {hexadecimal(step.value or 0)} {how}"
    return "always"


def _bounds(cpu: Frequency) -> str:
    low, high = cpu.lowest, cpu.highest
    if cpu.nominal is None or low is None or high is None or low == high:
        return ""
    return f"{amounts.hertz(low)} to {amounts.hertz(high)}"


def supply_sentences(answer: Answer) -> Iterator[str]:
    """Yield what the supply and the limits say."""
    verdict, cpu = answer.verdict, answer.chain.cpu
    clock = answer.clock
    supply = "" if verdict.supply is None else amounts.volts(verdict.supply)
    fastest = "" if verdict.fastest is None else amounts.hertz(verdict.fastest)
    least = "" if verdict.least is None else amounts.volts(verdict.least)
    outcome = verdict.outcome
    if outcome == TOO_LOW and clock.lowest_supply and (verdict.supply or 0) < clock.lowest_supply:
        yield f"{supply} is too low: the chip works from {amounts.volts(clock.lowest_supply)} on."
    elif outcome == TOO_LOW:
        yield f"{supply} is too low: no frequency is stated for it."
    elif outcome == TOO_HIGH and clock.highest_supply:
        highest = amounts.volts(clock.highest_supply)
        yield f"{supply} is too high: {highest} is the most that the chip takes."
    elif outcome == TOO_FAST:
        yield _too_fast(frequency(cpu), supply, fastest)
    elif outcome == NO_LIMIT:
        yield "The description states no limit of the frequency."
    elif outcome == ALLOWED and supply:
        yield f"{supply} allows it: up to {fastest} there."
    elif outcome == NOT_KNOWN:
        yield f"{supply or 'The best supply'} allows up to {fastest}."
    if verdict.worst is False and outcome == ALLOWED and cpu.highest is not None:
        yield f"At worst it is {amounts.hertz(cpu.highest)}, which is more than {fastest}."
    if least and cpu.nominal is not None and outcome != NO_LIMIT:
        yield f"{amounts.hertz(cpu.nominal)} takes {least} or more."


def warnings(answer: Answer) -> Iterator[str]:
    """Yield what to look out for: reserved bits, and the hazards of the configuration words."""
    yield from (f"{remark}." for remark in answer.remarks)
    for item in answer.hazards:
        reason = "; ".join(map(cause_in_words, item.causes))
        name = item.hazard.name
        yield f"These bytes have the hazard {name}: {reason}. {about_hazard(item)}"
    if answer.hazards:
        yield (
            "Compute bytes to write with regwright config: it refuses a hazard until you accept it."
        )


def _too_fast(cpu: str, supply: str, fastest: str) -> str:
    if supply:
        return f"{supply} does not allow {cpu}: at most {fastest} there."
    most = f": at most {fastest}" if fastest else ""
    return f"No supply allows {cpu}{most}. Divide it, or choose another source."


def advice(answer: Answer) -> Iterator[str]:
    """Yield what is wrong with the words and the chain, and what is missing for an answer."""
    yield from (f"{problem}." for problem in answer.wrong)
    yield from (f"{problem}." for problem in answer.chain.problems)
    yield from (f"{problem}." for problem in answer.outside)
    chain = answer.chain
    if chain.source is not None and chain.start.nominal is None and not chain.problems:
        name = chain.source.name
        yield f"Give --frequency, as --frequency 8MHz, for what is connected as {name}."
