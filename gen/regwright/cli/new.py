"""``regwright new``: write a description to start from."""

from __future__ import annotations

import os
import re
import sys
from pathlib import Path

import click

from regwright.cli.exits import COULD_NOT_RUN
from regwright.cli.terminal import complain


def _name(_ctx: click.Context, _parameter: click.Parameter, value: str) -> str:
    if not re.fullmatch(r"[A-Za-z][A-Za-z0-9_]{0,47}", value):
        raise click.BadParameter("a letter, then letters, digits and underscores, 48 at most")
    return value


@click.command(
    "new",
    short_help="Start a description, with comments.",
    epilog="Example: regwright new mychip && regwright check mychip.xml",
)
@click.argument("name", callback=_name)
@click.option(
    "--as",
    "spelling",
    type=click.Choice(["xml", "json"]),
    default="xml",
    show_default=True,
    help="The spelling to write.",
)
def command(name: str, spelling: str) -> None:
    """Write NAME.xml (or NAME.json), a commented description to start from, that checks clean.

    Memories, vectors, configuration, clock, pins and names for tools stand in comments of the XML
    and in place in the JSON, which has no comments. A file that is already there is never replaced.
    """
    from regwright.format.resources import folder
    from regwright.write.files import CannotWrite, pending, write

    text = (folder("templates") / "start.xml").read_text(encoding="utf-8")
    text = text.replace("CHIP_NAME", name)
    if spelling == "json":
        text = _as_json(_with_all_parts(text))
    try:
        file = pending(Path(), f"{name}.{spelling}", text)
        if os.path.lexists(file.path):
            raise CannotWrite(f"{file.path}: is already there; remove it or choose another name")
        write([file])
    except CannotWrite as problem:
        complain(str(problem))
        sys.exit(COULD_NOT_RUN)
    click.echo(f"{file.path}")


def _with_all_parts(text: str) -> str:
    """Return the description with the parts that stand in comments at its end put into place.

    Each part is a line of comment with one of its elements, several lines, in the next comment.
    """
    body, _, rest = text.rpartition("  </register>\n")
    parts = re.findall(r"(  <!-- [^\n]* -->\n)  <!--\n(.*?)  -->\n", rest, re.DOTALL)
    spaces, *others = (about + elements for about, elements in parts)
    for element, before in (("  <window", spaces), ("  <register", "".join(others))):
        place = body.rindex("  <!--", 0, body.index(element))
        body = body[:place] + before + body[place:]
    return f"{body}  </register>\n</chip>\n"


def _as_json(text: str) -> str:
    from regwright.read.source import Source
    from regwright.read.xml_text import read_xml_with_comments
    from regwright.write.spelling_json import to_json

    tree, _ = read_xml_with_comments(Source("start.xml", text.encode("utf-8"), "xml"))
    return to_json(tree)
