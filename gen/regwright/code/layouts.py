"""How structures and unions are laid out, where every compiler for such chips must agree.

A layout is sure only when it is the same with every member aligned to its own size and with none
aligned at all: then neither the core nor a switch of the compiler makes a difference. Bit-fields,
enumerations, other alignments that are asked for, base classes and types that the sources do not
define leave it open.
"""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from regwright.code import integers
from regwright.code.integers import DataModel
from regwright.code.scope import Layout, Member, Scope
from regwright.code.seen import Where
from regwright.code.syntax import STRUCTURES, TypeName, text_of, type_name

_DEEPEST = 12
_LARGEST = 1 << 20
#: What may stand before and behind the members of a structure, and before a member.
_BESIDE = frozenset(
    {
        "ERROR",
        "alignas_qualifier",
        "attribute_declaration",
        "attribute_specifier",
        "base_class_clause",
        "ms_declspec_modifier",
        "type_qualifier",
    }
)
#: What there moves nothing.
_HARMLESS = re.compile(
    rb"(?:__attribute(?:__)?|__packed__|packed|__may_alias__|may_alias|const|volatile|mutable"
    rb"|__const|__volatile__|_Atomic|[\s(),])*+"
)
_NOT_LAID_OUT = frozenset({"comment", "access_specifier", "static_assert_declaration"})


class _Sized(NamedTuple):
    size: int
    alignment: int
    is_sure: bool


class _Around(NamedTuple):
    """The structure that members are put into."""

    layout: Layout
    depth: int
    is_union: bool
    is_packed: bool

    def add(self, sized: _Sized, count: int = 1) -> int:
        """Make room for ``count`` of something; return where the first one stands."""
        layout = self.layout
        start = 0 if self.is_union else layout.size
        end = start + sized.size * count
        layout.size = min(max(layout.size, end), _LARGEST)
        is_aligned = self.is_packed or not start % sized.alignment
        if not (sized.is_sure and is_aligned and sized.size > 0 and end <= _LARGEST):
            layout.is_sure = False
        if not self.is_packed:
            layout.alignment = max(layout.alignment, sized.alignment)
        return start


class Layouts:
    """Works out the layouts of one file's structures and puts them into the scope."""

    def __init__(self, file: int, scope: Scope, model: DataModel) -> None:
        """Take structures of the file number ``file``."""
        self._file = file
        self._scope = scope
        self._model = model
        #: What goes behind the name that a structure without one gets from its place.
        self._mark = f":{file}"

    def define(self, node: Any, tag: str) -> None:
        """Take a structure without a name, which is to be known as ``tag``."""
        self._mark = tag[tag.find(":") :]
        self._scope.layouts.add(tag, self._layout(node, 0))

    def take(self, nodes: list[Any]) -> None:
        """Take the structures ``nodes`` of the file; work them out when a layout is asked for."""

        def make() -> None:
            for node in sorted(nodes, key=lambda item: item.end_byte):
                self._take(node, 0)

        self._scope.layouts.later(map(self._tag, nodes), make)

    def _take(self, node: Any, depth: int) -> None:
        """Put a layout into the scope; a structure that has two of them has none for sure."""
        layout = self._layout(node, depth)
        known = self._scope.layouts.add(self._tag(node), layout)
        known.is_sure = known.is_sure and known.is_like(layout)

    def _tag(self, node: Any) -> str:
        name = node.child_by_field_name("name")
        return text_of(name) if name is not None else f"@{node.start_byte}{self._mark}"

    def _layout(self, node: Any, depth: int) -> Layout:
        body = node.child_by_field_name("body")
        layout = Layout(0, {})
        beside = _beside(node.children)
        layout.is_sure = _HARMLESS.fullmatch(beside) is not None
        if body is None or depth > _DEEPEST:
            layout.is_sure = False
            return layout
        around = _Around(layout, depth, node.type == "union_specifier", b"packed" in beside)
        for item in body.named_children:
            if item.type == "field_declaration":
                self._take_field(item, around)
            elif item.type not in _NOT_LAID_OUT:
                layout.is_sure = False
        if not layout.size or layout.size % layout.alignment:
            layout.is_sure = False
        return layout

    def _take_field(self, node: Any, around: _Around) -> None:
        """Add the members of one declaration."""
        kids = node.children
        if any(kid.type == "storage_class_specifier" and kid.text == b"static" for kid in kids):
            return
        kind = type_name(node)
        if kind.tag.startswith("@"):
            kind = kind._replace(tag=kind.tag + self._mark)
        layout = around.layout
        beside = _beside(kids)
        if b"packed" in beside or not _HARMLESS.fullmatch(beside):
            layout.is_sure = False
        if any(kid.type == "bitfield_clause" for kid in kids):
            layout.is_sure = False
            return
        inner = next((kid for kid in kids if kid.type in STRUCTURES), None)
        if inner is not None and inner.child_by_field_name("body") is not None:
            self._take(inner, around.depth + 1)
        declarators = node.children_by_field_name("declarator")
        if not declarators:
            self._take_unnamed(kind, around)
        for declarator in declarators:
            name, stars, count = _shape(declarator, self._model)
            if name is None or count is None:
                layout.is_sure = False
                continue
            member_kind = kind._replace(pointers=stars)
            sized = self._sized(member_kind)
            start = around.add(sized, max(count, 1))
            at = Where(self._file, name.start_byte, name.end_byte)
            member = Member(start, member_kind, sized.size, count, at)
            layout.members.setdefault(text_of(name), member)

    def _take_unnamed(self, kind: TypeName, around: _Around) -> None:
        """Add the members of a structure without a name, which are those of the one around it.

        One with a name is no member (ISO C11 6.7.2.1), but is taken for one on request.
        """
        layout = around.layout
        found = self._scope.layouts.get(kind.tag) if kind.tag.startswith("@") else None
        if found is None:
            layout.is_sure = layout.is_sure and kind.words == ("enum",)
            return
        start = around.add(_Sized(found.size, found.alignment, found.is_sure))
        for name, member in found.members.items():
            layout.members.setdefault(name, member._replace(offset=start + member.offset))

    def _sized(self, kind: TypeName) -> _Sized:
        resolved = self._scope.resolve_type(kind)
        if resolved.pointers:
            size = self._model.pointer_bits // 8
            return _Sized(size, size, is_sure=True)
        layout = self._scope.layouts.get(resolved.tag or " ".join(resolved.words))
        if layout is not None:
            return _Sized(layout.size, layout.alignment, layout.is_sure)
        found = integers.named_type(resolved.words, self._model)
        if found is None:
            return _Sized(1, 1, is_sure=False)
        size = max(found.bits // 8, 1)
        return _Sized(size, size, is_sure=True)


def _beside(kids: list[Any]) -> bytes:
    """Return the attributes, qualifiers and base classes among the parts of a structure."""
    return b" ".join(kid.text or b"" for kid in kids if kid.type in _BESIDE)


def _shape(node: Any, model: DataModel) -> tuple[Any, int, int | None]:
    """Return a declarator's name, its number of ``*``, and of elements: 0 for no row."""
    stars, count = 0, 0
    for _ in range(16):
        if node is None:
            break
        if node.type == "field_identifier":
            return node, stars, count
        if node.type == "pointer_declarator":
            stars += 1
        elif node.type == "array_declarator":
            size = node.child_by_field_name("size")
            found = integers.literal(text_of(size), model) if size is not None else None
            if found is None or not 0 < found[0] < _LARGEST or count:
                return None, stars, None
            count = found[0]
        else:
            return None, stars, None
        node = node.child_by_field_name("declarator")
    return None, stars, None
