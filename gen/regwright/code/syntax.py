"""From the trees of the grammar to small ones of expressions, all that constants need.

tree-sitter reads C and C++ as they are on disk, broken code included: where a part is no code it
says so and goes on. Only this module and ``grammar`` know it.
"""

from collections.abc import Callable
from typing import Any, NamedTuple

#: Expressions nested deeper than this are not looked into.
DEEPEST = 120


class TypeName(NamedTuple):
    """A type as it is written: ``unsigned char``, how many ``*`` follow, its qualifiers.

    ``volatile`` and ``const`` are those of what the pointer, or the type itself, leads to;
    ``start`` is the byte at which ``volatile`` can be put. ``tag`` is the name of a structure.
    ``levels`` tells of each ``*`` whether the pointer itself is volatile.
    """

    words: tuple[str, ...]
    pointers: int = 0
    volatile: bool = False
    const: bool = False
    start: int = 0
    tag: str = ""
    levels: tuple[bool, ...] = ()


class Node(NamedTuple):
    """An expression. ``start:end`` are bytes of the text it was read from.

    ``kind`` is one of ``number name group unary binary choice cast deref address index member arrow
    call assign update sizeof comma other``; ``text`` the operator, name, or literal.
    """

    kind: str
    start: int
    end: int
    text: str = ""
    kids: tuple["Node", ...] = ()
    type: TypeName | None = None


_POINTERS = frozenset({"abstract_pointer_declarator", "pointer_declarator"})
#: The nodes of structures, unions and classes.
STRUCTURES = frozenset({"struct_specifier", "union_specifier", "class_specifier"})
_CASTS = frozenset({"reinterpret_cast", "static_cast", "const_cast"})


def text_of(node: Any) -> str:
    """Return the text of a node of the grammar."""
    return (node.text or b"").decode("utf-8", "replace")


def expression(node: Any, depth: int = 0) -> Node:
    """Return the expression that a node of the grammar stands for."""
    make = _MAKERS.get(node.type)
    if make is None or depth > DEEPEST:
        if depth > DEEPEST:
            return Node("other", node.start_byte, node.end_byte)
        return _other(node, depth)
    return make(node, depth + 1)


def _kids(node: Any, depth: int) -> tuple[Node, ...]:
    return tuple(expression(kid, depth) for kid in node.named_children if kid.type != "comment")


def _other(node: Any, depth: int) -> Node:
    return Node("other", node.start_byte, node.end_byte, node.type, _kids(node, depth + 1))


def _leaf(kind: str) -> Callable[[Any, int], Node]:
    def make(node: Any, _depth: int) -> Node:
        return Node(kind, node.start_byte, node.end_byte, text_of(node))

    return make


def _number(node: Any, _depth: int) -> Node:
    """Make a number; the grammar takes a sign before it for a part of it."""
    text, start, end = text_of(node), node.start_byte, node.end_byte
    if text[:1] not in ("-", "+"):
        return Node("number", start, end, text)
    number = Node("number", start + 1, end, text[1:])
    return Node("unary", start, end, text[0], (number,))


def _plain(kind: str, *fields: str) -> Callable[[Any, int], Node]:
    """Make an expression whose parts stand in ``fields`` of the grammar's node."""

    def make(node: Any, depth: int) -> Node:
        parts = [node.child_by_field_name(field) for field in fields]
        if None in parts:
            return _other(node, depth)
        kids = tuple(expression(part, depth) for part in parts)
        sign = node.child_by_field_name("operator")
        return Node(kind, node.start_byte, node.end_byte, text_of(sign) if sign else "", kids)

    return make


def _group(node: Any, depth: int) -> Node:
    kids = _kids(node, depth)
    return Node("group", node.start_byte, node.end_byte, "", kids[:1])


def _pointer(node: Any, depth: int) -> Node:
    made = _plain("deref", "argument")(node, depth)
    return made._replace(kind="address") if made.text == "&" else made


def _update(node: Any, depth: int) -> Node:
    return _plain("update", "argument")(node, depth)


def _cast(node: Any, depth: int) -> Node:
    kind, value = node.child_by_field_name("type"), node.child_by_field_name("value")
    if kind is None or value is None:
        return _other(node, depth)
    kids = (expression(value, depth),)
    return Node("cast", node.start_byte, node.end_byte, "", kids, type_name(kind))


def _sizeof(node: Any, depth: int) -> Node:
    kind, value = node.child_by_field_name("type"), node.child_by_field_name("value")
    kids = (expression(value, depth),) if value is not None else ()
    named = type_name(kind) if kind is not None else None
    return Node("sizeof", node.start_byte, node.end_byte, "", kids, named)


def _member(node: Any, depth: int) -> Node:
    base, field = node.child_by_field_name("argument"), node.child_by_field_name("field")
    if base is None or field is None:
        return _other(node, depth)
    is_arrow = any(kid.type == "->" for kid in node.children)
    kind = "arrow" if is_arrow else "member"
    kids = (expression(base, depth),)
    return Node(kind, node.start_byte, node.end_byte, text_of(field), kids)


def _index(node: Any, depth: int) -> Node:
    base = node.child_by_field_name("argument")
    at = node.child_by_field_name("index")
    if at is None:
        inside = node.child_by_field_name("indices")
        at = inside.named_children[0] if inside is not None and inside.named_children else None
    if base is None or at is None:
        return _other(node, depth)
    kids = (expression(base, depth), expression(at, depth))
    return Node("index", node.start_byte, node.end_byte, "", kids)


def _call(node: Any, depth: int) -> Node:
    """A call, or a cast that looks like one: ``(my_type)(3)``, ``reinterpret_cast<T>(3)``."""
    function = node.child_by_field_name("function")
    given = node.child_by_field_name("arguments")
    if function is None or given is None:
        return _other(node, depth)
    kids = _kids(given, depth)
    start, end = node.start_byte, node.end_byte
    kind = _cast_of_call(function) if len(kids) == 1 else None
    if kind is not None:
        return Node("cast", start, end, "", kids, kind)
    if function.type in ("identifier", "primitive_type", "sized_type_specifier"):
        return Node("call", start, end, text_of(function), kids)
    called = expression(function, depth)
    if called.kind == "cast" and len(kids) == 1 and called.kids[0].kind == "name":
        # (outer)(inner)(x), which the grammar takes for a call of (outer)(inner)
        word = called.kids[0]
        inner = Node("cast", word.start, end, "", kids, TypeName((word.text,), start=word.start))
        return called._replace(end=end, kids=(inner,))
    return Node("call", start, end, "", (called, *kids))


def _cast_of_call(function: Any) -> TypeName | None:
    """Return the type that what is called converts to, if it is a cast."""
    if function.type == "template_function":
        name = function.child_by_field_name("name")
        types = function.child_by_field_name("arguments")
        if name is not None and types is not None and text_of(name) in _CASTS:
            described = [kid for kid in types.named_children if kid.type == "type_descriptor"]
            return type_name(described[0]) if len(described) == 1 else None
    if function.type == "parenthesized_expression":
        inside = [kid for kid in function.named_children if kid.type != "comment"]
        if len(inside) == 1 and inside[0].type == "identifier":
            return TypeName((text_of(inside[0]),), start=inside[0].start_byte)
    return None


def _initializer(node: Any, depth: int) -> Node:
    kids = _kids(node, depth)
    if len(kids) == 1:
        return Node("group", node.start_byte, node.end_byte, "", kids)
    return Node("other", node.start_byte, node.end_byte, node.type, kids)


_MAKERS: dict[str, Callable[[Any, int], Node]] = {
    "number_literal": _number,
    "char_literal": _leaf("number"),
    "identifier": _leaf("name"),
    "field_identifier": _leaf("name"),
    "true": _leaf("name"),
    "false": _leaf("name"),
    "qualified_identifier": _leaf("name"),
    "parenthesized_expression": _group,
    "unary_expression": _plain("unary", "argument"),
    "binary_expression": _plain("binary", "left", "right"),
    "conditional_expression": _plain("choice", "condition", "consequence", "alternative"),
    "assignment_expression": _plain("assign", "left", "right"),
    "comma_expression": _plain("comma", "left", "right"),
    "pointer_expression": _pointer,
    "update_expression": _update,
    "cast_expression": _cast,
    "sizeof_expression": _sizeof,
    "field_expression": _member,
    "subscript_expression": _index,
    "call_expression": _call,
    "initializer_list": _initializer,
    "argument_list": _other,
}


def type_name(node: Any) -> TypeName:
    """Return the type that a ``type_descriptor``, or a declaration's specifiers, name."""
    words: list[str] = []
    tag = ""
    volatile = const = False
    for kid in node.children:
        if kid.type == "type_qualifier":
            volatile = volatile or kid.text == b"volatile"
            const = const or kid.text in (b"const", b"constexpr")
    for kid in node.children_by_field_name("type"):
        if kid.type in STRUCTURES:
            name = kid.child_by_field_name("name")
            tag = text_of(name) if name is not None else f"@{kid.start_byte}"
            words.append(tag)
        elif kid.type == "enum_specifier":
            words.append("enum")
        elif kid.type == "qualified_identifier":
            words.append(text_of(kid).rpartition(":")[2])
        else:
            words += text_of(kid).split()
    declarator = node.child_by_field_name("declarator")
    levels = _levels(declarator)
    return TypeName(tuple(words), len(levels), volatile, const, node.start_byte, tag, levels)


def _levels(declarator: Any) -> tuple[bool, ...]:
    """Return of each ``*`` of a declarator without a name whether the pointer is volatile."""
    levels: list[bool] = []
    while declarator is not None and declarator.type in _POINTERS and len(levels) < DEEPEST:
        levels.append(any(kid.text == b"volatile" for kid in declarator.named_children))
        inner = declarator.child_by_field_name("declarator")
        if inner is None:
            inner = next((kid for kid in declarator.children if kid.type in _POINTERS), None)
        declarator = inner
    return tuple(levels)


#: The nodes of the grammar that are expressions.
EXPRESSIONS = (frozenset(_MAKERS) - {"initializer_list", "argument_list", "true", "false"}) | {
    "concatenated_string",
    "compound_literal_expression",
    "generic_expression",
    "initializer_pair",
}
