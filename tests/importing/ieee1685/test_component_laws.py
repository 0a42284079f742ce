"""Laws: whatever is done to a component, its import is a description or says why it is none."""

from __future__ import annotations

from functools import cache

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from lxml import etree
from outlines import FIXTURES, held

from regwright.importing.ieee1685.reading import Wishes, import_ieee1685
from regwright.importing.oddities import ODDITIES
from regwright.model.finding import ERROR

PATHS = [path for path in sorted(FIXTURES.rglob("*.xml")) if path.parent.name != "library"]
TEXTS = [
    "",
    " ",
    "0",
    "1",
    "-1",
    "3",
    "64",
    "65",
    "4097",
    "99999999999999999999",
    "'hx",
    "4'b1x0z",
    "1.5",
    "UNKNOWN",
    "read-only",
    "clear",
    "a b",
    "two\nlines \x7f",
    "<p>&amp;",
    "<p>",
    "\x7f",
    "é__",
    "2 ** 70",
    "true",
    "memory",
    "reserved",
]
STEADY = settings(
    max_examples=120,
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=[HealthCheck.too_slow],
)


@cache
def _data(index: int) -> bytes:
    return PATHS[index].read_bytes()


_CHANGES = st.lists(
    st.tuples(
        st.integers(0, 10_000),
        st.sampled_from(["remove", "repeat", "text", "move", "attribute"]),
        st.integers(0, 10_000),
    ),
    min_size=1,
    max_size=6,
)


def _changed(root: etree._Element, changes: list[tuple[int, str, int]]) -> None:
    """Change elements of ``root``: each by its number, how, and with what."""
    for number, how, other in changes:
        elements = list(root.iter("*"))[1:]
        if not elements:
            return
        element = elements[number % len(elements)]
        parent = element.getparent()
        if how == "text":
            element.text = TEXTS[other % len(TEXTS)]
        elif how == "remove":
            parent.remove(element)
        elif how == "repeat":
            parent.append(etree.fromstring(etree.tostring(element)))
        elif how == "attribute" and element.attrib:
            name = sorted(element.attrib)[other % len(element.attrib)]
            element.set(name, TEXTS[other % len(TEXTS)])
        elif how == "move":
            copy = etree.fromstring(etree.tostring(element))
            elements[other % len(elements)].append(copy)


@STEADY
@given(st.integers(0, len(PATHS) - 1), _CHANGES)
def test_a_changed_component(index: int, changes: list[tuple[int, str, int]]) -> None:
    root = etree.fromstring(_data(index))
    _changed(root, changes)
    wishes = Wishes(search=(FIXTURES / "2022" / "library",))
    draft = held(import_ieee1685("changed.xml", etree.tostring(root), wishes))
    assert draft.tree is not None or any(item.level == ERROR for item in draft.remarks)
    assert {item.rule for item in draft.remarks} <= ODDITIES.keys()
    assert all(item.line >= 1 and item.message for item in draft.remarks)


@STEADY
@given(st.binary(max_size=200))
def test_any_bytes(data: bytes) -> None:
    draft = import_ieee1685("any.xml", data, Wishes())
    assert draft.tree is None
    assert draft.remarks
