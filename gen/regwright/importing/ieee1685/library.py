"""Find other documents by what they call themselves, in the folders of a search path."""

from __future__ import annotations

from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from regwright.importing.ieee1685.documents import Document, Identifier
from regwright.importing.ieee1685.editions import NoEdition, edition_of
from regwright.importing.ieee1685.markup import Unreadable, parse
from regwright.read.hardened import OPTIONS
from regwright.read.source import SIZE_LIMIT

if TYPE_CHECKING:
    from lxml import etree

#: So many files of a folder are looked at.
_MOST_FILES = 10_000
#: What a document calls itself stands within its first so many bytes.
_START = 64 << 10


class Library:
    """Documents of the search path. A file is opened only because it lies in one of its folders.

    What a document calls itself is never made into a path.
    """

    def __init__(self, folders: tuple[Path, ...]) -> None:
        self._folders = tuple(Path(folder) for folder in folders)
        self._read: dict[tuple[object, ...], Document | None] = {}
        #: How many definitions have been read so far, each as often as something refers to it.
        self.uses = 0
        #: Definitions that are being read, the outermost first.
        self.open_definitions: list[etree._Element] = []

    @cached_property
    def _index(self) -> dict[Identifier, Path]:
        found: dict[Identifier, Path] = {}
        for folder in self._folders:
            if not folder.is_dir():
                continue
            for path in sorted(folder.glob("*.xml"))[:_MOST_FILES]:
                identifier = _identifier_in(path)
                if identifier is not None:
                    found.setdefault(identifier, path)
        return found

    def find(self, asking: Document, reference: etree._Element) -> Document | None:
        """Return the document that ``reference`` names; ``None``, reported, if there is none."""
        vendor, library, name, version = (
            asking.attribute(reference, part) for part in ("vendor", "library", "name", "version")
        )
        identifier = (vendor, library, name, version)
        overrides = _overrides(asking, reference)
        if identifier == asking.identifier and not overrides:
            return asking
        path = self._index.get(identifier)
        if path is None:
            where = "give its folder with --search" if not self._folders else "it is in no file"
            message = f"the document {':'.join(identifier)[:200]!r} is not found; {where}"
            if self._folders:
                message += " of the folders searched"
            asking.log.refuse("definition-not-found", message, reference)
            return None
        key = (identifier, *sorted(overrides.items()))
        if key not in self._read:
            self._read[key] = self._document(asking, reference, path, overrides)
        return self._read[key]

    def _document(
        self,
        asking: Document,
        reference: etree._Element,
        path: Path,
        overrides: dict[str, str],
    ) -> Document | None:
        try:
            root = parse(path.read_bytes())
            edition = edition_of(root.tag)
        except (OSError, Unreadable, NoEdition) as problem:
            message = f"the document in {path.name} cannot be read: {problem}"
            asking.log.refuse("definition-not-found", message, reference)
            return None
        return Document(root, edition, asking.log.of_file(path.name), self, overrides)


def _overrides(asking: Document, reference: etree._Element) -> dict[str, str]:
    """Return the values that ``reference`` gives to parameters of the document it names."""
    values = reference.iter(asking.tag("configurableElementValue"))
    return {
        asking.attribute(item, "referenceId"): asking.text(item)
        for item in values
        if asking.attribute(item, "referenceId")
    }


def _identifier_in(path: Path) -> Identifier | None:
    """Return what the document in ``path`` calls itself, if it is one."""
    from lxml import etree

    try:
        if not path.is_file() or path.stat().st_size > SIZE_LIMIT:
            return None
        with path.open("rb") as file:
            start = file.read(_START)
    except OSError:
        return None
    if b"<!DOCTYPE" in start:
        return None
    parser = etree.XMLPullParser(("start", "end"), **OPTIONS)
    found: dict[str, str] = {}
    try:
        parser.feed(start)
        depth = 0
        for event, element in parser.read_events():
            depth += 1 if event == "start" else -1
            if event == "end" and depth == 1:
                found.setdefault(element.tag.rpartition("}")[2], (element.text or "").strip())
    except etree.XMLSyntaxError:
        return None
    if not {"vendor", "library", "name", "version"} <= found.keys():
        return None
    return found["vendor"], found["library"], found["name"], found["version"]
