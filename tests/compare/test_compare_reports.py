"""Each form of a comparison: complete, in its own format, and never taken in by what it shows."""

from __future__ import annotations

import json
import re
from collections.abc import Callable

import pytest
from compare_runs import (
    ROOT,
    compared,
    example,
    examples,
    hostile,
    pump_old,
    pumps,
    source,
)
from jsonschema import Draft202012Validator

from regwright.compare import pairs
from regwright.compare.changes import CATEGORIES, KINDS, category
from regwright.model.words import visible
from regwright.reports.compare_forms import FORMS
from regwright.reports.compare_text import terminal_lines
from regwright.reports.compared import Compared, chosen

SCHEMA = json.loads((ROOT / "schemas" / "compare.schema.json").read_bytes())
RUNS: dict[str, Callable[[], Compared]] = {"sorrels": examples, "pumps": pumps, "hostile": hostile}


@pytest.fixture(params=RUNS)
def run(request: pytest.FixtureRequest) -> Compared:
    return RUNS[request.param]()


def terminal(run: Compared, width: int = 80) -> list[str]:
    return ["".join(piece.text for piece in line) for line in terminal_lines(run, width)]


def one_line(text: str) -> str:
    return " ".join(text.split())


# What is reported.


def test_each_change_stands_once_in_the_outline(run: Compared) -> None:
    assert sorted(map(id, run.outline.in_order)) == sorted(map(id, run.changes))


def test_a_pipe_gets_a_line_for_each_change(run: Compared) -> None:
    *lines, last = FORMS["text"](run).splitlines()
    assert last == run.stat
    expected = []
    for item in run.outline.in_order:
        before, after = run.words.sides(item)
        words = run.words.doubt(item)
        tail = f" ({words})" if words else ""
        name, what = run.words.name(item), run.words.what(item)
        expected.append(one_line(visible(f"{name} {what} {before} → {after}{tail}")))
    assert [one_line(line) for line in lines] == expected


@pytest.mark.parametrize("width", [40, 80, 120])
def test_a_terminal_gets_lines_that_fit(width: int) -> None:
    lines = terminal(examples(), width)
    assert max(map(len, lines)) <= width
    assert one_line(" ".join(lines[-6:])).endswith(examples().stat)


def test_a_terminal_is_told_each_change_of_each_register() -> None:
    """Registers whose changes are the same share them; all are named above."""
    run = examples()
    blocks = [one_line(block) for block in "\n".join(terminal(run, 400)).split("\n\n")]
    for section in run.outline.both:
        names = ", ".join(pair.a.name for pair in section.pairs if pair.a)
        block = next(block for block in blocks if block.startswith(names))
        for item in section.own[0]:
            part = run.words.name(item).partition(".")[2]
            before, after = run.words.sides(item)
            row = f"{part} {run.words.what(item)} {before} → {after}".strip()
            assert row in block
    for item in (*run.outline.chip, *run.outline.documentation):
        before, after = run.words.sides(item)
        row = one_line(f"{run.words.name(item)} {run.words.what(item)} {before} → {after}")
        assert any(row in block for block in blocks)


def test_a_row_is_shown_once_on_a_terminal() -> None:
    """Worked out by hand from the two pumps: ROW0 to ROW11 moved from 0x100 to 0x140."""
    lines = terminal(pumps(), 100)
    start = lines.index("ROW0 … ROW11  12 registers")
    assert [one_line(line) for line in lines[start + 1 : start + 5]] == [
        "data address 0x100 → 0x140 (all 0x40 higher)",
        "LEVEL when written as written → cleared by writing 1",
        "LEVEL bits 3:0 → 4:0",
        "LEVEL width 4 bits → 5 bits",
    ]
    assert sum("LEVEL" in line for line in lines) == 3


def test_the_parts_come_in_their_order() -> None:
    """The chip, registers of both, those of one chip, and what no program sees last."""
    lines = terminal(pumps(), 100)
    heads = [line for line in lines if line and not line.startswith(" ")]
    order = ["CTRL", "Only in pump1", "Only in pump2", "Documentation"]
    found = [heads.index(head) for head in order]
    assert found == sorted(found)
    assert not any(head.startswith("SAME") for head in heads)


def test_the_count() -> None:
    """Of the pumps, one order changed: which half is read first."""
    run = pumps()
    narrowed = Compared(run.comparison, chosen(run.changes, ["order"]), run.sources)
    assert narrowed.stat == "pump1 against pump2: 1 change: 1 order"
    none = Compared(run.comparison, chosen(run.changes, ["spaces"]), run.sources)
    assert none.stat == "pump1 against pump2: no such changes"
    same = compared(example("sorrel14.xml"), example("sorrel14.xml"))
    assert same.stat == "A against B: no changes"
    assert set(run.counts) <= set(CATEGORIES)
    assert sum(run.counts.values()) == len(run.changes)


@pytest.mark.parametrize("word", CATEGORIES)
def test_only_and_ignore_share_out_the_changes(word: str) -> None:
    changes = examples().changes
    only, rest = chosen(changes, [word]), chosen(changes, ignore=[word])
    assert sorted(map(id, only + rest)) == sorted(map(id, changes))
    assert all(category(item) == word for item in only)
    assert not any(category(item) == word for item in rest)
    assert not chosen(changes, [word], [word])


# JSON.


def test_json_is_what_the_schema_says(run: Compared) -> None:
    data = json.loads(FORMS["json"](run))
    errors = list(Draft202012Validator(SCHEMA).iter_errors(data))
    assert not errors, errors[0]


def test_the_schema_is_valid_closed_and_documented() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    for name, spec in SCHEMA["$defs"].items():
        assert len(spec["description"]) > 5, name
        if "object" in spec.get("type", ()):
            assert spec["additionalProperties"] is False, name
            assert set(spec["required"]) <= set(spec["properties"])
            for key, value in spec["properties"].items():
                assert len(value["description"]) > 5, (name, key)


def test_the_schema_lists_all_words_there_are() -> None:
    defs = SCHEMA["$defs"]
    assert defs["category"]["enum"] == list(CATEGORIES)
    assert list(defs["counts"]["properties"]) == defs["counts"]["required"] == list(CATEGORIES)
    assert set(defs["change"]["properties"]["kind"]["enum"]) == set(KINDS)
    names = {
        value for key, value in vars(pairs).items() if key.isupper() and isinstance(value, str)
    }
    assert set(defs["why"]["enum"]) - {None} == names - set(pairs.SURENESS)
    assert set(defs["sure"]["enum"]) - {None} == set(pairs.SURENESS)


def test_json_holds_all_changes_and_pairs(run: Compared) -> None:
    data = json.loads(FORMS["json"](run))
    assert data["total"] == len(data["changes"]) == len(run.changes)
    assert data["leftOut"] == 0
    matching = run.comparison.matching
    for key, found in (("registers", matching.registers), ("fields", matching.fields)):
        rows = [(row["a"], row["b"], row["why"]) for row in data[key]]
        expected = [
            (p.a.name if p.a else None, p.b.name if p.b else None, p.why or None) for p in found
        ]
        assert rows == expected
    for row, item in zip(data["changes"], run.changes, strict=True):
        assert (row["a"] or "", row["b"] or "") == (item.a, item.b)
        assert (row["before"], row["after"], row["kind"]) == (item.before, item.after, item.kind)
        assert row["message"] == run.words.message(item)


#: Kind, name, and the text that must stand at the place in A and in B, read off the descriptions.
PLACES = [
    ("field-bits", "OUT_B.LED", '<field name="LED" bits="2"', '{ "name": "LED", "bits": 7'),
    ("address", "WATCHDOG", '<register name="WATCHDOG"', '{ "name": "WATCHDOG"'),
    ("write-effect", "WATCHDOG.FLAG", '<field name="FLAG"', '{ "name": "FLAG"'),
    ("region", "data.SRAM", '<region name="SRAM"', '{ "name": "SRAM"'),
    ("region", "data.EXTENDED", None, '{ "name": "EXTENDED"'),
    ("space", "data", '<space name="data"', '{\n      "name": "data"'),
    ("document", "chip", "<document", '{ "title": "Sorrel 40 data sheet"'),
    ("chip-name", "chip", 'sorrel14"', '"sorrel40"'),
    ("register-only-in-b", "CLOCK_ENABLE", None, '{ "name": "CLOCK_ENABLE"'),
    ("value-only-in-b", "TMR0_CTRL.CLOCK.PIN_FALLS", None, '{ "name": "PIN_FALLS"'),
    ("memory-size", "memory FLASH", '<memory name="FLASH"', '{\n      "name": "FLASH"'),
    ("vector-number", "vector ADC_DONE", '<vector number="4"', '{ "number": 6,'),
    ("word-default", "word low", '<word name="low"', '{\n        "name": "clock"'),
    (
        *("setting-place", "setting clock-source", '<field name="SOURCE"'),
        '{\n            "name": "SOURCE"',
    ),
    ("supply", "clock", "<clock ", '{\n    "constant"'),
    ("pin-function-moved", "function LED", '<pin number="4"', '{ "number": "22"'),
    ("package-only-in-b", "package QUAD32", None, '{\n      "name": "QUAD32"'),
    ("signature", "identity", "<identity", '{ "signature"'),
]


@pytest.mark.parametrize(("kind", "name", "in_a", "in_b"), PLACES)
def test_json_tells_where_it_stands(kind: str, name: str, in_a: str | None, in_b: str) -> None:
    rows = json.loads(FORMS["json"](examples()))["changes"]
    row = next(row for row in rows if row["kind"] == kind and name in (row["a"], row["b"]))
    for key, text, file in zip(("placeA", "placeB"), (in_a, in_b), examples().sources, strict=True):
        place = row[key]
        if text is None:
            assert place is None
            continue
        assert place["file"] == file.name
        start = file.line_start(place["line"]) + place["column"] - 1
        assert file.text[start:].startswith(text)


# Markdown.


def cells(line: str) -> list[str]:
    """Return the cells of a table's row; a bar behind a backslash is text."""
    return [cell.strip() for cell in re.findall(r"\|((?:\\.|[^|\\])*)", line)[:-1]]


def shown(text: str) -> str:
    """Return Markdown text as it is shown; nothing in it may mean anything but code."""
    plain = re.sub(r"`[^`]*`", lambda match: match[0][1:-1].replace("\\", "\\\\"), text)
    return re.sub(r"\\(.)", r"\1", plain)


def test_markdown_tables_are_whole(run: Compared) -> None:
    lines = FORMS["markdown"](run).splitlines()
    width = 0
    for line in lines:
        if not line.startswith("|"):
            width = 0
            continue
        width = width or len(cells(line))
        assert len(cells(line)) == width, line
    assert any(line.startswith("|") for line in lines)


def test_markdown_has_each_change() -> None:
    """A row names its field; the heading above names the registers it holds for."""
    run = pumps()
    text = FORMS["markdown"](run)
    rows: dict[str, list[list[str]]] = {}
    heading = ""
    for line in text.splitlines():
        if line.startswith("#"):
            heading = shown(line.lstrip("# "))
        elif line.startswith("|"):
            rows.setdefault(heading, []).append([shown(cell) for cell in cells(line)])
    for section in run.outline.both:
        head = next(
            key for key in rows if all((p.a.name if p.a else "") in key for p in section.pairs)
        )
        for item in section.own[0]:
            part = run.words.name(item).partition(".")[2]
            before, after = run.words.sides(item)
            found = [row for row in rows[head] if row[:3] == [part, run.words.what(item), before]]
            assert any(row[3].startswith(after) for row in found), item
    for name in ("pump1", "pump2"):
        listed = {row[0] for row in rows[f"Only in {name}"]}
        alone = {"pump1": {"GONE", "BIG"}, "pump2": {"PART_LO", "PART_HI", "FRESH"}}
        assert alone[name] <= listed
    notes = next(row for row in rows["Documentation"] if row[1] == "notes")
    assert notes == ["chip", "notes", "One\\nTwo", "One\\nThree"]


def test_markdown_text_is_never_markup() -> None:
    text = FORMS["markdown"](hostile())
    outside = re.sub(r"`[^`]*`", "", text)
    unescaped = re.sub(r"\\.", "", outside)
    body = "\n".join(line.lstrip("#|- ").rstrip("|") for line in unescaped.splitlines())
    body = body.replace("**", "").replace(" | ", " ")
    assert not re.search(r"[<>\[\]`*_]", body)
    assert all(c.isprintable() for line in text.split("\n") for c in line)


# Terminals.


@pytest.mark.parametrize("width", [0, 80])
def test_no_character_moves_others(width: int) -> None:
    lines = terminal(hostile(), width) if width else FORMS["text"](hostile()).splitlines()
    assert lines
    assert all(c.isprintable() for line in lines for c in line)


@pytest.mark.parametrize("form", FORMS)
def test_a_file_name_that_is_no_text(form: str) -> None:
    """File names may hold halves of surrogate pairs; two chips of one name are called by theirs."""
    files = source(pump_old(), "old\udcff.json"), source({**pump_old(), "notes": "x"}, "new.json")
    text = FORMS[form](compared(*files)).encode("utf-8").decode("utf-8")
    assert "old\\\\udcff" in text or "old\\udcff" in text
