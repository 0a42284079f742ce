"""``regwright import`` and ``export`` as a user runs them; what they read is tested elsewhere."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from regwright.cli import group
from regwright.cli.imports import _FORMS, _LAYOUTS
from regwright.importing.oddities import ODDITIES
from regwright.importing.tables.reading import FORMS
from regwright.importing.tables.recognise import LAYOUTS

ROOT = Path(__file__).parents[2]
TABLE = """Address,Name,Bit 7,Bit 6,Bit 5,Bit 4,Bit 3,Bit 2,Bit 1,Bit 0,Page
0x19 (0x39),CTRL_A,EN,IE,-,-,-,-,-,INV,11
0x18 (0x38),OUT_A,OA7,OA6,OA5,OA4,OA3,OA2,OA1,OA0,10
"""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "table.csv").write_text(TABLE)
    return tmp_path


def run(*arguments: str, stdin: str = "") -> Result:
    return CliRunner().invoke(group, arguments, input=stdin)


def table(*arguments: str, stdin: str = "") -> Result:
    return run("import", "table", "table.csv", "--chip", "lamp", *arguments, stdin=stdin)


@pytest.mark.usefixtures("folder")
def test_without_a_target_the_description_is_printed() -> None:
    result = table()
    assert result.exit_code == 0
    assert [item["name"] for item in json.loads(result.stdout)["registers"]] == ["CTRL_A", "OUT_A"]
    assert "the address in parentheses is the data address" in result.stderr


@pytest.mark.parametrize("ending", ["json", "xml"])
def test_a_description_is_written_and_checks(folder: Path, ending: str) -> None:
    result = table("-o", f"lamp.{ending}")
    assert (result.exit_code, result.stdout) == (0, "")
    assert "2 registers described" in result.stderr
    assert run("check", f"lamp.{ending}", "--fail-on", "error").exit_code == 0
    before = (folder / f"lamp.{ending}").stat()
    assert table("-o", f"lamp.{ending}").exit_code == 0, "what is the same may be written again"
    assert (folder / f"lamp.{ending}").stat().st_mtime_ns == before.st_mtime_ns


def test_a_description_with_other_words_is_not_replaced(folder: Path) -> None:
    (folder / "lamp.json").write_text("{}\n")
    result = table("-o", "lamp.json")
    assert result.exit_code == 2
    assert "--into lamp.json fills it, --force replaces it" in result.stderr
    assert (folder / "lamp.json").read_text() == "{}\n"
    assert table("-o", "lamp.json", "--force").exit_code == 0
    assert "CTRL_A" in (folder / "lamp.json").read_text()


def test_an_edit_by_hand_stays_and_is_a_conflict(folder: Path) -> None:
    table("-o", "lamp.json")
    mine = (folder / "lamp.json").read_text().replace('"bits": "6"', '"bits": "5"')
    (folder / "lamp.json").write_text(mine)
    result = table("--into", "lamp.json")
    assert result.exit_code == 1
    assert "[import-conflict]" in result.stderr
    line = 1 + mine[: mine.index('"IE"')].count("\n")
    assert f"lamp.json:{line}:" in result.stderr
    assert (
        json.loads((folder / "lamp.json").read_text())["registers"][0]["fields"][1]["bits"] == "5"
    )


def test_into_fills_what_is_missing(folder: Path) -> None:
    table("-o", "lamp.xml")
    (folder / "table.csv").write_text(TABLE + "0x17 (0x37),IN_A,-,-,-,-,-,-,-,IA0,10\n")
    result = table("--into", "lamp.xml")
    assert result.exit_code == 0, result.stderr
    assert 'name="IN_A"' in (folder / "lamp.xml").read_text()
    again = (folder / "lamp.xml").read_bytes()
    assert "0 additions" in table("--into", "lamp.xml").stderr
    assert (folder / "lamp.xml").read_bytes() == again


def test_strict_writes_nothing(folder: Path) -> None:
    (folder / "table.csv").write_text(TABLE.replace("0x18 (0x38)", "0x1B (0x38)"))
    result = table("-o", "lamp.json", "--strict")
    assert result.exit_code == 1
    assert "error: " in result.stderr
    assert "nothing was written" in result.stderr
    assert not (folder / "lamp.json").exists()


@pytest.mark.parametrize("ending", ["txt", "json", "sarif", "md", "html", "xml"])
def test_remarks_are_written_in_every_form(folder: Path, ending: str) -> None:
    assert table("-o", "lamp.json", "--remarks", f"remarks.{ending}").exit_code == 0
    assert "addresses-inferred" in (folder / f"remarks.{ending}").read_text()


@pytest.mark.usefixtures("folder")
def test_echo_prints_the_table_again() -> None:
    result = table("--echo")
    assert result.exit_code == 0
    assert result.stdout == TABLE


@pytest.mark.usefixtures("folder")
@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("-o", "lamp.txt"), "the ending must be .json or .xml"),
        (("-o", "lamp.json", "--into", "other.json"), "choose one"),
        (("--remarks", "remarks"), "the ending must be one of .txt"),
        (("--window-offset", "20"), "0x20"),
        (("--into", "missing.json"), "cannot be read"),
        (("-o", "table.csv/lamp.json"), "table.csv"),
    ],
)
def test_what_cannot_run_ends_with_two(arguments: tuple[str, ...], words: str) -> None:
    result = table(*arguments)
    assert result.exit_code == 2
    assert words in result.stderr


def test_standard_input_is_read(folder: Path) -> None:  # noqa: ARG001
    result = run("import", "table", "-", "--chip", "lamp", "--form", "csv", stdin=TABLE)
    assert result.exit_code == 0
    assert json.loads(result.stdout)["name"] == "lamp"


def test_the_choices_are_those_of_the_importer() -> None:
    assert (_FORMS, _LAYOUTS) == (FORMS, LAYOUTS)


def test_every_remark_has_a_page() -> None:
    assert all(text.endswith(".") and len(text) > 20 for text in ODDITIES.values())


@pytest.mark.parametrize("edition", ["2014", "2022"])
@pytest.mark.parametrize("name", ["sorrel14.xml", "sorrel40.json"])
def test_out_and_in_again_is_the_same(folder: Path, edition: str, name: str) -> None:
    chip = str(ROOT / "descriptions" / name)
    result = run("export", "ieee1685", chip, "--edition", edition, "-o", "component.xml")
    assert (result.exit_code, result.stdout) == (0, "")
    result = run("import", "ieee1685", "component.xml", "-o", "again.json")
    assert result.exit_code == 0, result.stderr
    compared = run("compare", chip, "again.json")
    assert compared.exit_code == 0, compared.stdout
    for form in (chip, "again.json"):
        assert run("emit", form, "--to", str(folder / Path(form).stem)).exit_code in (0, 1)
    one = (folder / Path(chip).stem / f"{Path(chip).stem}.h").read_text()
    other = (folder / "again" / f"{Path(chip).stem}.h").read_text()
    assert one.replace(name, "again.json") == other


def test_a_description_with_an_error_is_not_exported(folder: Path) -> None:
    text = (ROOT / "descriptions" / "sorrel14.xml").read_text()
    (folder / "chip.xml").write_text(text.replace("io:0x15 data:0x35", "io:0x15 data:0x15"))
    result = run("export", "ieee1685", "chip.xml")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "correct this description first" in result.stderr


def test_an_export_does_not_write_over_its_description(folder: Path) -> None:
    text = (ROOT / "descriptions" / "sorrel14.xml").read_bytes()
    (folder / "chip.xml").write_bytes(text)
    result = run("export", "ieee1685", "chip.xml", "-o", "./chip.xml")
    assert result.exit_code == 2
    assert "is a description" in result.stderr
    assert (folder / "chip.xml").read_bytes() == text
