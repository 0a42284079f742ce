"""Every hazard of every description that is shipped is refused until it is accepted, by name."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest
from config_runs import config
from lamp_chip import chip_of, lamp_file, lamp_tree

from conftest import DESCRIPTIONS
from regwright.configuration.decode import choices_of, decode, default_words
from regwright.configuration.encode import encode
from regwright.configuration.hazards import Cause, hazards_of, known_hazards
from regwright.configuration.words import place_of
from regwright.model.chip import Chip
from regwright.model.configuration import Configuration
from regwright.pipeline import check
from regwright.read.source import Source, spelling_of

SHIPPED = sorted(DESCRIPTIONS.glob("*.xml")) + sorted(DESCRIPTIONS.glob("*.json"))


def _chip(path: Path) -> Chip:
    data = path.read_bytes()
    resolved = check(Source(path.name, data, spelling_of(path.name, data))).resolved
    assert resolved is not None
    return resolved.chip


def _all() -> Iterator[tuple[str, Cause, Configuration]]:
    chips = {path.name: _chip(path) for path in SHIPPED}
    chips["lamp8"] = chip_of(lamp_tree())
    for name, chip in chips.items():
        if chip.configuration is not None:
            for hazard, causes in known_hazards(chip.configuration):
                assert causes, f"{name}: nothing causes {hazard.name}"
                for cause in causes:
                    yield f"{name}:{hazard.name}", cause, chip.configuration


CASES = [*_all()]


def test_the_demo_chips_have_hazards() -> None:
    """So that what follows cannot pass because there is nothing to try."""
    names = {name.partition(":")[0] for name, _, _ in CASES}
    assert {"sorrel14.xml", "sorrel40.json", "lamp8"} <= names
    assert len(CASES) >= 15


def without(configuration: Configuration, cause: Cause, words: Mapping[str, int]) -> dict[str, int]:
    """Return ``words`` with another choice where all of ``cause`` holds already."""
    read = decode(configuration, words)
    if any(read[setting] != choice for setting, choice in cause):
        return dict(words)
    setting, choice = cause[-1]
    place = place_of(configuration, setting)
    assert place is not None
    other = next(item for item in choices_of(configuration, place[1]) if item.name != choice)
    return encode(configuration, words, {setting: other.name})


@pytest.mark.parametrize(
    ("name", "cause", "configuration"),
    CASES,
    ids=[f"{name}-{cause[0][1]}" for name, cause, _ in CASES],
)
def test_each_hazard(tmp_path: Path, name: str, cause: Cause, configuration: Configuration) -> None:
    file, _, hazard = name.partition(":")
    path = lamp_file(tmp_path) if file == "lamp8" else DESCRIPTIONS / file
    start = without(configuration, cause, default_words(configuration))
    given = [f"{word}={value:#x}" for word, value in start.items()]
    wanted = [word for setting, choice in cause for word in ("--set", f"{setting}={choice}")]

    refused = config(path, *given, *wanted)
    assert (refused.exit_code, refused.stdout) == (1, "")
    assert f"has the hazard {hazard}. This " in refused.stderr
    about = next(item for item in configuration.hazards if item.name == hazard)
    for text in filter(None, (about.title, about.caution)):
        assert text[1:] in refused.stderr
    assert all(f"{setting} = {choice}" in refused.stderr for setting, choice in cause)

    after = encode(configuration, start, dict(cause))
    names = {item.hazard.name for item in hazards_of(configuration, after)}
    others = [word for item in names - {hazard} for word in ("--accept", item)]
    still = config(path, *given, *wanted, *others)
    assert (still.exit_code, still.stdout) == (1, "")
    accepted = config(path, *given, *wanted, *others, "--accept", hazard, "--report", "json")
    assert accepted.exit_code == 0
    data = json.loads(accepted.stdout)
    assert {word["name"]: int(word["value"], 16) for word in data["words"]} == after
    assert next(item for item in data["hazards"] if item["name"] == hazard)["state"] == "accepted"


@pytest.mark.parametrize("path", SHIPPED, ids=[path.name for path in SHIPPED])
def test_as_delivered_they_are_all_right(path: Path) -> None:
    """A demo chip has no hazard as it is delivered, and says what each of its bits is."""
    done = config(path)
    has_some = _chip(path).configuration is not None
    assert done.exit_code == (0 if has_some else 2)
    assert "these bytes have it" not in done.stdout
    assert "not described" not in done.stdout
