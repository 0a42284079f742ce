"""``regwright compare --breaking`` as a user runs it, and what it says of each kind of change."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from conftest import DESCRIPTIONS, ROOT, Cli

SCHEMA = json.loads((ROOT / "schemas" / "breaking.schema.json").read_bytes())
Run = Callable[..., "list[str]"]
#: A description with one thing of each kind that makes macros, each on a line of its own.
START = """<chip format="1" name="pump"><space name="data" size="0x100"/>
<space name="io" size="0x40" pointer="false"/>
<window from="io" first="0x00" last="0x3F" into="data" offset="0x20"><singleBit first="0"
 last="0x1F"/></window>
<register name="DOOR" title="Which doors are open" address="io:0x18" reset="0x01">
<field name="LOCK" title="keeps all doors shut" bits="7:6"><value name="ALL" value="2"/></field>
<field name="BELL" title="rings the bell" bits="2"/>
<field name="JAM" title="a door is stuck" bits="0" modifiedWriteValue="oneToClear"/>
</register>
<register name="LEVEL" title="Level of the water" address="data:0x60" width="16">
<halves readFirst="low" writeFirst="high"><low name="LEVEL_LOW"/><high name="LEVEL_HIGH"/></halves>
</register>
</chip>
"""


@pytest.fixture
def run(cli: Cli, tmp_path: Path) -> Run:
    """Compare two descriptions, and hold the exit code against what is said."""

    def compare(old: str, new: str, *options: str) -> list[str]:
        (tmp_path / "old.xml").write_text(old)
        (tmp_path / "new.xml").write_text(new)
        done = cli("compare", "old.xml", "new.xml", "--breaking", *options)
        *lines, count = done.stdout.splitlines()
        assert count.startswith(f"{sum(': error: ' in line for line in lines)} breaking change")
        assert done.returncode == int(any(": error: " in line for line in lines)), done.stderr
        return lines

    return compare


def changed(old: str, new: str) -> str:
    assert START.count(old) == 1
    return START.replace(old, new)


#: An edit, and all that is said of it: in which file, at which text, and what.
Edit = tuple[str, str, list[tuple[str, str, str]]]
WINDOW = "\n".join(START.splitlines()[2:4])
REACH = "no window says any more which registers single-bit access reaches"
EDITS: dict[str, Edit] = {
    "nothing that the header has": ('title="rings the bell"', 'title="rings"', []),
    "value": (
        'value="2"',
        'value="3"',
        [("new", '3"', "DOOR_LOCK_ALL was 0x80 and is 0xC0 [macro-changed]")],
    ),
    "value renamed": (
        'name="ALL"',
        'name="EVERY"',
        [("old", '2"', "DOOR_LOCK_ALL is gone: it is called DOOR_LOCK_EVERY now [macro-gone]")],
    ),
    "value removed": (
        '<value name="ALL" value="2"/>',
        "",
        [("old", '2"', "DOOR_LOCK_ALL is gone: DOOR.LOCK has no such value any more [macro-gone]")],
    ),
    "field renamed": (
        'name="BELL"',
        'name="GONG"',
        [
            ("old", '2"', f"DOOR_BELL_{it} is gone; DOOR_GONG_{it} is probably meant [macro-gone]")
            for it in ("BITPOS", "MASK")
        ],
    ),
    "field renamed, with its old name": (
        'name="BELL"',
        'name="GONG" aliases="BELL"',
        [
            ("old", '2"', f"DOOR_BELL_{it} is gone: it is called DOOR_GONG_{it} now [macro-gone]")
            for it in ("BITPOS", "MASK")
        ],
    ),
    "field renamed and moved": (
        'name="BELL" title="rings the bell" bits="2"',
        'name="GONG" aliases="BELL" bits="3"',
        [
            (
                "old",
                '2"',
                "DOOR_BELL_BITPOS is gone: it is called DOOR_GONG_BITPOS now, which is 3 where "
                "this was 2 [macro-gone]",
            ),
            (
                "old",
                '2"',
                "DOOR_BELL_MASK is gone: it is called DOOR_GONG_MASK now, which is 0x08 where "
                "this was 0x04 [macro-gone]",
            ),
            # the plain bits that clearing the flag writes back: 7:6 and 2, then 7:6 and 3
            ("new", "oneTo", "DOOR_JAM_TO_CLEAR was …0xC4U… and is …0xC8U… [macro-changed]"),
        ],
    ),
    "field removed": (
        '<field name="BELL" title="rings the bell" bits="2"/>',
        "",
        [
            ("old", '2"', "DOOR_BELL_BITPOS is gone: DOOR has no BELL any more [macro-gone]"),
            ("old", '2"', "DOOR_BELL_MASK is gone: DOOR has no BELL any more [macro-gone]"),
            ("new", "oneTo", "DOOR_JAM_TO_CLEAR was …0xC4U… and is …0xC0U… [macro-changed]"),
        ],
    ),
    "field with one bit left": (
        'bits="7:6"><value name="ALL" value="2"/>',
        'bits="7"><value name="ALL" value="1"/>',
        [
            (
                "old",
                "7:6",
                f"DOOR_LOCK_{it} is gone: a single bit is left of the field [macro-gone]",
            )
            for it in ("EXTRACT", "INSERT")
        ]
        + [
            ("new", '7"', "DOOR_LOCK_BITPOS was 6 and is 7 [macro-changed]"),
            ("new", '7"', "DOOR_LOCK_MASK was 0xC0 and is 0x80 [macro-changed]"),
            ("new", "oneTo", "DOOR_JAM_TO_CLEAR was …0xC4U… and is …0x84U… [macro-changed]"),
        ],
    ),
    "a flag is one no more": (
        ' modifiedWriteValue="oneToClear"',
        "",
        [
            (
                "old",
                "oneTo",
                "DOOR_JAM_TO_CLEAR is gone: a write does not clear the field any more [macro-gone]",
            ),
            (
                "old",
                "oneTo",
                "DOOR_JAM_CLEAR is gone: C cannot clear the field by writing its register any "
                "more [macro-gone]",
            ),
        ],
    ),
    "the reset value is not said": (
        ' reset="0x01"',
        "",
        [("old", "0x01", "DOOR_RESET is gone: its reset value is not said any more [macro-gone]")],
    ),
    "the reset value leaves a bit open": (
        ' reset="0x01"',
        ' reset="0b0000_000x"',
        [("new", "0b0000", "DOOR_RESET was 0x01 and is 0x00 [macro-changed]")],
    ),
    "moved": (
        'address="io:0x18"',
        'address="io:0x2F"',
        [
            ("new", "io:", "DOOR_DATA_ADDR was 0x38 and is 0x4F [macro-changed]"),
            ("new", "io:", "DOOR_IO_ADDR was 0x18 and is 0x2F [macro-changed]"),
            ("new", "io:", "DOOR_SINGLE_BIT was 1 and is 0 [macro-changed]"),
        ],
    ),
    "out of the window": (
        'address="io:0x18"',
        'address="data:0x80"',
        [
            (
                "old",
                "io:",
                "DOOR_IO_ADDR is gone: it has no address in that space any more [macro-gone]",
            ),
            ("new", "data:", "DOOR_DATA_ADDR was 0x38 and is 0x80 [macro-changed]"),
            ("new", "data:", "DOOR_SINGLE_BIT was 1 and is 0 [macro-changed]"),
        ],
    ),
    "no window": (
        WINDOW + "\n",
        "",
        [
            ("old", "<register", "DOOR is gone: C pointers do not reach it in one access any more"),
            ("old", "io:", "DOOR_DATA_ADDR is gone: it has no address in that space any more"),
            ("old", "io:", f"DOOR_SINGLE_BIT is gone: {REACH} [macro-gone]"),
            ("old", "oneTo", "DOOR_JAM_CLEAR is gone: C cannot clear the field by writing"),
            ("old", "data:", f"LEVEL_SINGLE_BIT is gone: {REACH} [macro-gone]"),
            ("old", "<low", f"LEVEL_LOW_SINGLE_BIT is gone: {REACH} [macro-gone]"),
            ("old", "<high", f"LEVEL_HIGH_SINGLE_BIT is gone: {REACH} [macro-gone]"),
            # LEVEL and its halves are reached still, and nothing else with 8 bits
        ],
    ),
    "const": (
        'address="data:0x60" width="16"',
        'address="data:0x60" width="16" access="read-only"',
        [
            ("old", 'pump"', "PUMP_REG16 is gone: no register is accessed that way any more"),
            ("new", "read-only", "LEVEL can only be read now [macro-changed]"),
            ("new", "<low", "LEVEL_LOW can only be read now [macro-changed]"),
            ("new", "<high", "LEVEL_HIGH can only be read now [macro-changed]"),
        ],
    ),
    "halves in another order": (
        'readFirst="low"',
        'readFirst="high"',
        [("new", "<halves", "LEVEL_READ_INTO was …")],
    ),
    "halves in no order": (
        ' writeFirst="high"',
        "",
        [
            (
                "old",
                "<halves",
                "LEVEL_WRITE is gone: nothing says any more in which order its halves are written",
            )
        ],
    ),
    "another compiler": (
        'name="pump"',
        'name="pump" compilerMacro="PUMP_TARGET"',
        [
            (
                "new",
                'PUMP_TARGET"',
                "pump.h wants a compiler that defines PUMP_TARGET, before any would do "
                "[target-changed]",
            )
        ],
    ),
    "a device": (
        'name="pump"',
        'name="pump" kind="device"',
        [("old", 'pump"', "REGWRIGHT_CHIP is gone: the description is a device's now")],
    ),
    "the chip is renamed": (
        'name="pump"',
        'name="pump2"',
        [
            ("old", 'pump"', "PUMP_H is gone: it is called PUMP2_H now [macro-gone]"),
            ("old", 'pump"', "REGWRIGHT_CHIP_PUMP is gone: it is called REGWRIGHT_CHIP_PUMP2 now"),
            ("old", 'pump"', "PUMP_REG8 is gone: it is called PUMP2_REG8 now [macro-gone]"),
            ("old", 'pump"', "PUMP_REG16 is gone: it is called PUMP2_REG16 now [macro-gone]"),
            ("old", 'pump"', "pump.h is gone: the header is called pump2.h now [header-renamed]"),
        ],
    ),
}


@pytest.mark.parametrize("name", EDITS)
def test_what_is_said_of_an_edit(name: str, run: Run) -> None:
    before, after, wanted = EDITS[name]
    texts = {"old": START, "new": changed(before, after)}
    lines = run(texts["old"], texts["new"])
    print("\n".join(lines))
    said = []
    for line in lines:
        match = re.fullmatch(r"(old|new)\.xml:(\d+):(\d+): error: (.*)", line)
        assert match
        file, message = match[1], match[4]
        at = texts[file].splitlines()[int(match[2]) - 1][int(match[3]) - 1 :]
        found = [one for one in wanted if one[0] == file and message.startswith(one[2].rstrip("…"))]
        assert len(found) == 1, line
        assert at.startswith(found[0][1]), line
        said += found
    assert sorted(said) == sorted(wanted)


def test_verbose_lists_what_breaks_nobody(run: Run) -> None:
    new = changed("</register>\n</chip>", '</register><register name="NEW" address="0x70"/></chip>')
    assert run(START, new) == []
    lines = run(START, new, "--verbose")
    assert [line.split(": note: ")[1] for line in lines] == [
        "NEW is new [macro-added]",
        "NEW_DATA_ADDR is new: 0x70 [macro-added]",
        "NEW_SINGLE_BIT is new: 0 [macro-added]",
    ]


def test_what_means_the_same_is_a_note(run: Run) -> None:
    # with 9 to 12 bits a number has three digits, and the same C types as with 16
    old = changed('width="16"', 'width="10" reset="0x01"').replace(HALVES, "")
    new = changed('width="16"', 'width="16" reset="0x01"').replace(HALVES, "")
    (line,) = run(old, new, "--verbose")
    assert line.endswith(
        "note: LEVEL_RESET is written 0x0001U, no longer 0x001U, which means the same "
        "[macro-respelled]"
    )


HALVES = START.splitlines()[10] + "\n"


def test_the_count_is_always_printed(cli: Cli, run: Run) -> None:
    run(START, changed('value="2"', 'value="3"'))
    done = cli("compare", "old.xml", "new.xml", "--breaking", "--stat")
    assert (done.returncode, done.stdout) == (1, "1 breaking change, 0 additions, 0 respelled\n")
    done = cli("compare", "new.xml", "new.xml", "--breaking")
    assert (done.returncode, done.stdout) == (0, "0 breaking changes, 0 additions, 0 respelled\n")


def test_both_spellings_have_one_header(cli: Cli) -> None:
    cli("convert", DESCRIPTIONS / "sorrel14.xml", "sorrel14.json")
    done = cli("compare", DESCRIPTIONS / "sorrel14.xml", "sorrel14.json", "--breaking", "--verbose")
    assert (done.returncode, done.stdout) == (0, "0 breaking changes, 0 additions, 0 respelled\n")


def report(cli: Cli, *arguments: str | Path) -> dict[str, Any]:
    done = cli("compare", *arguments, "--breaking", "--report", "json")
    assert done.returncode in (0, 1)
    found: dict[str, Any] = json.loads(done.stdout)
    Draft202012Validator(SCHEMA).validate(found)
    return found


def test_the_schema_is_valid_closed_and_described() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == Draft202012Validator.META_SCHEMA["$id"]
    for name, part in SCHEMA["$defs"].items():
        assert len(part["description"]) > 5, name
        assert part["additionalProperties"] is False, name
        assert part["required"] == list(part["properties"]), name
        assert all(len(item["description"]) > 5 for item in part["properties"].values()), name


def test_json_has_every_change(cli: Cli, run: Run) -> None:
    lines = run(START, changed('name="BELL"', 'name="GONG"'), "--verbose")
    found = report(cli, "old.xml", "new.xml")
    assert found["old"] == {"file": "old.xml", "chip": "pump"}
    assert found["counts"] == {"breaking": 2, "added": 2, "respelled": 0}
    levels = {True: "error", False: "note"}
    assert lines == [
        f"{one['file']}:{one['line']}:{one['column']}: {levels[one['breaks']]}: {one['message']} "
        f"[{one['kind']}]"
        for one in found["changes"]
    ]
    gone, _, added, _ = found["changes"]
    assert (gone["before"], gone["after"], gone["instead"]) == ("2U", None, "DOOR_GONG_BITPOS")
    assert (added["before"], added["after"], added["instead"]) == (None, "2U", None)


@pytest.mark.parametrize("other", ["sorrel40.json", "uart16550.xml", "sorrel32.xml"])
def test_json_keeps_to_the_schema(cli: Cli, other: str) -> None:
    found = report(cli, DESCRIPTIONS / "sorrel14.xml", DESCRIPTIONS / other)
    assert {one["kind"] for one in found["changes"]} >= {"macro-gone", "macro-added"}


def test_markdown_is_two_tables(cli: Cli, run: Run) -> None:
    run(START, changed('name="BELL"', 'name="GONG"'))
    done = cli("compare", "old.xml", "new.xml", "--breaking", "--report", "markdown")
    assert done.returncode == 1
    lines = done.stdout.splitlines()
    assert lines[0] == "# Changes of pump.h"
    assert lines[2] == "`old.xml` to `new.xml`: **2 breaking changes, 2 additions, 0 respelled.**"
    assert [line for line in lines if line.startswith("#")][1:] == [
        "## Breaks users",
        "## Breaks nobody",
    ]
    rows = [line for line in lines if line.startswith("| `")]
    assert len(rows) == 4
    assert all(row.count(" |") == 5 for row in rows)
    assert rows[0].startswith("| `DOOR_BELL_BITPOS` | `2U` | | is gone; DOOR\\_GONG\\_BITPOS is ")


def test_reports_into_files(cli: Cli, run: Run, tmp_path: Path) -> None:
    lines = run(START, changed('name="BELL"', 'name="GONG"'), "--verbose")
    options = ["--report", "text", "--output", "a.txt", "--report", "json", "--output", "b.json"]
    done = cli("compare", "old.xml", "new.xml", "--breaking", *options)
    assert (done.returncode, done.stdout) == (1, "")
    count = "2 breaking changes, 2 additions, 0 respelled"
    assert done.stderr == count + "\n"
    assert (tmp_path / "a.txt").read_text().splitlines() == [*lines, count]
    assert json.loads((tmp_path / "b.json").read_text())["counts"]["breaking"] == 2


def test_a_report_does_not_replace_a_description(cli: Cli, run: Run, tmp_path: Path) -> None:
    run(START, START)
    done = cli(
        *("compare", "old.xml", "new.xml", "--breaking"),
        *("--report", "json", "--output", tmp_path / "old.xml"),
    )
    assert done.returncode == 2
    assert "is a description, no place for a report" in done.stderr
    assert (tmp_path / "old.xml").read_text() == START


def test_the_user_says_what_is_what(cli: Cli, run: Run, tmp_path: Path) -> None:
    new = changed('name="BELL" title="rings the bell"', 'name="SIREN" title="howls"')
    run(START, new.replace('bits="2"', 'bits="5"'))
    lost = report(cli, "old.xml", "new.xml")["changes"][0]
    assert (lost["name"], lost["instead"]) == ("DOOR_BELL_BITPOS", None)
    match = tmp_path / "match.json"
    match.write_text('{"format": 1, "matches": [{"a": "DOOR.BELL", "b": "DOOR.SIREN"}]}')
    told = report(cli, "old.xml", "new.xml", "--match", match)["changes"][0]
    assert told["instead"] == "DOOR_SIREN_BITPOS"
    assert told["message"].startswith("DOOR_BELL_BITPOS is gone: it is called DOOR_SIREN_BITPOS")


def test_names_that_are_exchanged(cli: Cli, run: Run, tmp_path: Path) -> None:
    old = changed('name="BELL"', 'name="GONG"')
    run(
        old,
        old.replace("LEVEL_LOW", "X")
        .replace("LEVEL_HIGH", "LEVEL_LOW")
        .replace('"X"', '"LEVEL_HIGH"'),
    )
    (tmp_path / "match.json").write_text(
        '{"format": 1, "matches": [{"a": "LEVEL_LOW", "b": "LEVEL_HIGH"},'
        ' {"a": "LEVEL_HIGH", "b": "LEVEL_LOW"}]}'
    )
    found = report(cli, "old.xml", "new.xml", "--match", "match.json")
    messages = [one["message"] for one in found["changes"]]
    assert (
        "LEVEL_LOW_DATA_ADDR was 0x60 and is 0x61; what it named is called LEVEL_HIGH_DATA_ADDR now"
        in messages
    )


def test_how_sure_it_is_what_a_thing_is_called_now(run: Run) -> None:
    words = {
        'name="DOOR" title="Which doors are open"': 'name="GATE" aliases="DOOR"',  # surely
        'name="LEVEL" title="Level of the water"': 'name="DEPTH" title="Level of the water"',
    }
    new = START
    for before, after in words.items():
        new = new.replace(before, after)
    lines = "\n".join(run(START, new))
    assert "DOOR_DATA_ADDR is gone: it is called GATE_DATA_ADDR now [" in lines
    # a field is no surer than its register
    assert "DOOR_BELL_MASK is gone: it is called GATE_BELL_MASK now [" in lines
    assert "LEVEL_DATA_ADDR is gone; DEPTH_DATA_ADDR is probably meant [" in lines
    new = START.replace('name="DOOR" title="Which doors are open"', 'name="GATE"')
    lines = "\n".join(run(START, new))
    assert "DOOR_DATA_ADDR is gone; GATE_DATA_ADDR may be meant [" in lines
    assert "DOOR_BELL_MASK is gone; GATE_BELL_MASK may be meant [" in lines


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (["--breaking", "--report", "html"], "is there as text, markdown, json, not as html"),
        (["--breaking", "--only", "fields"], "not --only"),
        (["--breaking", "--ignore", "fields"], "not --ignore"),
        (["--breaking", "--write-match", "m.json"], "not --write-match"),
        (["--verbose"], "--verbose is for --breaking"),
        (["--breaking", "--stat", "--report", "json"], "--stat"),
    ],
)
def test_options_that_do_not_go_together(cli: Cli, run: Run, options: list[str], says: str) -> None:
    run(START, START)
    done = cli("compare", "old.xml", "new.xml", *options)
    assert (done.returncode, done.stdout) == (2, "")
    assert says in " ".join(done.stderr.split())


def test_a_description_with_an_error_has_no_header(cli: Cli, run: Run, tmp_path: Path) -> None:
    run(START, START)
    (tmp_path / "new.xml").write_text(changed('address="data:0x60"', 'address="data:0x100"'))
    done = cli("compare", "old.xml", "new.xml", "--breaking")
    assert (done.returncode, done.stdout) == (2, "")
    assert "new.xml: correct this description first" in done.stderr
    done = cli("compare", "old.xml", "gone.xml", "--breaking")
    assert (done.returncode, done.stdout) == (2, "")
