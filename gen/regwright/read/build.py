"""Build the model of a chip from the tree that both spellings share."""

from __future__ import annotations

from regwright.model.chip import (
    Block,
    Chip,
    Document,
    Instance,
    Instruction,
    Region,
    Space,
    Span,
    Window,
)
from regwright.model.finding import ERROR, Finding
from regwright.model.origin import Origin
from regwright.read.build_register import (
    Tree,
    build_aliases,
    build_array,
    build_register,
    build_silences,
)
from regwright.read.numbers import addresses, number

#: Blocks within blocks, counted from the chip.
DEEPEST = 8
#: What a chip has besides registers and what places them.
REST = frozenset(
    {
        "memories",
        "vectorTable",
        "configuration",
        "clock",
        "identity",
        "ports",
        "packages",
        "build",
    }
)


class TooDeep(Exception):
    """Blocks are nested deeper than :data:`DEEPEST`; carries the finding."""

    def __init__(self, origin: Origin) -> None:
        message = f"blocks are nested more than {DEEPEST} deep; flatten the description"
        super().__init__(message)
        self.finding = Finding("nesting", ERROR, message, origin)


def build_chip(tree: Tree) -> Chip:
    """Return the chip that ``tree`` describes. The tree has passed the schema.

    Raises :class:`TooDeep`.
    """
    get = tree.get
    spaces = tuple(
        _space(item, (None, "spaces", index)) for index, item in enumerate(tree["spaces"])
    )
    first = spaces[0].name
    rest: Tree = {}
    if not REST.isdisjoint(tree):  # many descriptions stop at registers: not loaded for them
        from regwright.read.build_rest import build_rest

        rest = build_rest(tree)
    return Chip(
        name=tree["name"],
        spaces=spaces,
        title=get("title"),
        kind=get("kind", "chip"),
        family=get("family"),
        compiler_macro=get("compilerMacro"),
        prefix=get("prefix", ""),
        width=get("width", 8),
        access=get("access", "read-write"),
        byte_order=get("byteOrder", "little"),
        document=_document(tree["document"]) if "document" in tree else None,
        notes=get("notes"),
        windows=tuple(
            _window(item, (None, "windows", index)) for index, item in enumerate(get("windows", ()))
        ),
        registers=tuple(
            build_register(item, (None, "registers", index), first)
            for index, item in enumerate(get("registers", ()))
        ),
        blocks=tuple(
            _block(item, (None, "blocks", index), first, 1)
            for index, item in enumerate(get("blocks", ()))
        ),
        silences=build_silences(tree, None),
        instructions=tuple(
            _instruction(item, (None, "instructions", index))
            for index, item in enumerate(get("instructions", ()))
        ),
        int_width=get("intWidth"),
        **rest,
    )


def _document(tree: Tree) -> Document:
    get = tree.get
    return Document(tree["title"], get("revision"), get("date"), get("notes"), (None, "document"))


def _space(tree: Tree, origin: Origin) -> Space:
    regions = tuple(
        _region(item, (origin, "regions", index))
        for index, item in enumerate(tree.get("regions", ()))
    )
    return Space(
        tree["name"],
        number(tree["size"]),
        tree.get("unit", 8),
        tree.get("pointer", True),
        tree.get("title"),
        regions,
        origin,
    )


def _region(tree: Tree, origin: Origin) -> Region:
    first, last = number(tree["first"]), number(tree["last"])
    return Region(tree["name"], tree["kind"], first, last, tree.get("title"), origin)


def _window(tree: Tree, origin: Origin) -> Window:
    span = tree.get("singleBit")
    return Window(
        tree["from"],
        number(tree["first"]),
        number(tree["last"]),
        tree["into"],
        number(tree["offset"]),
        Span(number(span["first"]), number(span["last"])) if span else None,
        origin,
    )


def _instruction(tree: Tree, origin: Origin) -> Instruction:
    get = tree.get
    return Instruction(
        tuple(tree["names"].split()),
        tree["space"],
        tree["access"],
        tree["address"],
        get("kind", "instruction"),
        get("bit"),
        get("value"),
        origin,
    )


def _instance(tree: Tree, origin: Origin, space: str) -> Instance:
    get = tree.get
    return Instance(
        tree["name"],
        addresses(tree["base"], space),
        get("title"),
        get("prefix"),
        get("page"),
        origin,
    )


def _block(tree: Tree, origin: Origin, space: str, depth: int) -> Block:
    if depth > DEEPEST:
        raise TooDeep(origin)
    get = tree.get
    return Block(
        name=tree["name"],
        title=get("title"),
        prefix=get("prefix"),
        base=addresses(tree["base"], space) if "base" in tree else (),
        offset=number(tree["offset"]) if "offset" in tree else None,
        size=number(tree["size"]) if "size" in tree else None,
        array=build_array(tree) if "count" in tree else None,
        width=get("width"),
        access=get("access"),
        page=get("page"),
        notes=get("notes"),
        instances=tuple(
            _instance(item, (origin, "instances", index), space)
            for index, item in enumerate(get("instances", ()))
        ),
        registers=tuple(
            build_register(item, (origin, "registers", index), space)
            for index, item in enumerate(get("registers", ()))
        ),
        blocks=tuple(
            _block(item, (origin, "blocks", index), space, depth + 1)
            for index, item in enumerate(get("blocks", ()))
        ),
        silences=build_silences(tree, origin),
        aliases=build_aliases(tree),
        printed=get("printed"),
        review=get("review"),
        origin=origin,
    )
