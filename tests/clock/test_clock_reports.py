"""The forms of an answer: JSON against its schema, Markdown against a reader of tables."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import pytest
from clock_chips import LINE, MHZ, PRESCALER, TIMER, asked, chip, chip_tree, resolved
from jsonschema import Draft202012Validator

from conftest import ROOT
from regwright.clock.answer import Answer
from regwright.reports.clock_forms import FORMS

SCHEMA = json.loads((ROOT / "schemas" / "clock.schema.json").read_bytes())
BAUDS = (Fraction(9600), Fraction(10**6), Fraction("134.5"))
TIMERS = (Fraction(1000), Fraction(1, 1000))


def answers() -> dict[str, Answer]:
    """Return an answer for each thing that can be in one."""
    found = chip()
    crystal = {"crystal": Fraction(16 * MHZ)}
    wanted: dict[str, Any] = {"bauds": BAUDS, "timers": TIMERS}
    return {
        "plain": asked(found),
        "rates": asked(found, {"low": 0xE2}, supply=Fraction("3.3"), **wanted),
        "range": asked(found, {"low": 0x6F}, **wanted),
        "crystal": asked(found, {"low": 0xEF}, frequencies=crystal, supply=Fraction(2), **wanted),
        "outside": asked(found, {"low": 0xEF}, frequencies={"crystal": Fraction(1)}),
        "register": asked(found, registers={"CLOCK.DIVIDE": 2}),
        "nothing": asked(found, registers={"CLOCK.DIVIDE": 15}),
        "unnamed": asked(found, {"low": 0x61}),
        "no source": asked(chip(sources=[{"name": "a", "kind": "external", "when": "b = c"}])),
        "fixed": asked(chip(dividers=[{"name": "core", "options": [{"divide": 3}]}], limits=None)),
        "no words": asked(chip(configuration=None, dividers=[PRESCALER], rates=[TIMER, LINE])),
        "problem": asked(chip(rates=[{**LINE, "divisor": "GONE"}]), bauds=BAUDS),
    }


ANSWERS = answers()


def document(answer: Answer) -> dict[str, Any]:
    made: dict[str, Any] = json.loads(FORMS["json"](answer))
    return made


def test_the_schema_is_valid_closed_and_described() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == Draft202012Validator.META_SCHEMA["$id"]
    for name, part in SCHEMA["$defs"].items():
        assert len(part["description"]) > 5, name
        assert part["additionalProperties"] is False, name
        assert list(part["properties"]) == part["required"], name
        assert all(len(item["description"]) > 5 for item in part["properties"].values()), name


@pytest.mark.parametrize("name", ANSWERS)
def test_every_answer_keeps_to_the_schema(name: str) -> None:
    Draft202012Validator(SCHEMA).validate(document(ANSWERS[name]))


def test_the_answers_hold_all_that_the_schema_lists() -> None:
    made = [document(answer) for answer in ANSWERS.values()]
    defs = SCHEMA["$defs"]
    steps = {step["by"] for item in made for step in item["steps"]}
    assert steps == set(defs["step"]["properties"]["by"]["enum"])
    assert {item["fine"] for item in made} == {True, False}
    assert any(item["source"] is None for item in made)
    assert any(fit["prescale"] for item in made for rate in item["rates"] for fit in rate["fits"])
    assert any(rate["problem"] for item in made for rate in item["rates"])


def test_numbers_are_exact_and_as_programs_read_them() -> None:
    made = document(ANSWERS["fixed"])
    third = Fraction(8 * MHZ, 3)
    assert made["cpu"]["nominal"] == {"value": float(third), "exact": "8000000/3"}
    assert made["steps"][0]["factor"]["exact"] == "1/3"


def test_what_the_json_says_of_a_rate() -> None:
    made = document(ANSWERS["rates"])
    assert made["words"] == {"low": 0xE2}
    assert made["settings"] == {"clock-divider": "off", "clock-source": "internal"}
    assert made["supply"]["outcome"] == "allowed"
    assert made["supply"]["worstCaseAllowed"] is False
    line = next(item for item in made["rates"] if item["wanted"]["exact"] == "9600")
    (fit,) = line["fits"]
    assert fit["number"] == 51
    assert fit["write"] == [
        {"name": "BAUD_HIGH", "value": 3},
        {"name": "BAUD_LOW.VALUE", "value": 3},
    ]


@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("name", ANSWERS)
def test_every_form_ends_in_a_line_break_and_is_the_same_again(form: str, name: str) -> None:
    text = FORMS[form](ANSWERS[name])
    assert text.endswith("\n")
    assert not text.endswith("\n\n")
    assert text == FORMS[form](answers()[name])


@pytest.mark.parametrize("name", ANSWERS)
def test_every_table_of_the_markdown_is_whole(name: str) -> None:
    tables = [
        block.splitlines()
        for block in FORMS["markdown"](ANSWERS[name]).split("\n\n")
        if block.startswith("|")
    ]
    for head, ruler, *rows in tables:
        assert set(ruler) == {"|", "-"}
        assert {line.count("|") for line in (head, ruler, *rows)} == {head.count("|")}


def test_names_of_a_description_cannot_break_the_forms() -> None:
    hostile = "A|\u202e<b>\u2028"
    fields = [{"name": hostile, "bits": "2:0"}]
    register = {"name": "OTHER", "address": "data:0x70", "fields": fields}
    tree = chip_tree(rates=[{**TIMER, "prescale": f"OTHER.{hostile}"}])
    found = asked(resolved({**tree, "registers": [*tree["registers"], register]}), timers=TIMERS)
    for form in ("text", "markdown"):
        text = FORMS[form](found)
        assert "OTHER" in text
        assert "\u202e" not in text
        assert "\u2028" not in text
    assert "<b>" not in FORMS["markdown"](found)
    assert f"OTHER.{hostile}" in json.dumps(document(found), ensure_ascii=False)
