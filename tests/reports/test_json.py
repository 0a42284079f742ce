"""The JSON report against its own schema, which is closed and described throughout."""

from __future__ import annotations

import json
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from report_runs import ROOT, TEXTS, run_of

from regwright.reports import Run, render_report
from regwright.rules.settings import Settings

SCHEMA = json.loads((ROOT / "schemas" / "findings.schema.json").read_bytes())


def document(run: Run) -> dict[str, Any]:
    made: dict[str, Any] = json.loads(render_report("json", run))
    return made


def test_the_schema_is_valid_closed_and_described() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == Draft202012Validator.META_SCHEMA["$id"]
    for name, part in SCHEMA["$defs"].items():
        assert len(part["description"]) > 5, name
        if part.get("type") == "object":
            assert part["additionalProperties"] is False, name
            either = [item for way in part.get("oneOf", []) for item in way["required"]]
            assert [i for i in part["properties"] if i not in either] == part["required"], name
            assert set(either) <= set(part["properties"]), name
            assert all(len(item["description"]) > 5 for item in part["properties"].values()), name


@pytest.mark.parametrize("names", [(), *((name,) for name in TEXTS)], ids=repr)
def test_every_report_keeps_to_the_schema(names: tuple[str, ...]) -> None:
    Draft202012Validator(SCHEMA).validate(document(run_of(*names)))
    Draft202012Validator(SCHEMA).validate(document(Run([])))


def test_the_report_says_all_that_was_found() -> None:
    run = run_of()
    made = document(run)
    assert made["version"] == 1
    assert [item["message"] for item in made["findings"]] == [i.message for i in run.findings]
    assert made["counts"]["descriptions"] == len(TEXTS)
    assert made["counts"]["error"] == sum(item.level == "error" for item in run.findings)
    assert made["unreadable"][0]["file"] == "chips/gone.xml"
    first = next(item for item in made["findings"] if item["rule"] == "offset-not-added")
    assert (first["startLine"], first["startColumn"], first["endColumn"]) == (5, 43, 52)
    assert first["repair"] == "data:0x38"
    assert first["replacements"] == [
        {"startLine": 5, "startColumn": 43, "endLine": 5, "endColumn": 52, "text": "data:0x38"}
    ]


def test_settings_decide_what_fails() -> None:
    for fail_on, levels in (("error", {"error"}), ("note", {"error", "warning", "note"})):
        made = document(run_of(settings=Settings(fail_on=fail_on)))
        assert made["failOn"] == fail_on
        assert all(item["fails"] == (item["level"] in levels) for item in made["findings"])
