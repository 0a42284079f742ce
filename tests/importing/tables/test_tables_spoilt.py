"""Fixtures with lines doubled, cells lost and scraps strewn in: a description, or a reason."""

from __future__ import annotations

import json

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from table_lines import FIXTURES

from regwright.importing.tables.decoding import decoded
from regwright.importing.tables.reading import Wishes, import_table
from regwright.read.description import read_description
from regwright.read.source import Source

SCRAPS = ["0x", "(", "[7:0]", "\u2013", ",", "\n", "\t", "R/W", "Bit 7", "<td>", "</tr>", "1E3"]
SCRAPS += ['<td colspan="3">', "9:8", "*", "(1)", "0x0B (0x2B)", "Reserved", "[99:3]", "\ufffe"]
NAMES = sorted(path.name for path in FIXTURES.iterdir())


@st.composite
def spoilt(draw: st.DrawFn) -> tuple[str, str]:
    """Return a fixture's name and its text with a few accidents in it."""
    name = draw(st.sampled_from(NAMES))
    text = decoded((FIXTURES / name).read_bytes())
    for _ in range(draw(st.integers(1, 6))):
        at = draw(st.integers(0, len(text)))
        kind = draw(st.sampled_from(["scrap", "hole", "twice"]))
        if kind == "scrap":
            text = text[:at] + draw(st.sampled_from(SCRAPS)) + text[at:]
        elif kind == "hole":
            text = text[:at] + text[at + draw(st.integers(1, 8)) :]
        else:
            lines = text.split("\n")
            lines.insert(at % len(lines), lines[(at * 7) % len(lines)])
            text = "\n".join(lines)
    return name, text


@settings(
    deadline=None,
    derandomize=True,
    database=None,
    max_examples=150,
    suppress_health_check=[HealthCheck.too_slow],
)
@given(spoilt())
def test_a_spoilt_table_ends_in_a_description_or_a_reason(case: tuple[str, str]) -> None:
    name, text = case
    draft = import_table(name, text.encode(), Wishes("demo"))
    if draft.tree is None:
        assert any(remark.level == "error" for remark in draft.remarks)
        return
    reading = read_description(Source("demo.json", json.dumps(draft.tree).encode(), "json"))
    assert reading.chip is not None, reading.findings
