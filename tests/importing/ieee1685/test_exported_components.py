"""What regwright exports, read back without its own extensions: as any other tool would see it."""

from __future__ import annotations

from functools import reduce
from operator import or_
from pathlib import Path

import pytest
from lxml import etree
from outlines import checked, held

from conftest import DESCRIPTIONS
from regwright.exporting.ieee1685 import export_ieee1685
from regwright.importing.ieee1685.reading import Wishes, import_ieee1685
from regwright.pipeline import Checked, check
from regwright.read.description import read_tree
from regwright.read.source import Source

#: Descriptions with one space each, whose registers all have their addresses there.
FILES = ["uart16550.xml", "sorrel32.xml", "ethernet_phy.json"]


def _registers(run: Checked) -> list[tuple[int, int, str, int]]:
    """Return address, width, access and the bits of all fields of each register.

    The standard wants fields: one that has none is given one of all its bits.
    """
    assert run.resolved is not None
    return sorted(
        (
            placed.addresses[0].value,
            placed.facts.width,
            placed.facts.access,
            reduce(or_, (item.layout.mask for item in placed.facts.fields), 0)
            or (1 << placed.facts.width) - 1,
        )
        for placed in run.resolved.registers
        if not placed.half
    )


def _without_extensions(text: str) -> bytes:
    root = etree.fromstring(text.encode())
    for element in list(root.iter("{*}vendorExtensions")):
        element.getparent().remove(element)
    return etree.tostring(root)


@pytest.mark.parametrize("edition", ["2014", "2022"])
@pytest.mark.parametrize("name", FILES)
def test_registers_come_back(name: str, edition: str) -> None:
    """Outside source: the description itself, resolved without any of the importer's code."""
    path = Path(DESCRIPTIONS / name)
    source = Source(name, path.read_bytes(), path.suffix[1:])
    exported = export_ieee1685(read_tree(source)[0], edition)
    draft = held(import_ieee1685(name, _without_extensions(exported), Wishes()))
    before, after = _registers(check(source)), _registers(checked(draft))
    assert len(before) > 10
    assert after == before
