"""Packages as text and as SVG: every pin is there, in its place, whatever it is called."""

from __future__ import annotations

import re

import pytest
from chips import STEADY
from hypothesis import given, settings
from lxml import etree
from packages import grids, packages

from regwright.model.packages import Package, Pin
from regwright.pins.sides import sides
from regwright.pins.text import drawing, without_functions
from regwright.render.package_svg import package_svg
from regwright.reports.pieces import plain_text
from regwright.reports.pins import function_lines

SVG = "{http://www.w3.org/2000/svg}"


def whole(arrangement: str, count: int) -> Package:
    pins = tuple(Pin(str(number), f"P{number}") for number in range(1, count + 1))
    return Package("PACK", arrangement, count, None, None, pins)


@pytest.mark.parametrize(
    ("arrangement", "count", "corners"),
    [
        ("dual", 8, ("1 4", "", "8 5", "")),
        ("quad", 32, ("1 8", "9 16", "24 17", "32 25")),
        ("dual", 3, ("1 1", "", "3 2", "")),
        ("quad", 6, ("1 1", "2 2", "4 3", "6 5")),
    ],
)
def test_pins_run_against_the_clock(arrangement: str, count: int, corners: tuple[str, ...]) -> None:
    """Common practice, no source: pin 1 at the top left, numbers run against the clock."""
    found = sides(whole(arrangement, count))
    ends = tuple(
        f"{side[0].number} {side[-1].number}" if side and side[0] and side[-1] else ""
        for side in found
    )
    assert ends == corners


@settings(STEADY, max_examples=60)
@given(packages())
def test_each_pin_has_one_place(package: Package) -> None:
    found = sides(package)
    places = [pin for side in found for pin in side]
    assert len(places) == package.pin_count
    assert [pin for pin in places if pin] != [] or not package.pins
    assert {pin.number for pin in places if pin} == {pin.number for pin in package.pins}


@settings(STEADY, max_examples=60)
@given(packages())
def test_the_text_has_every_number(package: Package) -> None:
    text = "\n".join(drawing(package))
    body = re.findall(r"[┤│] *(.*?) *[├│]", text)
    numbers = [word for line in body for word in line.split() if word.isdigit()]
    wanted = {str(number) for number in range(1, package.pin_count + 1)}
    assert wanted <= set(numbers)
    assert all(line == line.rstrip() for line in text.split("\n"))


def test_the_marked_pin_has_the_only_arrow() -> None:
    for number, arrow in (("1", "▶"), ("9", "▲"), ("17", "◀"), ("25", "▼")):
        text = "\n".join(drawing(whole("quad", 32), number))
        assert [sign for sign in "▶▲◀▼" if sign in text] == [arrow]
        assert text.count(arrow) == 1
    assert not set("▶▲◀▼") & set("".join(drawing(whole("quad", 32))))


@settings(STEADY, max_examples=60)
@given(packages())
def test_the_svg_is_well_formed_and_has_every_pin(package: Package) -> None:
    root = etree.fromstring(package_svg("chip", package).encode())
    tabs = [node for node in root.iter(f"{SVG}rect") if node.get("class") == "tab"]
    assert len(tabs) == package.pin_count
    numbers = [node.text for node in root.iter(f"{SVG}text") if node.get("class") == "number"]
    assert sorted(map(int, numbers)) == list(range(1, package.pin_count + 1))
    shown = [node.text for node in root.iter(f"{SVG}text") if node.get("class") == "label"]
    for pin in package.pins:
        assert any(text.split(" ")[0] == pin.name for text in shown)
    _, _, width, height = map(float, root.get("viewBox").split())
    for tab in tabs:
        assert 0 <= float(tab.get("x")) <= width - float(tab.get("width"))
        assert 0 <= float(tab.get("y")) <= height - float(tab.get("height"))


@settings(STEADY, max_examples=40)
@given(grids())
def test_balls_are_in_rows_and_columns(package: Package) -> None:
    root = etree.fromstring(package_svg("chip", package).encode())
    tabs = [node for node in root.iter(f"{SVG}rect") if node.get("class") == "tab"]
    assert len({(tab.get("x"), tab.get("y")) for tab in tabs}) == len(package.pins)
    lines = drawing(package)
    rows = [line.split()[0] for line in lines[1:]]
    assert rows == sorted({pin.number[0] for pin in package.pins})


def test_names_cannot_leave_their_place() -> None:
    evil = "</text><script>alert(1)</script>\x1b[2J"
    package = Package(evil, "dual", 2, None, None, (Pin("1", evil, functions=(evil,)),))
    text = package_svg("chip", package)
    assert "<script" not in text
    assert "\x1b" not in text
    etree.fromstring(text.encode())


def test_a_grid_has_no_heading_and_its_functions_are_told() -> None:
    pins = (Pin("A1", "VCC"), Pin("B12", "P0", functions=("RXD", "INT")))
    package = Package("GRID", "grid", 2, None, None, pins)
    assert not any("seen from above" in line for line in drawing(package))
    assert [pin.number for pin in without_functions(package)] == ["B12"]
    lines = list(map(plain_text, function_lines(package)))
    assert lines[2:] == ["  B12  P0  RXD INT"]


@settings(STEADY, max_examples=40)
@given(packages())
def test_every_function_is_in_the_drawing_or_below(package: Package) -> None:
    shown = "\n".join([*drawing(package), *map(plain_text, function_lines(package))])
    for pin in package.pins:
        assert all(function in shown for function in pin.functions)
