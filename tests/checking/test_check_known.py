"""``--known`` and ``--write-known``: only new findings are reported."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from conftest import ROOT, Cli

WRONG = ' reset="0x1FF"'
XML = """<chip format="1" name="{}"><space name="data" size="0x100"/>
<register name="A" address="0x10" reset="0x1FF"/>
</chip>
"""
JSON = """{{"format": 1, "name": "{}", "spaces": [{{"name": "data", "size": "0x100"}}],
"registers": [{{"name": "A", "address": "0x10", "reset": "0x1FF"}}]}}
"""
SCHEMA = json.loads((ROOT / "schemas" / "known.schema.json").read_bytes())


@pytest.fixture
def folder(cli: Cli, tmp_path: Path) -> Path:
    """Return a folder with two descriptions and their findings in ``known.json``."""
    (tmp_path / "chips").mkdir()
    (tmp_path / "chips" / "one.xml").write_text(XML.format("one"))
    (tmp_path / "chips" / "two.json").write_text(JSON.format("two"))
    done = cli("check", "chips", "--write-known", "known.json")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.splitlines()[-1] == "2 descriptions, 2 errors; known.json accepts them"
    return tmp_path


@pytest.mark.usefixtures("folder")
def test_what_is_known_is_not_reported(cli: Cli) -> None:
    done = cli("check", "chips", "--known", "known.json")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == "2 descriptions, no findings\n"
    assert cli("check", "chips").returncode == 1


def test_the_file_is_as_its_schema_says(folder: Path) -> None:
    text = (folder / "known.json").read_text()
    data = json.loads(text)
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    jsonschema.Draft202012Validator(SCHEMA).validate(data)
    assert [(item["file"], item["rule"], item["count"]) for item in data["findings"]] == [
        ("chips/one.xml", "reset-does-not-fit", 1),
        ("chips/two.json", "reset-does-not-fit", 1),
    ]
    assert str(folder) not in text
    assert text.endswith("}\n")


def test_it_is_the_same_however_the_files_are_named(cli: Cli, folder: Path) -> None:
    before = (folder / "known.json").read_bytes()
    for names in (["chips/two.json", "./chips/../chips/one.xml"], [folder / "chips"]):
        cli("check", *names, "--write-known", "again.json")
        assert (folder / "again.json").read_bytes() == before
    done = cli("check", folder / "chips", "--known", "known.json", "--jobs", "2")
    assert (done.returncode, done.stderr) == (0, "")


def test_lines_may_move(cli: Cli, folder: Path) -> None:
    path = folder / "chips" / "one.xml"
    path.write_text(path.read_text().replace("<register", "\n\n<!-- moved -->\n    <register"))
    assert cli("check", "chips", "--known", "known.json").returncode == 0


@pytest.mark.parametrize(
    ("name", "more", "place"),
    [
        ("one.xml", '<register name="B" address="0x11" reset="0x2FF"/>\n</chip>', "3:42"),
        ("two.json", ',\n{"name": "B", "address": "0x11", "reset": "0x2FF"}]}', "3:43"),
    ],
)
def test_what_is_new_is_reported(cli: Cli, folder: Path, name: str, more: str, place: str) -> None:
    path = folder / "chips" / name
    end = "</chip>" if name.endswith("xml") else "]}"
    path.write_text(path.read_text().replace(end, more))
    done = cli("check", "chips", "--known", "known.json")
    assert done.returncode == 1
    lines = done.stdout.splitlines()
    assert len(lines) == 2
    assert lines[0].startswith(f"chips/{name}:{place}: error: B has the reset value 0x2FF")
    assert lines[1] == "2 descriptions, 1 error"


def test_a_second_one_of_the_same_is_new(cli: Cli, folder: Path) -> None:
    path = folder / "chips" / "one.xml"
    same = '<register name="A" address="0x10" reset="0x1FF"/>\n'
    path.write_text(path.read_text().replace(same, same + same))
    done = cli("check", "chips", "--known", "known.json")
    assert "chips/one.xml:3:42: error: A has the reset value" in done.stdout
    assert "one.xml:2:42" not in done.stdout
    cli("check", "chips", "--write-known", "known.json")
    counts = [item["count"] for item in json.loads((folder / "known.json").read_text())["findings"]]
    assert 2 in counts
    path.write_text(XML.format("one"))
    done = cli("check", "chips", "--known", "known.json")
    assert done.returncode == 0
    assert (
        "regwright: known finding: chips/one.xml: only 1 of 2 are found now: A has" in done.stderr
    )


def test_what_matches_nothing_is_told(cli: Cli, folder: Path) -> None:
    (folder / "chips" / "one.xml").write_text(XML.format("one").replace(WRONG, ""))
    done = cli("check", "chips", "--known", "known.json")
    assert (done.returncode, done.stdout) == (0, "2 descriptions, no findings\n")
    assert done.stderr.startswith(
        "regwright: known finding: chips/one.xml: is found no more: A has the reset value 0x1FF"
    )
    assert done.stderr.count("\n") == 1
    # nobody looked at the other file
    assert cli("check", "chips/two.json", "--known", "known.json").stderr == ""
    (folder / "chips" / "one.xml").unlink()
    done = cli("check", "chips/two.json", "--known", "known.json")
    assert "chips/one.xml: is found no more" in done.stderr


def test_nothing_is_accepted_when_something_could_not_be_read(cli: Cli, folder: Path) -> None:
    done = cli("check", "chips", "gone.xml", "--write-known", "new.json")
    assert done.returncode == 2
    assert not (folder / "new.json").exists()


BROKEN = {
    "gone": (None, "broken.json: cannot be read: No such file"),
    "no json": ("{", "broken.json:1:2: error: no JSON: expecting property name"),
    "other json": ("[]", "broken.json: is no file of known findings"),
    "newer": ('{"format": 2, "findings": []}', "has the format 2, and only 1 is known here"),
    "no list": ('{"format": 1, "findings": {}}', "holds a format and a list of findings"),
    "more": ('{"format": 1, "findings": [], "x": 1}', "holds a format and a list of findings"),
    "entry": ('{"format": 1, "findings": [{"file": "a"}]}', "entry 1 of findings must have a file"),
    "count": (
        '{"format": 1, "findings": [{"file": "a", "rule": "b", "message": "c", "count": true}]}',
        "entry 1 of findings must have",
    ),
    "deep": ("[" * 100000, "is no file of known findings"),
}


@pytest.mark.parametrize("case", BROKEN.values(), ids=BROKEN.keys())
def test_a_file_that_is_none(cli: Cli, tmp_path: Path, case: tuple[str | None, str]) -> None:
    text, message = case
    (tmp_path / "one.xml").write_text(XML.format("one"))
    if text is not None:
        (tmp_path / "broken.json").write_text(text)
        if text[-1] == "}":
            assert not jsonschema.Draft202012Validator(SCHEMA).is_valid(json.loads(text))
    done = cli("check", "one.xml", "--known", "broken.json")
    assert (done.returncode, done.stdout) == (2, "")
    assert message in done.stderr


def test_a_description_is_not_written_over(cli: Cli, folder: Path) -> None:
    done = cli("check", "chips", "--write-known", "./chips/one.xml")
    assert done.returncode == 2
    assert "is a description, no place for a report" in done.stderr
    assert (folder / "chips" / "one.xml").read_text() == XML.format("one")
