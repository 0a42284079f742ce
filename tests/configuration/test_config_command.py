"""``regwright config`` as a user runs it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from config_runs import config, value_of
from jsonschema import Draft202012Validator
from lamp_chip import lamp_file, lamp_tree

from conftest import DESCRIPTIONS, ROOT, Cli
from regwright.cli.config import REPORT_NAMES
from regwright.reports.configuration import CAUTION, FORMS

SCHEMA = json.loads((ROOT / "schemas" / "configuration.schema.json").read_bytes())


@pytest.fixture
def lamp8(tmp_path: Path) -> Path:
    return lamp_file(tmp_path)


def test_clearing_the_divider_alone(lamp8: Path) -> None:
    """0x62 becomes 0xE2: common practice, no source."""
    done = config(lamp8, "low=0x62", "--set", "clock-divider=off")
    assert done.exit_code == 0
    assert value_of(done, "low") == "0xE2"
    assert "  clock-divider  divide-by-8 → off  low bit 7: 0 → 1" in done.stdout.splitlines()
    assert "low   0xE2   0xFF                 0x1D           was 0x62\n" in done.stdout
    unchanged = "high  0xDF   0xFF                 0x20           unchanged, assumed as delivered"
    assert unchanged in done.stdout
    assert CAUTION in done.stdout
    assert done.stderr == ""


def test_each_bit_in_words(lamp8: Path) -> None:
    done = config(lamp8)
    lines = [" ".join(line.split()) for line in done.stdout.splitlines()]
    assert done.exit_code == 0
    assert "low 0x62 0b0110_0010 at 0x00, Low byte, page 148" in lines
    assert "6 1 SHOW clock-output = unprogrammed default unprogrammed" in lines
    assert "3:0 0010 WHICH clock-source = oscillator default bits 3:2,0 programmed" in lines
    assert "4,2:1 111 LEVEL supply-watch = 0x07 default all unprogrammed" in lines
    assert "3 1 unused, must be 1 kept for tests" in lines
    assert "3 1 not described" in lines
    assert "0 1 KEEP keep-memory = programmed default programmed" in lines  # 1 is programmed
    assert "when serial-programming = unprogrammed and debugger = unprogrammed" in lines
    # bits from the high end
    starts = [line.split()[0] for line in lines[lines.index(lines[2]) + 1 :][:4]]
    assert starts == ["7", "6", "5:4", "3:0"]


def test_given_bytes_are_decoded(lamp8: Path) -> None:
    done = config(lamp8, "low=0b1110_0010")
    assert done.exit_code == 0
    assert "lamp8: configuration as given, high, lock as delivered" in done.stdout
    assert "clock-divider = off              default divide-by-8" in done.stdout


def test_bytes_that_cannot_be_right(lamp8: Path) -> None:
    done = config(lamp8, "low=0x72", "high=0xD7")
    assert done.exit_code == 1
    assert "start-up = 0b11, no meaning" in done.stdout
    assert "low: start-up has the value 0b11 in 0x72, which has no meaning; choose" in done.stdout
    assert "high: bit 3 of 0xD7 must be 1; unused bits are to be as they are in 0xDF" in done.stdout


def test_nothing_is_computed_from_bytes_that_cannot_be_right(lamp8: Path) -> None:
    done = config(lamp8, "high=0xD7", "--set", "clock-divider=off")
    assert (done.exit_code, done.stdout) == (1, "")
    assert "high: bit 3 of 0xD7 must be 1" in done.stderr
    mended = config(lamp8, "low=0x72", "--set", "start-up=slow")
    assert (mended.exit_code, value_of(mended, "low")) == (0, "0x62")


def test_a_hazard_is_refused_until_it_is_accepted(lamp8: Path) -> None:
    wanted = [lamp8, "--set", "reset-pin=port"]
    refused = config(*wanted)
    assert (refused.exit_code, refused.stdout) == (1, "")
    for words in ("reset-pin = port has the hazard no-reset", "Only a high voltage", CAUTION):
        assert words in refused.stderr
    assert "add --accept no-reset" in refused.stderr
    other = config(*wanted, "--accept", "needs-crystal")
    assert (other.exit_code, other.stdout) == (1, "")
    accepted = config(*wanted, "--accept", "no-reset")
    assert (accepted.exit_code, value_of(accepted, "high")) == (0, "0x5F")
    assert "no-reset (accepted): reset-pin = port." in accepted.stdout


def test_a_refusal_writes_no_file(lamp8: Path, tmp_path: Path) -> None:
    report = tmp_path / "report.json"
    done = config(lamp8, "--set", "reset-pin=port", "--report", "json", "--output", report)
    assert (done.exit_code, report.exists()) == (1, False)


def test_settings_that_are_dangerous_together(lamp8: Path) -> None:
    """The debugger is off as delivered; with serial programming off nothing is left."""
    done = config(lamp8, "--set", "serial-programming=unprogrammed")
    assert done.exit_code == 1
    assert (
        "serial-programming = unprogrammed and debugger = unprogrammed has the hazard no-way-in"
        in done.stderr
    )
    both = ["--set", "serial-programming=unprogrammed", "--set", "debugger=programmed"]
    assert config(lamp8, *both).exit_code == 0


def test_a_hazard_that_was_there_is_told_and_not_refused(lamp8: Path) -> None:
    done = config(lamp8, "low=0x6F", "--set", "clock-divider=off")
    assert (done.exit_code, value_of(done, "low")) == (0, "0xEF")
    assert "needs-crystal (there already): clock-source = crystal." in done.stdout
    # another cause of the same hazard is new
    tree = lamp_tree()
    tree["configuration"]["words"][0]["fields"][0]["choices"][1]["hazards"] = "needs-crystal"
    lamp_file(lamp8.parent, tree)
    assert config(lamp8, "low=0x6F", "--set", "clock-divider=off").exit_code == 1


def test_hazards_accepted_in_vain(lamp8: Path) -> None:
    done = config(lamp8, "low=0x6F", "--accept", "needs-crystal", "--accept", "no-reset")
    assert done.exit_code == 0
    assert "--accept needs-crystal was not needed: these bytes had it before" in done.stderr
    assert "--accept no-reset was not needed: these bytes do not have it" in done.stderr


def test_lock_bits_warn(lamp8: Path) -> None:
    done = config(lamp8, "--set", "read-back=programmed", "--accept", "closed")
    assert done.exit_code == 0
    assert "bit 0 locks: only an erase of the whole chip sets that back" in done.stdout
    back = config(lamp8, "lock=0xFE", "--set", "read-back=unprogrammed")
    assert "bit 0 unlocks with an erase of the whole chip only" in back.stdout


def test_what_is_there_already_changes_nothing(lamp8: Path) -> None:
    done = config(lamp8, "--set", "clock-divider=divide-by-8")
    assert done.exit_code == 0
    assert "Nothing changes" in done.stdout
    assert value_of(done, "low") == "0x62"


def test_a_number_is_set(lamp8: Path) -> None:
    done = config(lamp8, "--set", "supply-watch=0b101", "--set", "supply-watch=0x5")
    assert (done.exit_code, value_of(done, "high")) == (0, "0xDB")
    assert "supply-watch  0x07 → 0x05  high bit 2: 1 → 0" in done.stdout


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["low=24"], "Was 0x24 or 0d24 meant?"),
        (["low=62h"], "Was 0x62 meant?"),
        (["low=0x162"], "0x162 does not fit into low, which has 8 bits"),
        (["lw=0x62"], "did you mean low? There are low, high, lock"),
        (["clock-divider=off"], "it is a setting, give --set clock-divider=CHOICE"),
        (["low"], "'low' is not WORD=VALUE, as low=0x62"),
        (["low="], "'low=' is not WORD=VALUE"),
        (["low=0x62", "low=0xE2"], "low is given twice, and not alike"),
        (["--set", "clok-divider=off"], "did you mean clock-divider? There are clock-divider, "),
        (["--set", "low=0x62"], "it is a word, give low=VALUE without --set"),
        (["--set", "clock-divider=of"], "did you mean off? There are divide-by-8, off"),
        (["--set", "clock-divider"], "'clock-divider' is not SETTING=CHOICE"),
        (["--set", "clock-divider=off", "--set", "clock-divider=divide-by-8"], "is set twice"),
        (["--set", "supply-watch=5x"], "supply-watch: '5x' is no number"),
        (["--set", "supply-watch=0d8"], "0d8 does not fit into the 3 bits of supply-watch"),
        (["--accept", "no-rest"], "did you mean no-reset? There are needs-crystal, "),
        (["low=\x1b[2J"], r"low: '\x1b[2J' is no number"),
        (["low=0x" + "1" * 99], "is no number"),
        (["--report", "json", "--report", "text"], "only one report can go to standard output"),
    ],
)
def test_what_is_not_understood(lamp8: Path, arguments: list[str], expected: str) -> None:
    done = config(lamp8, *arguments)
    assert (done.exit_code, done.stdout) == (2, "")
    assert expected in done.stderr


def test_the_same_word_and_setting_twice(lamp8: Path) -> None:
    twice = ["low=0x62", "low=0b0110_0010", *["--set", "clock-divider = off"] * 2]
    assert value_of(config(lamp8, *twice), "low") == "0xE2"


def test_descriptions_that_do_not_do(tmp_path: Path, cli: Cli) -> None:
    tree = lamp_tree()
    del tree["configuration"]
    lamp_file(tmp_path, tree)
    without = cli("config", "lamp8.json")
    assert (without.returncode, without.stdout) == (2, "")
    assert "lamp8.json: describes no configuration bytes" in without.stderr
    lamp_file(tmp_path, {**lamp_tree(), "name": 7})
    wrong = cli("config", "lamp8.json")
    assert (wrong.returncode, wrong.stdout) == (2, "")
    assert "[schema]" in wrong.stderr
    assert "correct this description first; nothing was computed" in wrong.stderr
    assert cli("config", "missing.json").returncode == 2
    assert cli("config", ".").returncode == 2
    (tmp_path / "regwright.toml").write_text("levels = 1\n")
    assert "regwright.toml" in cli("config", DESCRIPTIONS / "sorrel14.xml").stderr


def test_json_follows_its_schema(lamp8: Path) -> None:
    validator = Draft202012Validator(SCHEMA)
    Draft202012Validator.check_schema(SCHEMA)
    wanted = ["low=0x62", "--set", "clock-source=crystal", "--accept", "needs-crystal"]
    data = json.loads(config(lamp8, *wanted, "--report", "json").stdout)
    validator.validate(data)
    low = data["words"][0]
    assert (low["value"], low["before"], low["inverted"]) == ("0x6F", "0x62", "0x90")
    assert (low["given"], data["words"][1]["given"], data["computed"]) == (True, False, True)
    assert [item["assumed"] for item in data["words"]] == [False, True, True]
    assert data["words"][2]["verifyMask"] == "0xF1"
    assert data["words"][2]["undescribed"] == "0x0A"
    assert data["changes"] == [
        {
            "setting": "clock-source",
            "word": "low",
            "before": "oscillator",
            "after": "crystal",
            "bits": [{"bit": 3, "before": 0, "after": 1}, *_ones(2), *_ones(0)],
        }
    ]
    states = {item["name"]: item["state"] for item in data["hazards"]}
    assert states["needs-crystal"] == "accepted"
    assert set(states.values()) == {"accepted", "absent"}
    bad = json.loads(config(lamp8, "low=0x72", "--report", "json").stdout)
    validator.validate(bad)
    assert [item["setting"] for item in bad["problems"]] == ["start-up"]


def _ones(bit: int) -> list[dict[str, int]]:
    return [{"bit": bit, "before": 0, "after": 1}]


def test_the_schema_refuses_what_is_not_so(lamp8: Path) -> None:
    data = json.loads(config(lamp8, "--report", "json").stdout)
    validator = Draft202012Validator(SCHEMA)
    data["words"][0]["value"] = 98
    data["hazards"][0]["state"] = "refused"
    data["more"] = 1
    assert len(list(validator.iter_errors(data))) == 3


def test_markdown(lamp8: Path) -> None:
    done = config(lamp8, "--set", "clock-divider=off", "--report", "markdown")
    lines = done.stdout.splitlines()
    assert "| `clock-divider` | `divide-by-8` | `off` | `low` | 7: 0 → 1 |" in lines
    assert (
        "| `low` | `0xE2` | `0b1110_0010` | `0xFF` | `0x1D` | `0x62`, assumed as delivered |"
        in lines
    )
    assert lines[2].startswith("**Caution.** Wrong bytes")
    columns = {line.count("|") for line in lines if line.startswith("| `low`")}
    assert columns == {7}


def test_reports_into_files(lamp8: Path, tmp_path: Path) -> None:
    names = [tmp_path / f"report.{name}" for name in ("txt", "md", "json")]
    wanted = []
    for form, file in zip(("text", "markdown", "json"), names, strict=True):
        wanted += ["--report", form, "--output", file]
    done = config(lamp8, "--set", "clock-divider=off", *wanted)
    assert (done.exit_code, done.stdout) == (0, "")
    assert all("0xE2" in file.read_text(encoding="utf-8") for file in names)
    over = config(lamp8, "--report", "json", "--output", lamp8)
    assert over.exit_code == 2
    assert "is a description, no place for a report" in over.stderr


def test_hostile_texts_stay_in_their_place(tmp_path: Path) -> None:
    tree = lamp_tree()
    evil = "a\u202eb | `x` <script> [y](https://elsewhere.example/)\u009b2J"
    tree["configuration"]["words"][0]["title"] = evil
    for item in (*tree["configuration"]["hazards"], *tree["configuration"]["words"][0]["fields"]):
        item["title"] = evil
    tree["configuration"]["words"][0]["fields"][0]["name"] = evil
    path = lamp_file(tmp_path, tree)
    for form in FORMS:
        done = config(path, "--report", form, "--set", "reset-pin=port", "--accept", "no-reset")
        assert done.exit_code == 0
        if form != "json":
            assert "\u202e" not in done.stdout
            assert "\x9b" not in done.stdout
    shown = config(path, "--report", "markdown").stdout
    assert "<script>" not in shown.replace(
        "`a b ¦ 'x' <script> [y](https://elsewhere.example/) 2J`", ""
    )


def test_a_field_that_does_not_fit_is_no_traceback(tmp_path: Path) -> None:
    tree = lamp_tree()
    fields = tree["configuration"]["words"][0]["fields"]
    fields[0]["bits"] = 9
    fields[1]["choices"] = [{"name": "wide", "value": "0x12"}, {"name": "narrow", "value": 1}]
    path = lamp_file(tmp_path, tree)
    for wanted in ("clock-divider=off", "clock-output=wide"):
        for more in ([], ["--set", wanted]):
            assert config(path, *more).exit_code in (0, 1, 2)
        assert config(path, "--set", wanted).exit_code == 2


def test_names_of_the_forms() -> None:
    assert tuple(FORMS) == REPORT_NAMES


def test_help_names_the_cautions(cli: Cli) -> None:
    shown = cli("config", "--help").stdout
    assert "Wrong bytes can make the chip unreachable" in " ".join(shown.split())
    assert "--accept HAZARD" in shown
    assert "config" in cli("--help").stdout
