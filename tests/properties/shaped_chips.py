"""Made-up descriptions whose parts fit together: most of what they say has a meaning.

The generator in ``chips.py`` tries every spelling, but an address of it is seldom in a space that
there is. Here there are two spaces and a window, and blocks stand in each other, in rows and in
several places; what resets and side effects say may contradict.
"""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

Tree = dict[str, Any]

_ACCESS = ["read-write", "read-only", "write-only", "writeOnce", "read-writeOnce", "no-access"]
_NAMES = st.sampled_from(["A", "B", "CTRL", "DATA", "DATA ", "IRQ Vector", "0_out", "é"])
_BITS = st.sampled_from([0, 7, "3:0", "7:4", "6,2:0", "9:8,5", "15:0", "0:2", "12"])
_RESETS = st.sampled_from(["0x00", "0xA5", "0bx1x0_0101", "0x5", "0b1", "0xxx", "0xFFFFF"])
_STEPS = st.sampled_from([1, 2, "0x4", "0x10"])


@st.composite
def _some(draw: st.DrawFn, required: dict[str, Any], **optional: Any) -> Tree:
    """Draw an object: what is required, and each of the rest at times."""
    found = {name: draw(value) for name, value in required.items()}
    for name, value in optional.items():
        if draw(st.integers(0, 3)) == 0:
            found[name] = draw(value)
    return found


def _addresses(most: int = 0x3F) -> st.SearchStrategy[str]:
    numbers = st.integers(0, most)
    return st.one_of(
        numbers.map(lambda value: f"0x{value:02X}"),
        numbers.map(lambda value: f"io:0x{value:X}"),
        numbers.map(lambda value: f"io:0x{value:02X} data:0x{value + 0x20:02X}"),
    )


def _values() -> st.SearchStrategy[Any]:
    value = _some(
        {"name": _NAMES, "value": st.integers(0, 9)},
        usage=st.sampled_from(["read", "write", "read-write"]),
        title=st.just("a value"),
        aliases=st.just("VALUE"),
    )
    return st.lists(value, max_size=2)


def _fields() -> st.SearchStrategy[Any]:
    field = _some(
        {"name": _NAMES, "bits": _BITS},
        title=st.just("a field"),
        notes=st.just("more of it"),
        access=st.sampled_from(_ACCESS),
        modifiedWriteValue=st.sampled_from(["oneToClear", "zeroToSet", "modify"]),
        readAction=st.sampled_from(["clear", "modify"]),
        reset=_RESETS,
        volatile=st.booleans(),
        values=_values(),
        page=st.just(7),
    )
    return st.lists(field, max_size=3)


def _reserved() -> st.SearchStrategy[Any]:
    bits = _some({"bits": _BITS}, write=st.sampled_from(["0", "1", "preserve"]))
    return st.lists(bits, max_size=2)


def _registers(place: dict[str, Any]) -> st.SearchStrategy[Any]:
    register = _some(
        {"name": _NAMES, **place},
        title=st.just("a register"),
        width=st.sampled_from([8, 16, 32]),
        access=st.sampled_from(_ACCESS),
        reset=_RESETS,
        readAction=st.sampled_from(["clear", "modify"]),
        count=st.integers(1, 3),
        stride=_STEPS,
        flags=st.sampled_from(["A - B", "- - -", "X", "- A - - - - - A"]),
        fields=_fields(),
        reserved=_reserved(),
        when=st.just("A.B = 1"),
    )
    return st.lists(register, max_size=3)


def _anywhere() -> st.SearchStrategy[Any]:
    """Return registers by their address, by an offset, and without a place."""
    offset = {"offset": st.integers(0, 9)}
    ways = [_registers({"address": _addresses()}), _registers(offset), _registers({})]
    return st.tuples(*ways).map(lambda lists: [item for found in lists for item in found])


def _blocks(deep: int) -> st.SearchStrategy[Any]:
    instance = _some({"name": _NAMES, "base": _addresses()}, title=st.just("one"), page=st.just(2))
    inner = {"blocks": _blocks(deep - 1)} if deep else {}
    block = _some(
        {"name": _NAMES},
        title=st.just("a block"),
        notes=st.just("what it is for"),
        prefix=st.just("P_"),
        size=st.sampled_from(["0x10", "0x40", 0]),
        count=st.integers(1, 3),
        stride=_STEPS,
        firstIndex=st.just(1),
        width=st.sampled_from([8, 16, 32]),
        access=st.sampled_from(_ACCESS),
    )
    where = st.one_of(
        st.fixed_dictionaries({"base": _addresses()}),
        st.fixed_dictionaries({"offset": st.integers(0, 64).map("0d{}".format)}),
        st.fixed_dictionaries({"instances": st.lists(instance, min_size=1, max_size=3)}),
        st.just({}),
    )
    members = _some({}, registers=_anywhere(), **inner)
    offsets = st.fixed_dictionaries({"registers": _registers({"offset": st.integers(0, 9)})})
    whole = st.tuples(block, where, st.one_of(members, offsets, members))
    return st.lists(whole.map(lambda parts: {**parts[0], **parts[1], **parts[2]}), max_size=2)


def shaped_chips() -> st.SearchStrategy[Tree]:
    """Return whole descriptions."""
    window = {"from": "io", "first": "0x00", "last": "0x3F", "into": "data", "offset": "0x20"}
    spaces = [
        [{"name": "data", "size": "0x200"}, {"name": "io", "size": "0x40", "unit": 8}],
        [{"name": "io", "size": "0x40"}, {"name": "data", "size": "0x100", "unit": 16}],
    ]
    return _some(
        {
            "format": st.just(1),
            "name": st.just("shaped"),
            "spaces": st.sampled_from(spaces),
            "blocks": _blocks(1),
        },
        title=st.just("A chip"),
        notes=st.just("of no\n\nuse"),
        width=st.sampled_from([8, 16]),
        access=st.sampled_from(["read-only", "read-write"]),
        windows=st.just([window]),
        registers=_registers({"address": _addresses()}),
    )
