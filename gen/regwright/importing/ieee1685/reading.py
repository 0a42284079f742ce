"""Import a component of IEEE 1685 with its registers."""

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from regwright.importing.draft import Draft
from regwright.importing.ieee1685.own_extensions import read_own

if TYPE_CHECKING:
    from regwright.importing.ieee1685.documents import Document
    from regwright.importing.ieee1685.log import Log


class Wishes(NamedTuple):
    """What the user wants: which memory map, where other documents are, which schemas to use.

    ``map`` may have ``/`` and the name of a remap behind it.
    """

    map: str | None = None
    search: tuple[Path, ...] = ()
    schema: Path | None = None


def import_ieee1685(name: str, data: bytes, wishes: Wishes) -> Draft:
    """Return the draft that the component in ``data`` makes; nothing is raised.

    ``name`` is that of the file. Whatever is odd, lost or makes no sense becomes a remark.
    """
    from regwright.importing.ieee1685.editions import NoEdition, edition_of
    from regwright.importing.ieee1685.library import Library
    from regwright.importing.ieee1685.log import Log
    from regwright.importing.ieee1685.markup import Unreadable, parse

    draft = Draft()
    log = Log(draft)
    try:
        root = parse(data)
        edition = edition_of(root.tag)
    except Unreadable as problem:
        draft.refuse("not-readable", problem.message, problem.line, problem.column)
        return draft
    except NoEdition as problem:
        draft.refuse("not-readable", str(problem))
        return draft
    from regwright.importing.ieee1685.documents import Document

    document = Document(root, edition, log, Library(wishes.search))
    if wishes.schema is not None:
        _validate(document, log, Path(wishes.schema))
    if document.names[root.tag] not in ("component", "typeDefinitions"):
        kind = document.names[root.tag][:60]
        message = f"this is a <{kind}> and not a component: it has no registers"
        draft.refuse("not-readable", message, root.sourceline or 1)
        return draft
    if wishes.map is None and read_own(root, draft, lambda element: _value(document, element)):
        document.report_component()
        log.finish()
        return draft
    if edition.qualified and b"dependency" in data:
        document.report_formulas()
    _describe(document, draft, log, wishes, name)
    log.finish()
    return draft


def _describe(document: "Document", draft: Draft, log: "Log", wishes: Wishes, name: str) -> None:
    from regwright.importing.ieee1685.choosing import NoMap, choose
    from regwright.importing.ieee1685.making import Making, TooMuch
    from regwright.importing.ieee1685.maps import description
    from regwright.importing.ieee1685.numbers import Unclear

    making = Making()
    try:
        choice = choose(document, wishes.map)
        tree = description(document, choice, making, name)
    except NoMap as problem:
        log.refuse("map-unclear", str(problem), problem.element)
    except Unclear as problem:
        log.refuse("number-unclear", str(problem), problem.element)
    except TooMuch as problem:
        log.refuse("too-much", str(problem), problem.element)
    else:
        draft.tree = tree
        draft.locate = partial(making.places, tree)


def _value(document: "Document", element: Any) -> int | None:
    """Return the whole number that ``element`` says, if it is one."""
    from regwright.importing.ieee1685.numbers import Unclear

    try:
        return document.number(element)
    except Unclear:
        return None


def _validate(document: "Document", log: "Log", folder: Path) -> None:
    """Report what the standard's schemas find, which decides nothing."""
    from regwright.importing.draft import Remark
    from regwright.importing.ieee1685.schemas import NoSchema, schema_errors
    from regwright.model.finding import NOTE

    try:
        errors = schema_errors(document.root, document.edition, folder)
    except NoSchema as problem:
        log.tell("schema-not-used", str(problem), document.root)
        return
    for line, message in errors:
        log.add(Remark("schema-error", NOTE, message, max(line, 1)))
