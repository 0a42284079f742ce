"""What is exported comes back by importing it, in every respect."""

from __future__ import annotations

from pathlib import Path

import pytest
from exported import DESCRIPTIONS, EDITIONS, back, chip, chip_with, described

PAIRS = [(path, edition) for path in DESCRIPTIONS for edition in EDITIONS]


@pytest.mark.parametrize(("path", "edition"), PAIRS, ids=lambda item: getattr(item, "stem", item))
def test_a_description_comes_back(path: Path, edition: str) -> None:
    tree = described(path)
    assert chip(back(tree, edition)) == chip(tree)


@pytest.mark.parametrize("edition", EDITIONS)
def test_comments_come_back(edition: str) -> None:
    field = {"name": "F", "bits": 0, "comment": "of a field"}
    register = {"name": "R", "address": "0x01", "comment": "of a register", "fields": [field]}
    tree = chip_with(register, comment="of the chip")
    tree["spaces"] = [{**tree["spaces"][0], "comment": "of a space"}]
    tree["document"] = {"title": "Sheet", "comment": "of the document"}
    found = back(tree, edition)
    assert found["comment"] == "of the chip"
    assert found["spaces"][0]["comment"] == "of a space"
    assert found["document"]["comment"] == "of the document"
    assert found["registers"][0]["comment"] == "of a register"
    assert found["registers"][0]["fields"][0]["comment"] == "of a field"


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    "register",
    [
        pytest.param({"offset": "0x4"}, id="offset without a base"),
        pytest.param({}, id="no address"),
        pytest.param({"address": "none:0x4"}, id="in no space"),
        pytest.param({"address": "0x4", "count": 3, "stride": 0}, id="row on the spot"),
        pytest.param({"address": "0x4", "count": 3, "stride": 8}, id="row with gaps"),
        pytest.param({"address": "0x4", "count": 3, "stride": 1}, id="row that says it is close"),
        pytest.param({"address": "0x4", "width": 16, "count": 2, "stride": 1}, id="row overlaps"),
        pytest.param({"address": "0x4", "count": 3}, id="row side by side"),
        pytest.param({"address": "0x4", "stride": 2, "firstIndex": 7}, id="no row"),
        pytest.param({"address": "0x4", "width": 8}, id="width repeated"),
        pytest.param({"address": "0x4", "access": "read-write"}, id="access repeated"),
        pytest.param({"address": "0x4", "access": "no-access"}, id="no access"),
        pytest.param({"address": "0x4", "reset": "0xFFF"}, id="reset too wide"),
        pytest.param({"address": "0x4", "reset": "0bx1x0_0101"}, id="reset partly open"),
        pytest.param({"address": "0x4", "readAction": "clear"}, id="reading has an effect"),
        pytest.param({"address": "0x4", "flags": "- - -"}, id="flags without a name"),
        pytest.param({"address": "0x4", "flags": "A <b> - A", "reset": "0xF"}, id="flags"),
        pytest.param({"address": "0x4 ".strip(), "notes": " two\n\nparts "}, id="notes"),
        pytest.param({"address": "data:0x4 data:0x8"}, id="two addresses in one space"),
    ],
)
def test_a_register_comes_back(register: dict[str, object], edition: str) -> None:
    for more in ({}, {"fields": [{"name": "F", "bits": "3:0", "reset": "0x5"}]}):
        tree = chip_with({"name": "R", **register, **more}, {"name": "S", "address": "0x80"})
        assert chip(back(tree, edition)) == chip(tree)


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    "field",
    [
        {"bits": "6,3:1"},
        {"bits": "6,3:1", "reset": "0b1x01"},
        {"bits": "1:3"},
        {"bits": "7:0", "reset": "0x1FF"},
        {"bits": 0, "readAction": "clear"},
        {"bits": 0, "volatile": False},
        {"bits": 0, "values": []},
        {"bits": "6,0", "values": [{"name": "ON", "value": 3, "usage": "read-write"}]},
        {"bits": "1:0", "values": [{"name": "a b", "value": 9}, {"name": "a b", "value": 1}]},
        {"bits": 99},
    ],
    ids=str,
)
@pytest.mark.parametrize("register", [{}, {"reset": "0x55"}, {"readAction": "clear"}], ids=str)
def test_a_field_comes_back(
    field: dict[str, object], register: dict[str, object], edition: str
) -> None:
    for more in ([], [{"name": "FIELD", "bits": 4}]):
        fields = [{"name": "FIELD", **field}, *more]
        tree = chip_with({"name": "R", "address": "0x01", **register, "fields": fields})
        assert chip(back(tree, edition)) == chip(tree)
