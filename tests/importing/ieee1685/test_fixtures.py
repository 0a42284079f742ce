"""Every fixture: valid by the standard's own schema, and imported as its outline says."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from lxml import etree
from outlines import FIXTURES, imported, outline

from regwright.importing.ieee1685.editions import edition_of
from regwright.importing.ieee1685.reading import Wishes
from regwright.importing.ieee1685.schemas import schema_errors

STANDARDS = os.environ.get("REGWRIGHT_STANDARDS")
OUTLINES = sorted(FIXTURES.rglob("*.outline"))
VALID = sorted(FIXTURES.glob("20*/**/*.xml"))
LIBRARY = FIXTURES / "2022" / "library"


def _name(path: Path) -> str:
    return str(path.relative_to(FIXTURES))


@pytest.mark.parametrize("expected", OUTLINES, ids=_name)
def test_import(expected: Path) -> None:
    """``spaces@control+at_boot.outline`` is what ``--map control/at_boot`` makes of spaces.xml."""
    stem, _, wanted = expected.stem.partition("@")
    wishes = Wishes(map=wanted.replace("+", "/") or None, search=(LIBRARY,))
    draft = imported(expected.with_name(f"{stem}.xml"), wishes)
    assert outline(draft) == expected.read_text(encoding="utf-8").splitlines()


def test_every_fixture_has_an_outline() -> None:
    described = {path.with_name(path.stem.partition("@")[0] + ".xml") for path in OUTLINES}
    assert {path for path in FIXTURES.rglob("*.xml") if path.parent != LIBRARY} == described


@pytest.mark.skipif(not STANDARDS, reason="REGWRIGHT_STANDARDS names no folder with the schemas")
@pytest.mark.parametrize("path", VALID, ids=_name)
def test_fixture_is_valid(path: Path) -> None:
    """Outside source: the schemas of IEEE 1685-2009, -2014 and -2022."""
    root = etree.parse(path).getroot()
    folder = Path(str(STANDARDS)) / "ieee1685"
    assert schema_errors(root, edition_of(root.tag), folder) == []


@pytest.mark.parametrize("edition", ["2009", "2014", "2022"])
def test_places_are_lines_of_the_file(edition: str) -> None:
    """Each register and field is placed on the line where its element starts."""
    path = FIXTURES / edition / "registers.xml"
    path = path if path.exists() else FIXTURES / edition / "policies.xml"
    draft = imported(path)
    assert draft.tree is not None
    lines = path.read_text(encoding="utf-8").splitlines()
    kinds = {
        "blocks": ("addressBlock", "registerFile"),
        "registers": ("egister",),
        "fields": ("field",),
    }
    assert len(draft.places) > 8
    for origin, (line, column) in draft.places.items():
        assert origin is not None
        assert column == 1
        assert any(kind in lines[line - 1] for kind in kinds[origin[1]])
