"""A configuration for programs, in the format of ``schemas/configuration.schema.json``."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from regwright import __version__
from regwright.configuration.changes import Change
from regwright.configuration.decode import choices_of, name_in, polarity, value_in
from regwright.configuration.hazards import Cause, Caused
from regwright.configuration.words import (
    hexadecimal,
    inverted,
    undescribed_bits,
    verify_mask,
)
from regwright.model.configuration import ConfigurationField, ConfigurationWord, UnusedBits
from regwright.reports.configuration import CAUTION, Configured, refusal
from regwright.reports.configuration_rows import spelled_bits
from regwright.reports.results import encodable
from regwright.resolve.layout import layout

#: The version of the format; a change that breaks readers raises it.
VERSION = 1


def configuration_json(configured: Configured) -> str:
    """Return the configuration as JSON."""
    data = configuration_data(configured)
    return json.dumps(data, ensure_ascii=False, indent=2) + "\n"


def configuration_data(configured: Configured) -> dict[str, Any]:
    """Return the configuration as plain data. Values of words and bits are hexadecimal texts."""
    return {
        "version": VERSION,
        "tool": {"name": "regwright", "version": __version__},
        "file": encodable(configured.file),
        "chip": configured.chip.name,
        "computed": configured.is_computed,
        "words": [_word(configured, word) for word in configured.configuration.words],
        "changes": [_change(item) for item in configured.changes],
        "hazards": [_hazard(configured, item) for item in configured.known],
        "problems": [item._asdict() for item in configured.problems],
        "cautions": configured.cautions,
        "caution": CAUTION,
    }


def refusal_json(configured: Configured, refused: Iterable[Caused]) -> str:
    """Return as JSON why nothing was computed: no value stands in it.

    ``refused`` are the hazards that were not accepted.
    """
    data = {
        "version": VERSION,
        "tool": {"name": "regwright", "version": __version__},
        "file": encodable(configured.file),
        "chip": configured.chip.name,
        "computed": False,
        "refused": [_refused(item) for item in refused],
        "problems": [item._asdict() for item in configured.problems],
        "caution": CAUTION,
    }
    return json.dumps(data, ensure_ascii=False, indent=2) + "\n"


def _refused(item: Caused) -> dict[str, Any]:
    hazard = item.hazard
    return {
        "name": hazard.name,
        "kind": hazard.kind,
        "title": hazard.title or "",
        "caution": hazard.caution or "",
        "causes": _causes(item.causes),
        "message": refusal(item),
    }


def _word(configured: Configured, word: ConfigurationWord) -> dict[str, Any]:
    value = configured.words[word.name]
    numbers = {
        "value": value,
        "before": configured.start[word.name],
        "default": word.default,
        "verifyMask": verify_mask(word),
        "inverted": inverted(word, value),
        "undescribed": undescribed_bits(word),
    }
    return {
        "name": word.name,
        "title": word.title or "",
        "address": hexadecimal(word.address),
        "width": word.width,
        "lock": word.lock,
        "given": word.name in configured.given,
        "assumed": configured.is_assumed(word),
        **{name: hexadecimal(number, word.width) for name, number in numbers.items()},
        "fields": [_field(configured, word, field) for field in word.fields],
        "unused": [_unused(item) for item in word.unused],
    }


def _field(
    configured: Configured, word: ConfigurationWord, field: ConfigurationField
) -> dict[str, Any]:
    configuration = configured.configuration
    value = configured.words[word.name]
    width = layout(field.bits).width
    return {
        "name": field.name,
        "setting": field.setting,
        "title": field.title or "",
        "bits": spelled_bits(field.bits),
        "programmed": polarity(configuration, field),
        "value": hexadecimal(value_in(field, value), width),
        "choice": name_in(configuration, field, value),
        "default": name_in(configuration, field, word.default),
        "choices": [
            {
                "name": item.name,
                "value": hexadecimal(item.value, width),
                "title": item.title or "",
                "hazards": list(item.hazards),
            }
            for item in choices_of(configuration, field)
        ],
    }


def _unused(item: UnusedBits) -> dict[str, Any]:
    return {"bits": spelled_bits(item.bits), "required": item.value, "title": item.title or ""}


def _change(change: Change) -> dict[str, Any]:
    return {
        "setting": change.field.setting,
        "word": change.word.name,
        "before": change.before,
        "after": change.after,
        "bits": [item._asdict() for item in change.bits],
    }


def _hazard(configured: Configured, item: Caused) -> dict[str, Any]:
    hazard = item.hazard
    here = [found for found in configured.hazards if found.hazard == hazard]
    return {
        "name": hazard.name,
        "kind": hazard.kind,
        "title": hazard.title or "",
        "caution": hazard.caution or "",
        "state": configured.state(hazard.name),
        "causes": _causes(item.causes),
        "causesHere": _causes(here[0].causes if here else ()),
    }


def _causes(causes: Iterable[Cause]) -> list[list[dict[str, str]]]:
    return [[item._asdict() for item in cause] for cause in causes]
