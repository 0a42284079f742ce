"""What XML Schema lets pass everywhere, and comments that have no place in JSON."""

from __future__ import annotations

from pathlib import Path

import pytest

from conftest import Cli

XSI = 'xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"'
CHIP = """<chip {root} format="1" name="a">
{before}<space {space} name="d" size="1"/>
</chip>
"""


def _chip(root: str = "", before: str = "", space: str = "") -> str:
    return CHIP.format(root=root, before=before, space=space)


@pytest.mark.parametrize(
    ("text", "line", "name"),
    [
        (_chip(root=f'{XSI} xsi:type="chip"'), 1, "type"),
        (_chip(root=f'{XSI} xsi:noNamespaceSchemaLocation=""'), 1, "noNamespaceSchemaLocation"),
        (_chip(root=f'{XSI} xsi:noNamespaceSchemaLocation="a b"'), 1, "noNamespaceSchemaLocation"),
        (
            _chip(root=XSI, space='xsi:noNamespaceSchemaLocation="chip.xsd"'),
            2,
            "noNamespaceSchemaLocation",
        ),
        (_chip(space=f'{XSI} xsi:type="space"'), 2, "type"),
        (
            _chip(
                root=f'{XSI} xsi:noNamespaceSchemaLocation="c.xsd"',
                space=f'{XSI.replace("xsi", "i")} i:type="space"',
            ),
            2,
            "type",
        ),
    ],
)
def test_attributes_of_xml_schema(
    cli: Cli, tmp_path: Path, text: str, line: int, name: str
) -> None:
    (tmp_path / "a.xml").write_text(text)
    done = cli("check", "a.xml")
    assert done.returncode == 1
    assert f"a.xml:{line}:1: error: the attribute '{name}' of XML Schema" in done.stdout


@pytest.mark.parametrize("comment", ["<!---->", "<!--  -->", "<!-- \x7f -->"])
def test_comment_that_json_cannot_hold(cli: Cli, tmp_path: Path, comment: str) -> None:
    (tmp_path / "a.xml").write_text(_chip(before=comment + "\n"))
    done = cli("convert", "a.xml", "a.json")
    assert done.returncode == 0
    assert "a.xml:2:1: note: " in done.stderr
    assert cli("check", "a.json").stdout == "1 description, no findings\n"


def test_schema_location_comes_first(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "a.xml").write_text(_chip(root=f'{XSI} xsi:noNamespaceSchemaLocation="s/chip.xsd"'))
    cli("convert", "a.xml", "a.json")
    text = (tmp_path / "a.json").read_text()
    assert text.startswith('{\n  "$schema": "s/chip.schema.json",\n')
