"""Laws of repairs, held over generated damage to the descriptions of the project."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from conftest import DESCRIPTIONS
from regwright.model.finding import ERROR, Finding
from regwright.model.origin import from_steps
from regwright.pipeline import Checked, check, repair
from regwright.read.source import Source, spelling_of
from regwright.write.repair import edits, patch, repaired

TEXTS = {
    name: (DESCRIPTIONS / name).read_bytes().decode("utf-8")
    for name in ("sorrel14.xml", "sorrel40.json")
}
STEADY = settings(
    deadline=None, max_examples=60, suppress_health_check=list(HealthCheck), derandomize=True
)
NUMBER = re.compile(r"(?<=[\"':])0x[0-9A-F]+(?=[\"' ])")
NAME = re.compile(r"(?<= )[a-zA-Z]+(?==\")|(?<=\")[a-zA-Z]+(?=\": )")
WORD = re.compile(r"read-only|write-only|read-write|oneToClear|cpu-registers")


class Damage(NamedTuple):
    file: str
    start: int
    right: str
    wrong: str

    @property
    def text(self) -> str:
        text = TEXTS[self.file]
        return text[: self.start] + self.wrong + text[self.start + len(self.right) :]


def _checked(file: str, text: str) -> Checked:
    data = text.encode("utf-8")
    return check(Source(file, data, spelling_of(file, data)))


def _in_signature(text: str, start: int) -> bool:
    return "signature" in text[text.rfind("\n", 0, start) + 1 : start]


@st.composite
def damages(draw: st.DrawFn, pattern: re.Pattern[str], kinds: tuple[str, ...]) -> Damage:
    file = draw(st.sampled_from(sorted(TEXTS)))
    text = TEXTS[file]
    # one byte of a signature is no value by itself, and a wrong one is left to a person
    places = [item for item in pattern.finditer(text) if not _in_signature(text, item.start())]
    match = draw(st.sampled_from(places))
    kind = draw(st.sampled_from(kinds))
    at = draw(st.integers(0, len(match[0]) - 1))
    return Damage(file, match.start(), match[0], _spoiled(match[0], kind, at))


def _spoiled(text: str, kind: str, at: int) -> str:
    digits = text.removeprefix("0x")
    return {
        "dollar": f"${digits}",
        "ampersand": f"&amp;H{digits}",
        "h": f"{digits}h",
        "upper": f"0X{digits}",
        "O": f"0x{digits.replace('0', 'O')}",
        "missing": text[:at] + text[at + 1 :],
        "doubled": text[:at] + text[at] + text[at:],
        "swapped": text[:at] + text[at : at + 2][::-1] + text[at + 2 :],
        "other case": text[:at] + text[at].swapcase() + text[at + 1 :],
    }[kind]


@STEADY
@given(damages(NUMBER, ("dollar", "h", "upper", "O")))
def test_a_number_in_another_notation_comes_back(damage: Damage) -> None:
    assume(damage.wrong != damage.right)
    assume(re.search(r"[0-9].*h|^[^h]*$", damage.wrong))
    found = repair(_checked(damage.file, damage.text))
    assert found.number >= 1
    assert found.checked.source.text == TEXTS[damage.file]


@STEADY
@given(damages(NAME, ("missing", "doubled", "swapped", "other case")))
def test_a_misspelt_name_comes_back_or_stays(damage: Damage) -> None:
    damaged = _checked(damage.file, damage.text)
    for item in damaged.findings:
        for edit in edits(damaged.source, item.finding):
            assert damaged.source.text[edit.start : edit.end] == damage.wrong
    found = repair(damaged)
    assert found.checked.source.text == (TEXTS[damage.file] if found.number else damage.text)


@STEADY
@given(damages(WORD, ("missing", "doubled", "swapped", "other case")))
def test_a_misspelt_word_comes_back(damage: Damage) -> None:
    assume(damage.wrong != damage.right)
    found = repair(_checked(damage.file, damage.text))
    assert found.checked.source.text in (TEXTS[damage.file], damage.text)


ANY = re.compile(r"(?<=\")[^\"\n]{1,60}(?=\")")
VALUES = [
    *("$1F", "1Fh", "0X1F", "0x1O", "21", "5", "%101", "b'101'", "[7:4]", "7..4", "4-7", "08"),
    *("rw", "RO", "readonly", "onetoclear", "w1c", "yes", "True", "false ", " 0x1F", "io:$1"),
    *("io:0x18, data:$38", "IO:0x18", "prots", "littel", "x", "", "0xfF_", "data:0x18"),
]


@settings(STEADY, max_examples=150)
@given(st.data())
def test_a_repair_removes_its_finding_and_changes_nothing_else(data: st.DataObject) -> None:
    file = data.draw(st.sampled_from(sorted(TEXTS)))
    text = TEXTS[file]
    match = data.draw(st.sampled_from(list(ANY.finditer(text))))
    value = data.draw(st.sampled_from(VALUES))
    checked = _checked(file, text[: match.start()] + value + text[match.end() :])
    for item in checked.findings:
        wanted = edits(checked.source, item.finding)
        if not wanted:
            continue
        better, done = repaired(checked.source, [item.finding])
        assert done == [item.finding]
        _assert_only(checked.source.text, better.text, wanted)
        again = check(better)
        left = [(one.finding.rule, one.finding.message) for one in again.findings]
        assert (item.finding.rule, item.finding.message) not in left
        assert again.subject is not None or checked.subject is None


def _assert_only(before: str, after: str, wanted: list[tuple[int, int, str]]) -> None:
    """Assert that ``after`` is ``before`` with the ``wanted`` pieces replaced."""
    position = 0
    for start, end, text in sorted(wanted):
        assert after.startswith(before[position:start] + text)
        after = after[start - position + len(text) :]
        position = end
    assert after == before[position:]


@settings(STEADY, max_examples=40)
@given(st.lists(damages(NUMBER, ("dollar", "upper")), min_size=2, max_size=9))
def test_many_at_once(found: list[Damage]) -> None:
    file = found[0].file
    text = TEXTS[file]
    places = {item.start: item for item in found if item.file == file}
    for start in sorted(places, reverse=True):
        item = places[start]
        text = text[:start] + item.wrong + text[start + len(item.right) :]
    better = repair(_checked(file, text))
    assert better.checked.source.text == TEXTS[file]


def _finding(path: list[str | int], **more: str) -> Finding:
    return Finding("test", ERROR, "", from_steps(path), **more)


CHIP_XML = '<chip title=\'A "b"\' name="x" address="ab:1 b:2"/>'
CHIP_JSON = '{"title": "A \\"b\\"", "page": 12, "on": true, "address": "ab:1 b:2"}'


@pytest.mark.parametrize(
    ("text", "path", "more", "expected"),
    [
        (CHIP_XML, "title", {"repair": "<'&\">\n"}, "&lt;&apos;&amp;&quot;>&#10;"),
        (CHIP_XML, "address", {"repair": "b:3", "word": "b:"}, "b:3"),
        (CHIP_XML, "address", {"repair": "c:3", "word": "c:"}, None),
        (CHIP_XML, "name", {"repair": "x"}, None),
        (CHIP_XML, "width", {"repair": "8"}, None),
        (CHIP_JSON, "title", {"repair": 'a"\\'}, 'a\\"\\\\'),
        (CHIP_JSON, "page", {"repair": "13"}, "13"),
        (CHIP_JSON, "page", {"repair": "0x13"}, '"0x13"'),
        (CHIP_JSON, "page", {"repair": "013"}, '"013"'),
        (CHIP_JSON, "on", {"repair": "false"}, "false"),
        (CHIP_JSON, "on", {"repair": "yes"}, '"yes"'),
        (CHIP_JSON, "address", {"repair": "b:3", "word": "b:"}, "b:3"),
    ],
)
def test_how_a_repair_is_spelled(
    text: str, path: str, more: dict[str, str], expected: str | None
) -> None:
    spelling = "xml" if text.startswith("<") else "json"
    found = edits(Source(f"a.{spelling}", text.encode(), spelling), _finding([path], **more))
    assert [edit.text for edit in found] == ([] if expected is None else [expected])
    if "word" in more and found:
        assert text[found[0].start : found[0].end] == "b:2"


def test_of_repairs_that_overlap_the_first_wins() -> None:
    source = Source("a.xml", CHIP_XML.encode(), "xml")
    whole = _finding(["address"], repair="c:9")
    word = _finding(["address"], repair="b:3", word="b:")
    other = _finding(["name"], repair="y")
    same = _finding(["name"], repair="y", word="x")
    better, done = repaired(source, [word, whole, other, same])
    assert done == [word, other, same]
    assert better.text == CHIP_XML.replace("b:2", "b:3").replace('"x"', '"y"')
    assert repaired(source, [whole, word]).done == [whole]


LINES = st.lists(st.sampled_from(["a\n", "b\r\n", "\n", "é\u2028\n", "-- x\n"]), max_size=30)


@settings(STEADY, max_examples=40)
@given(LINES, st.data())
def test_a_patch_makes_the_one_of_the_other(lines: list[str], data: st.DataObject) -> None:
    places = data.draw(st.lists(st.integers(0, 31), max_size=5))
    end = data.draw(st.sampled_from(["", "end", "end\r"]))
    changes = data.draw(st.sampled_from(["x\n", "\t\n", ""]))
    other = [changes if number in places else line for number, line in enumerate(lines)]
    before, after = "".join([*lines, end]).encode(), "".join([*other, end]).encode()
    if changes == "x\n" and end:
        after += b"y"
    text = patch('a b"c', before, after)
    assert bool(text) == (before != after)
    if not text or not before or not after:
        return
    with TemporaryDirectory() as folder:
        file = Path(folder) / 'a b"c'
        for command in (["patch", "-s", "-p0"], ["git", "apply", "-p0", "--whitespace=nowarn"]):
            file.write_bytes(before)
            subprocess.run(command, cwd=folder, input=text, check=True, capture_output=True)
            assert file.read_bytes() == after


def test_text_that_is_no_utf8_is_left_alone() -> None:
    source = Source("a.xml", CHIP_XML.encode() + b"\xff", "xml")
    assert repaired(source, [_finding(["name"], repair="y")]).done == []
