"""Laws: a description that is spelled in dialects made up here is the same when mapped back."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape, quoteattr

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from regwright.importing.mapped.json_places import JsonPlaces
from regwright.importing.mapped.mapping import map_document
from regwright.read.description import deciding_validator
from regwright.read.json_locate import JsonLocator

Tree = dict[str, Any]

STEADY = settings(
    deadline=None,
    derandomize=True,
    database=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)

TEXT = "aZ09_-.,:;/\\\"'<>&[]{}()#é€ßø𝄞"
NAMES = st.builds(str.__add__, st.sampled_from("ABxy_"), st.text("aB9_", max_size=5))
LINES = st.lists(st.text(TEXT, min_size=1, max_size=5), min_size=1, max_size=3).map(" ".join)
ACCESS = {"rw": "read-write", "r": "read-only", "w": "write-only", "wonce": "writeOnce"}
EFFECTS = {"w1c": "oneToClear", "w1s": "oneToSet", "w0t": "zeroToToggle"}


def _some(optional: dict[str, st.SearchStrategy[Any]], **always: Any) -> st.SearchStrategy[Tree]:
    return st.fixed_dictionaries(always, optional=optional)


def _hex(most: int, digits: int = 2) -> st.SearchStrategy[str]:
    return st.integers(0, most).map(lambda number: f"0x{number:0{digits}X}")


def _bits() -> st.SearchStrategy[str]:
    pair = st.tuples(st.integers(0, 31), st.integers(0, 31))
    return pair.map(lambda both: f"{max(both)}:{min(both)}" if both[0] != both[1] else f"{both[0]}")


def _named(items: st.SearchStrategy[Tree]) -> st.SearchStrategy[list[Tree]]:
    return st.lists(items, min_size=1, max_size=3, unique_by=lambda item: item["name"])


VALUES = _some({"title": LINES}, name=NAMES, value=_hex(255))
FIELDS = _some(
    {
        "title": LINES,
        "access": st.sampled_from(sorted(ACCESS.values())),
        "modifiedWriteValue": st.sampled_from(sorted(EFFECTS.values())),
        "volatile": st.booleans(),
        "values": _named(VALUES),
    },
    name=NAMES,
    bits=_bits(),
)
RESERVED = st.lists(_some({"title": LINES}, bits=_bits()), min_size=1, max_size=2)
REGISTERS = _some(
    {
        "title": LINES,
        "access": st.sampled_from(sorted(ACCESS.values())),
        "reset": _hex(1 << 32, 8).filter(lambda text: len(text) == 10),
        "count": st.integers(1, 9),
        "stride": _hex(255),
        "page": st.integers(1, 999),
        "notes": LINES,
        "fields": _named(FIELDS),
        "reserved": RESERVED,
    },
    name=NAMES,
    offset=_hex(255),
    width=st.just(32),
)
BLOCKS = _some(
    {"title": LINES, "size": _hex(4096), "registers": _named(REGISTERS)},
    name=NAMES,
    base=_hex(4096),
)
CHIPS = _some(
    {"title": LINES, "blocks": _named(BLOCKS)},
    format=st.just(1),
    name=st.sampled_from(["demo", "Sorrel_7"]),
    spaces=st.just([{"name": "data", "size": "0x10000"}]),
)

#: How each property is called in the dialects, and how its values are written there.
CALLED = {
    "name": "id", "title": "says", "base": "from", "size": "len", "offset": "at", "width": "wide",
    "access": "mode", "reset": "start", "count": "times", "stride": "gap", "page": "leaf",
    "notes": "more", "modifiedWriteValue": "act", "volatile": "moves", "value": "no",
}  # fmt: skip
INSIDE = {"blocks": "unit", "registers": "cell", "fields": "piece", "values": "word",
          "reserved": "gap"}  # fmt: skip


def _written(name: str, value: Any) -> str:
    """Return a value as both dialects write it: decimals, short words, yes and no."""
    if name in ("base", "size", "offset", "stride", "value"):
        return f"{int(value, 16):X}h"
    if name == "reset":
        return str(int(value, 16))
    if name == "volatile":
        return "ja" if value else "nein"
    short = {full: word for word, full in (ACCESS | EFFECTS).items()}
    return short.get(value, str(value)) if name in ("access", "modifiedWriteValue") else str(value)


def _parts(node: Tree) -> tuple[dict[str, str], list[tuple[str, Tree]]]:
    """Return the plain values of a node as the dialects have them, and the nodes in it."""
    plain = {CALLED[key]: _written(key, value) for key, value in node.items() if key in CALLED}
    if "bits" in node:
        high, _, low = node["bits"].partition(":")
        plain |= {"lo": low or high, "wide": str(int(high) - int(low or high) + 1)}
    inner = [(INSIDE[key], item) for key in INSIDE for item in node.get(key, [])]
    return plain, inner


def _xml(tag: str, node: Tree) -> str:
    """Spell a node as an element: long texts are elements, the rest attributes."""
    plain, inner = _parts(node)
    texts = {name: plain.pop(name) for name in ("says", "more") if name in plain}
    attributes = "".join(f" {name}={quoteattr(value)}" for name, value in plain.items())
    content = "".join(f"<{name}>{escape(text)}</{name}>" for name, text in texts.items())
    return f"<{tag}{attributes}>{content}{''.join(_xml(*item) for item in inner)}</{tag}>"


def _rows(tag: str, node: Tree, rows: list[Tree], around: int = 0) -> None:
    """Spell nodes as rows of flat tables: each has a number, and that of what it is in."""
    plain, inner = _parts(node)
    row = {"key": len(rows) + 1, "in": around, "is": tag, **plain}
    rows.append(row)
    for item in inner:
        _rows(*item, rows, row["key"])


def _rule(name: str, path: str) -> Tree:
    rule: Tree = {"path": path, "optional": True}
    if name in ("access", "modifiedWriteValue"):
        rule["table"] = ACCESS | EFFECTS
    if name == "volatile":
        rule |= {"true": ["ja"], "false": ["nein"]}
    if name in ("reset", "width"):
        rule["number"] = "decimal"
    return rule


def _mapping(reads: str, wanted: dict[str, str], inner: dict[str, dict[str, str]]) -> bytes:
    """Return the mapping for a dialect; ``wanted`` has the path to each property."""
    properties = {
        "block": ["name", "title", "base", "size"],
        "register": ["name", "title", "offset", "width", "access", "reset", "count", "stride",
                     "page", "notes"],
        "field": ["name", "title", "access", "modifiedWriteValue", "volatile"],
        "value": ["name", "title", "value"],
        "reservedBits": ["title"],
    }  # fmt: skip

    def node(kind: str, children: dict[str, Tree]) -> Tree:
        found: Tree = {name: _rule(name, wanted[name]) for name in properties[kind]}
        if kind in ("field", "reservedBits"):
            parts = {"low": wanted["low"], "width": wanted["bits"]}
            found["bits"] = {
                key: {"path": path, "number": "decimal"} for key, path in parts.items()
            }
        return {**found, **children}

    value = {**inner["values"], **node("value", {})}
    field = {**inner["fields"], **node("field", {"values": value})}
    reserved = {**inner["reserved"], **node("reservedBits", {})}
    register = {
        **inner["registers"],
        **node("register", {"fields": field, "reserved": reserved}),
    }
    block = {**inner["blocks"], **node("block", {"registers": register})}
    chip = {
        **inner["chip"],
        "name": wanted["name"],
        "title": _rule("title", wanted["title"]),
        "fixed": {"spaces": [{"name": "data", "size": "0x10000"}]},
        "blocks": block,
    }
    data = {"format": 1, "reads": reads, "numbers": "h", "chip": chip}
    if reads == "json":
        data["ignore"] = ["key", "in", "is"]
    return json.dumps(data).encode()


def _of_xml() -> bytes:
    wanted = {name: f"@{called}" for name, called in CALLED.items()}
    wanted |= {"title": "says", "notes": "more", "low": "@lo", "bits": "@wide"}
    inner: dict[str, Any] = {name: {"at": tag} for name, tag in INSIDE.items()}
    return _mapping("xml", wanted, {**inner, "chip": {}})


def _of_json() -> bytes:
    wanted = {name: f"$.{called}" for name, called in CALLED.items()}
    wanted |= {"low": "$.lo", "bits": "$.wide"}
    inner: dict[str, Any] = {
        name: {
            "lookup": {
                "in": f"$[?@.is == '{tag}']",
                "by": "$.in",
                "key": "$.key",
                "optional": True,
            }
        }
        for name, tag in INSIDE.items()
    }
    return _mapping("json", wanted, {**inner, "chip": {"at": "$[0]"}})


def _mapped_back(name: str, text: str, mapping: bytes) -> Tree:
    draft = map_document(name, text.encode(), "m.json", mapping)
    told = [item for item in draft.remarks if item.rule != "path-without-result"]
    assert told == []
    assert draft.tree is not None
    return draft.tree


@STEADY
@given(CHIPS)
def test_a_dialect_of_xml_is_mapped_back(chip: Tree) -> None:
    assert _mapped_back("c.xml", _xml("part", chip), _of_xml()) == chip


@STEADY
@given(CHIPS)
def test_flat_tables_in_json_are_mapped_back(chip: Tree) -> None:
    rows: list[Tree] = []
    _rows("part", chip, rows)
    assert _mapped_back("c.json", json.dumps(rows), _of_json()) == chip


DATA = st.recursive(
    st.none() | st.booleans() | st.integers(-99, 99) | st.text('a":,[]{}\\ é\n', max_size=4),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.text('a":,[]{}\\ é', max_size=3), inner, max_size=3)
    ),
    max_leaves=12,
)


def _locations(value: Any, location: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    found = [location]
    pairs: Any = value.items() if isinstance(value, dict) else ()
    for step, item in enumerate(value) if isinstance(value, list) else pairs:
        found += _locations(item, (*location, step))
    return found


@STEADY
@given(DATA, st.sampled_from([None, 1]))
def test_places_in_json_are_those_that_descriptions_have(data: Any, indent: int | None) -> None:
    text = json.dumps(data, indent=indent, ensure_ascii=False)
    places, locator = JsonPlaces(text, data), JsonLocator(text)
    for location in _locations(data):
        offset = locator.offset(list(location))
        line = text.count("\n", 0, offset) + 1
        assert places.place(location) == (line, offset - text.rfind("\n", 0, offset))


EXAMPLE = Path(__file__).parent / "example"
RULES: Tree = json.loads((EXAMPLE / "drip_mapping.json").read_bytes())
DOCUMENT: Tree = json.loads((EXAMPLE / "drip.json").read_bytes())
SLIPS = st.sampled_from(
    ["", "$", "$.id", "$..*", "$.a[", "@x", 0, -1, 1 << 62, True, None, [], {}, ["$.regs[*]"],
     {"path": "$.id"}, {"use": "x"}, {"at": "$"}, {"value": "x"}, {"first": ["$.id"]}, "\x00", "é"]
)  # fmt: skip


def _with_a_slip(data: Tree, location: tuple[str | int, ...], slip: Any) -> bytes:
    """Return ``data`` as a text in which another value stands at ``location``."""
    copy: Any = {"": json.loads(json.dumps(data))}
    inner: Any = copy
    for step in ("", *location[:-1]) if location else ():
        inner = inner[step]
    inner[location[-1] if location else ""] = slip
    return json.dumps(copy[""]).encode()


@settings(STEADY, max_examples=150)
@given(st.sampled_from(_locations(RULES)), st.sampled_from(_locations(DOCUMENT)), SLIPS, SLIPS)
def test_slips_anywhere_are_said_or_do_no_harm(
    in_rules: tuple[str | int, ...], in_document: tuple[str | int, ...], one: Any, other: Any
) -> None:
    document = _with_a_slip(DOCUMENT, in_document, other)
    draft = map_document("c.json", document, "m.json", _with_a_slip(RULES, in_rules, one))
    has_errors = any(item.level == "error" for item in draft.remarks)
    assert has_errors == (draft.tree is None)
    if draft.tree is not None:
        assert deciding_validator().is_valid(draft.tree)
    for item in draft.remarks:
        assert item.line >= 1
        assert item.column >= 1
        assert item.message.isprintable()
