"""``regwright pin`` as a user runs it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from jsonschema import Draft202012Validator

from regwright.cli import group

ROOT = Path(__file__).parents[2]
CHIP = str(ROOT / "descriptions" / "sorrel14.xml")


def run(*arguments: str) -> tuple[int, str, str]:
    result = CliRunner().invoke(group, ["pin", *arguments])
    return result.exit_code, result.stdout, result.stderr


def test_a_number_gives_the_bit() -> None:
    code, out, err = run(CHIP, "4")
    assert (code, err) == (0, "")
    assert out.startswith("sorrel14, DUAL20: pin 4, B2\n")
    assert "  OUT_B      bit 2, LED: status lamp\n" in out
    assert "B2 LED ▶ ─┤ 4" in out


def test_a_bit_gives_the_number() -> None:
    code, out, _ = run(CHIP, "OUT_B.2")
    assert code == 0
    assert out.startswith("sorrel14: bit 2 of port B\n  pin 4  B2 LED (DUAL20)\n")


def test_without_a_question_the_package_is_drawn() -> None:
    code, out, _ = run(CHIP)
    assert code == 0
    assert "RESET ─┤ 1         20 ├─ A0 ADC0" in out
    assert "Check pins against the datasheet" in out


@pytest.mark.parametrize("which", [(), ("4",), ("B.2",), ("VCC",)])
def test_the_json_is_as_its_schema_says(which: tuple[str, ...]) -> None:
    schema = json.loads((ROOT / "schemas" / "pins.schema.json").read_text())
    Draft202012Validator.check_schema(schema)
    code, out, _ = run(CHIP, *which, "--report", "json")
    data = json.loads(out)
    Draft202012Validator(schema).validate(data)
    assert code == 0
    assert len(data["pins"]) == (1 if which else 20)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((CHIP, "LDE"), "did you mean LED?"),
        ((CHIP, "OUT_B"), "OUT_B is several bits: ask for one of OUT_B.0, OUT_B.1, OUT_B.2, "),
        (
            (CHIP, "OUT_B.PULLS"),
            "PULLS is several bits: ask for one of OUT_B.3, OUT_B.4, OUT_B.5\n",
        ),
        ((CHIP, "B"), "B is several bits: ask for one of B.0, B.1, "),
        ((CHIP, "B.9"), "sorrel14 has no pin, bit or function 'B.9'; did you mean B."),
        ((CHIP, "4", "--package", "QUAD"), "has no package 'QUAD'; there is DUAL20"),
        ((str(ROOT / "descriptions" / "uart16550.xml"), "1"), "describes no package"),
        (("missing.xml", "1"), "cannot be read"),
    ],
)
def test_what_cannot_be_answered_ends_with_two(arguments: tuple[str, ...], words: str) -> None:
    code, out, err = run(*arguments)
    assert (code, out) == (2, "")
    assert words in err


def test_a_bit_without_a_pin_is_said(tmp_path: Path) -> None:
    text = (
        Path(CHIP)
        .read_text()
        .replace(
            '<pin number="8" name="B3" port="B.3"/>',
            '<pin number="8" name="NC" kind="unconnected"/>',
        )
    )
    (tmp_path / "chip.xml").write_text(text)
    code, out, _ = run(str(tmp_path / "chip.xml"), "B.3")
    assert code == 1
    assert "none: no package described has one for it" in out


def test_the_functions_of_upright_pins_stand_below() -> None:
    code, out, _ = run(str(ROOT / "descriptions" / "sorrel40.json"))
    assert code == 0
    below = out.partition("Functions of the pins that have only a name above\n")[2].splitlines()
    assert below[0] == "   9  A5  A.5 ADC5"
    assert "  30  C7  C.7 CLOCK_OUT" in below
    assert not any(line.split()[0] == "1" for line in below)  # at the left, where there is room
    assert "only a name above" not in run(CHIP)[1]  # two rows: all is said beside them


def test_help_says_what_the_exit_codes_mean() -> None:
    code, out, _ = run("--help")
    words = " ".join(out.split())
    assert code == 0
    assert "Exits with 0 when the pin was found or drawn, 1 when" in words
