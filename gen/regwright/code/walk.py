"""Find the whole expressions around given places of a file, in one walk through its tree."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from typing import Any, NamedTuple

from regwright.code.syntax import EXPRESSIONS

ASSEMBLY = "gnu_asm_expression"
ASSERTION = "static_assert_declaration"
_SKIPPED = frozenset(
    {
        "comment",
        "string_literal",
        "char_literal",
        "raw_string_literal",
        "preproc_def",
        "preproc_function_def",
        "preproc_include",
        "system_lib_string",
        "concatenated_string",
    }
)
_FUNCTIONS = frozenset({"function_definition", "lambda_expression"})
#: Where an identifier is no expression: it names what is declared, or a part of a directive.
_NAMES = frozenset({"declarator", "name", "label", "type"})
_REFERENCE = "reference_declarator"
#: Where a reference is bound to what it refers to.
_BINDING = frozenset({"init_declarator", "field_declaration", "optional_parameter_declaration"})
_DIRECTIVES = frozenset({"preproc_if", "preproc_elif", "preproc_ifdef", "preproc_elifdef"})


class Found(NamedTuple):
    """A whole expression, or an inline assembly, and the byte at which its function starts.

    One to which a reference ``is_bound`` is not read there.
    """

    node: Any
    function: int
    is_bound: bool


class _Step(NamedTuple):
    """A node on the way down: its kind, and the byte at which the function around it starts."""

    kind: str
    function: int


def expressions_around(root: Any, places: list[int]) -> Iterator[Found]:
    """Yield the outermost expression around each of ``places``, which are sorted, once each."""
    cursor = root.walk()
    way: list[_Step] = []
    following = 0
    number = len(places)
    while following < number:
        node = cursor.node
        start, end = node.start_byte, node.end_byte
        while following < number and places[following] < start:
            following += 1
        if following < number and places[following] < end:
            kind, field = node.type, cursor.field_name
            function = way[-1].function if way else 0
            if _is_whole(kind, field, way):
                yield Found(node, function, _is_bound(node, field, way))
            elif _is_open(kind, field, way) and cursor.goto_first_child():
                way.append(_Step(kind, start if kind in _FUNCTIONS else function))
                continue
            following = bisect_left(places, end, following)
        if not _ahead(cursor, way):
            return


def _is_whole(kind: str, field: str | None, way: list[_Step]) -> bool:
    if kind in (ASSEMBLY, ASSERTION):
        return True
    is_name = field in _NAMES or (bool(way) and way[-1].kind == _REFERENCE)
    return kind in EXPRESSIONS and not is_name and not _in_condition(field, way)


def _is_bound(node: Any, field: str | None, way: list[_Step]) -> bool:
    kinds = [step.kind for step in way[-2:]]
    if kinds[-1:] == ["initializer_list"] or kinds[-1:] == ["argument_list"]:
        kinds.pop()
        node = node.parent
    elif field not in ("value", "default_value"):
        return False
    if not kinds or kinds[-1] not in _BINDING or node is None or node.parent is None:
        return False
    declarator = node.parent.child_by_field_name("declarator")
    return declarator is not None and declarator.type == _REFERENCE


def _is_open(kind: str, field: str | None, way: list[_Step]) -> bool:
    return kind not in _SKIPPED and not _in_condition(field, way)


def _in_condition(field: str | None, way: list[_Step]) -> bool:
    return bool(way) and way[-1].kind in _DIRECTIVES and field in ("condition", "name")


def _ahead(cursor: Any, way: list[_Step]) -> bool:
    """Go to the next node that is not within the one at hand."""
    while not cursor.goto_next_sibling():
        if not cursor.goto_parent():
            return False
        way.pop()
    return True
