"""An answer about a clock for programs, in the format of ``schemas/clock.schema.json``."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

from regwright import __version__
from regwright.clock.answer import Answer
from regwright.clock.chain import Frequency, Step
from regwright.clock.rates import Fit, Rated
from regwright.configuration.hazards import Caused
from regwright.reports.clock_words import CAUTION

#: The version of the format; a change that breaks readers raises it.
VERSION = 1


def clock_json(answer: Answer) -> str:
    """Return the answer as JSON."""
    return json.dumps(clock_data(answer), ensure_ascii=False, indent=2) + "\n"


def clock_data(answer: Answer) -> dict[str, Any]:
    """Return the answer as plain data."""
    chain, question = answer.chain, answer.question
    source = chain.source
    return {
        "version": VERSION,
        "tool": {"name": "regwright", "version": __version__},
        "chip": answer.resolved.chip.name,
        "fine": answer.is_fine,
        "words": dict(question.words),
        "settings": dict(question.settings),
        "source": source
        and {
            "name": source.name,
            "kind": source.kind,
            "frequency": _frequency(chain.start),
            "tolerance": amount(source.tolerance),
        },
        "steps": [_step(step) for step in chain.steps],
        "cpu": _frequency(chain.cpu),
        "problems": [*answer.wrong, *chain.problems, *answer.outside],
        "hazards": [_hazard(item) for item in answer.hazards],
        "remarks": list(answer.remarks),
        "supply": _supply(answer),
        "rates": [_rated(item) for item in answer.rates],
        "caution": CAUTION,
    }


def amount(value: Fraction | None) -> dict[str, Any] | None:
    """Return a number as programs read it, and as an exact fraction."""
    return None if value is None else {"value": float(value), "exact": str(value)}


def _frequency(value: Frequency) -> dict[str, Any]:
    return {name: amount(item) for name, item in value._asdict().items()}


def _hazard(item: Caused) -> dict[str, Any]:
    hazard = item.hazard
    return {
        "name": hazard.name,
        "kind": hazard.kind,
        "title": hazard.title or "",
        "caution": hazard.caution or "",
        "causes": [[setting._asdict() for setting in cause] for cause in item.causes],
    }


def _step(step: Step) -> dict[str, Any]:
    divider = step.divider
    return {
        "name": divider.name,
        "factor": amount(step.factor),
        "by": step.by,
        "setting": divider.setting,
        "choice": step.choice,
        "field": divider.field,
        "value": step.value,
        "after": _frequency(step.after),
    }


def _supply(answer: Answer) -> dict[str, Any]:
    verdict = answer.verdict
    return {
        "outcome": verdict.outcome,
        "given": amount(verdict.supply),
        "fastest": amount(verdict.fastest),
        "least": amount(verdict.least),
        "worstCaseAllowed": verdict.worst,
    }


def _rated(item: Rated) -> dict[str, Any]:
    return {
        "name": item.rate.name,
        "kind": item.rate.kind,
        "wanted": amount(item.wanted),
        "clock": _frequency(item.clock),
        "slowest": amount(item.slowest),
        "fastest": amount(item.fastest),
        "problem": item.problem or None,
        "tooFarOff": item.is_off,
        "fits": [_fit(item, fit) for fit in item.fits],
    }


def _fit(item: Rated, fit: Fit) -> dict[str, Any]:
    option = fit.option
    prescale = option and {
        "field": item.rate.prescale,
        "value": option.value,
        "divide": option.divide,
        "multiply": option.multiply,
    }
    return {
        "prescale": prescale,
        "number": fit.number,
        "write": [{"name": part.name, "value": value} for part, value in item.pieces(fit.number)],
        "rate": amount(fit.rate),
        "error": amount(fit.error),
        "lowestError": amount(fit.lowest),
        "highestError": amount(fit.highest),
    }
