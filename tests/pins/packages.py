"""Packages made up by hypothesis, valid by the rules."""

from __future__ import annotations

from hypothesis import strategies as st

from regwright.model.packages import Package, Pin, PortBit

NAMES = st.sampled_from(["VCC", "GND", "A0", "RESET", "<b>&\"'", "X" * 20, "Ω_1"])
KINDS = st.sampled_from(["io", "supply", "ground", "reset", "clock", "analog", "unconnected"])


@st.composite
def packages(draw: st.DrawFn) -> Package:
    """Draw a package of two or four rows of which some pins are described."""
    count = draw(st.integers(1, 70))
    numbers = draw(st.sets(st.integers(1, count)))
    pins = []
    for number in sorted(numbers):
        port = draw(st.one_of(st.none(), st.builds(PortBit, st.just("B"), st.just(number))))
        functions = tuple(draw(st.lists(NAMES, max_size=2)))
        pins.append(Pin(str(number), draw(NAMES), draw(KINDS), port, functions))
    arrangement = draw(st.sampled_from(["dual", "quad"]))
    return Package(draw(NAMES), arrangement, count, None, None, tuple(pins))


@st.composite
def grids(draw: st.DrawFn) -> Package:
    """Draw a package with balls."""
    places = draw(
        st.sets(st.tuples(st.sampled_from("ABCKT"), st.integers(1, 12)), min_size=1, max_size=30)
    )
    pins = tuple(Pin(f"{row}{column}", draw(NAMES), draw(KINDS)) for row, column in sorted(places))
    return Package("GRID", "grid", len(pins), None, None, pins)
