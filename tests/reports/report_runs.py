"""Runs for the tests of reports: hostile texts, each way to fail, and what is clean."""

from __future__ import annotations

from pathlib import Path

from regwright.pipeline import check
from regwright.read.source import Source, spelling_of
from regwright.reports import Result, Run, result_of, unread
from regwright.rules.settings import DEFAULT, Settings

ROOT = Path(__file__).resolve().parents[2]
SCRIPT = "<script>alert(1)</script>"
TITLE = f"{SCRIPT} | `x` ]]> \" ' [here](https://elsewhere.example/)"

_SPACES = """
  <space name="data" size="0x200"/><space name="io" size="0x40" pointer="false"/>
  <window from="io" first="0x00" last="0x3F" into="data" offset="0x20"/>
"""


def _attribute(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;").replace('"', "&quot;")


def xml(registers: str, name: str = "sorrel", title: str = "") -> str:
    titled = f' title="{_attribute(title)}"' if title else ""
    return f'<chip format="1" name="{name}"{titled}>{_SPACES}{registers}\n</chip>\n'


OFFSET = '<register name="OUT_A" address="io:0x18 data:0x18"/>'
#: An error, a note, and a message with text of the description in it.
MIXED = f"""
  {OFFSET}
  <register name="MODE" address="data:0x100"><field name="M&lt;{SCRIPT.replace("<", "&lt;")}"
    bits="4:6"/></register>
  <register name="FLAG" address="data:0x102">
    <field name="DONE" bits="0" modifiedWriteValue="oneToClear"/>
    <field name="GO" bits="7:1"/></register>"""
TEXTS = {
    "chips/mixed.xml": xml(MIXED, title=TITLE),
    "chips/clean.xml": xml('<register name="A" address="data:0x100"/>'),
    "chips/a b&<i>%#é.json": """{ "format": 1, "name": "other",
  "spaces": [{ "name": "data", "size": "0x200" }, { "name": "io", "size": "0x40" }],
  "windows": [{ "from": "io", "first": "0x00", "last": "0x3F", "into": "data", "offset": "0x20" }],
  "registers": [{ "name": "OUT_A", "title": "𝄞", "address": "io:0x18 data:0x18" }] }
""",
    "chips/broken.json": '{ "format": 1,\n  "name": "x" "y" }\n',
    "chips/unknown.xml": xml('<regsiter name="A" address="data:0x100"></regsiter>'),
    "chips/\x1b[2J\n\udcff.xml": "<chip",
}
GONE = unread("chips/gone.xml", "'chips/gone.xml': cannot be read: No such file or directory")


def checked(name: str, text: str, settings: Settings = DEFAULT) -> Result:
    data = text.encode("utf-8")
    return result_of(check(Source(name, data, spelling_of(name, data)), "", settings))


def run_of(*names: str, settings: Settings = DEFAULT) -> Run:
    """Return a run over the named texts, over all of them and an unreadable file without names."""
    results = [checked(name, TEXTS[name], settings) for name in names or TEXTS]
    return Run(results, settings, [] if names else [GONE])
