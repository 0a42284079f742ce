"""Hold a file against the standard's own schemas, in a folder of the user's."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from regwright.read.hardened import OPTIONS

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.editions import Edition

_INDEX = "index.xsd"


class NoSchema(Exception):
    """There is no schema for the edition in the folder, or it cannot be used; says why."""


def schema_errors(root: etree._Element, edition: Edition, folder: Path) -> list[tuple[int, str]]:
    """Return the line and message of each error that the schema finds.

    ``folder`` has the edition's files, or a folder named after its year that has them. Raises
    :class:`NoSchema`.
    """
    from lxml import etree

    path = next(
        (
            place / _INDEX
            for place in (folder / edition.folder, folder)
            if edition.folder and (place / _INDEX).is_file()
        ),
        None,
    )
    if path is None:
        raise NoSchema(f"there is no {_INDEX} for edition {edition.label} in {folder.name!r}")
    parser = etree.XMLParser(**OPTIONS)
    try:
        document = etree.parse(str(path), parser)
        if document.getroot().get("targetNamespace") != edition.namespace:
            raise NoSchema(f"the schemas in {path.parent.name!r} are of another edition")
        schema = etree.XMLSchema(document)
    except (OSError, etree.LxmlError) as problem:
        raise NoSchema(f"the schemas in {path.parent.name!r} cannot be used: {problem}") from None
    if schema.validate(root):
        return []
    namespace = f"{{{edition.namespace}}}"
    return [(item.line, item.message.replace(namespace, "")) for item in schema.error_log]
