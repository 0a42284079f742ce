"""What declarations define: constants, enumerators, pointers, objects at addresses, structures."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from itertools import chain
from typing import Any, NamedTuple

from regwright.code.blocks import Block, Blocks
from regwright.code.directives import Directives
from regwright.code.grammar import query
from regwright.code.placed import placed
from regwright.code.scope import Constant, Scope
from regwright.code.seen import Where
from regwright.code.syntax import TypeName, text_of, type_name
from regwright.code.text import CPP, CodeText

_C_QUERY = """
(declaration (init_declarator)) @init
(enum_specifier body: (_)) @enum
(struct_specifier body: (_)) @structure
(union_specifier body: (_)) @structure
(type_definition) @type
(compound_statement) @block
(assignment_expression left: (identifier) @set)
(update_expression argument: (identifier) @set)
(pointer_expression operator: "&" argument: (identifier) @set)
"""
_CPP_QUERY = (
    _C_QUERY
    + """
(class_specifier body: (_)) @structure
(alias_declaration) @alias
(field_declaration default_value: (_)) @member
(namespace_definition body: (_)) @space
"""
)
_LONGEST = 4000
#: Arms of a conditional within an enumeration that are looked into.
_MOST_ARMS = 64
_ARMS = frozenset({"preproc_if", "preproc_ifdef"})
_OTHER_ARMS = frozenset({"preproc_elif", "preproc_elifdef", "preproc_else"})


class Span(NamedTuple):
    """The bytes ``start:end`` of a file."""

    start: int
    end: int


Nodes = dict[str, list[Any]]


def structures(language: str, root: Any) -> Nodes:
    """Return the nodes of ``root`` that may define something, by what they are."""
    return query(language, _CPP_QUERY if language == CPP else _C_QUERY, root)


class _Declarator(NamedTuple):
    """What a declarator says: its name, how many ``*``, whether it is const, or a reference.

    ``levels`` tells of each ``*`` whether the pointer itself is volatile.
    """

    name: Any
    levels: tuple[bool, ...]
    is_fixed: bool
    is_reference: bool


class _Count(NamedTuple):
    """Where the counting of enumerators is: ``plus`` behind ``value``, from 0 when that is none.

    It is not known behind a conditional, nor where a value is too long to be looked at.
    """

    value: Any = None
    plus: int = 0
    is_known: bool = True


class Declarations:
    """Puts what the declarations of one file define into a scope."""

    def __init__(self, file: int, source: CodeText, found: Directives, scope: Scope) -> None:
        """Take the declarations of ``source``, the file number ``file``."""
        self._file = file
        self._source = source
        self._directives = found
        self._scope = scope
        self._blocks = Blocks(())
        #: Where each name is set to something else, or its address taken.
        self._set: dict[bytes, list[int]] = {}

    def take(self, nodes: Nodes) -> list[Constant]:
        """Take them all; return the constants in the order of their places."""
        scoped = (node for node in nodes.get("enum", []) if _is_scoped(node))
        named = (node for node in nodes.get("structure", []) if node.child_by_field_name("name"))
        self._blocks = Blocks(chain(nodes.get("block", []), nodes.get("space", []), named, scoped))
        for node in nodes.get("set", []):
            self._set.setdefault(self._bytes(node), []).append(node.start_byte)
        for node in nodes.get("type", []):
            self._take_type(node)
        for node in nodes.get("alias", []):
            self._take_alias(node)
        made = list(self._made(nodes))
        made.sort(key=lambda item: item.start)
        for found in made:
            self._scope.constants.add(found.name, self._file, found)
        return made

    def _made(self, nodes: Nodes) -> Iterator[Constant]:
        for whole in _once(nodes.get("init", [])):
            for node in whole.children_by_field_name("declarator"):
                if node.type == "init_declarator":
                    declarator = node.child_by_field_name("declarator")
                    value = node.child_by_field_name("value")
                    yield from self._initialized(declarator, value, whole)
        for whole in _once(nodes.get("member", [])):
            declarators = whole.children_by_field_name("declarator")
            values = whole.children_by_field_name("default_value")
            if len(declarators) == len(values):
                for declarator, value in zip(declarators, values, strict=True):
                    yield from self._initialized(declarator, value, whole)
        for node in nodes.get("enum", []):
            yield from self._enumerators(node.child_by_field_name("body"), _Count())
        for item in placed(self._source.data, self._file, self._directives):
            item.block = self._blocks.around(item.start)
            yield item

    def _constant(
        self, name: Span, value: Span, whole: Span, form: str, kind: TypeName | None
    ) -> Constant:
        data, file = self._source.data, self._file
        return Constant(
            data[name.start : name.end].decode("utf-8", "replace"),
            *(file, self._directives.arms_at(name.start), name.start),
            *(data[value.start : value.end], Where(file, *value), Where(file, *whole)),
            *(form, kind),
            block=self._blocks.around(name.start),
        )

    def _initialized(self, declarator: Any, value: Any, whole: Any) -> Iterator[Constant]:
        """Yield the constant that a declarator with an initializer gives, if it is one."""
        if declarator is None or value is None or value.end_byte - value.start_byte > _LONGEST:
            return
        name, levels, is_fixed, is_reference = _declared(declarator)
        if name is None:
            return
        kind = _tagged(type_name(whole), self._file)
        form = "constant"
        if is_reference:
            form = "object"
        elif levels:
            kind = kind._replace(pointers=len(levels), levels=levels)
            form = "pointer"
        elif not (kind.const or kind.words == ("auto",)):
            return
        if value.type == "initializer_list" and value.named_child_count == 1:
            value = value.named_children[0]
        made = self._constant(_span(name), _span(value), _span(whole), form, kind)
        may_be_set = form == "pointer" or (form == "constant" and not kind.const)
        made.loose = may_be_set and not is_fixed and self._is_set(name, made)
        yield made

    def _bytes(self, node: Any) -> bytes:
        """Return the text of a node; asked for it, the grammar would fetch the source in parts."""
        return self._source.data[node.start_byte : node.end_byte]

    def _is_set(self, name: Any, made: Constant) -> bool:
        places = self._set.get(self._bytes(name), [])
        block = made.block or Block(0, len(self._source.data))
        index = bisect_left(places, block.start)
        return index < len(places) and places[index] < block.end

    def _enumerators(self, node: Any, count: _Count) -> Iterator[Constant]:
        """Yield the enumerators in ``node``, an enumeration or an arm of a conditional in one."""
        waiting = [(node, count)]
        while waiting and len(waiting) < _MOST_ARMS:
            node, count = waiting.pop()
            before = count
            for item in node.named_children:
                if item.type in _ARMS:
                    waiting.append((item, count))
                    count = _Count(is_known=False)
                elif item.type in _OTHER_ARMS:
                    waiting.append((item, before))
                elif item.type == "enumerator":
                    value = item.child_by_field_name("value")
                    if value is not None:
                        count = _Count(value, 0, value.end_byte - value.start_byte <= _LONGEST)
                    if count.is_known:
                        yield self._enumerator(item, count)
                    count = count._replace(plus=count.plus + 1)

    def _enumerator(self, item: Any, count: _Count) -> Constant:
        name, base = _span(item.child_by_field_name("name")), count.value
        made = self._constant(name, name, _span(item), "enum", None)
        made.value, made.plus = b"0", count.plus
        if base is not None:
            made.value = self._source.data[base.start_byte : base.end_byte]
            if not count.plus:
                made.value_at = Where(self._file, *_span(base))
        return made

    def _take_type(self, node: Any) -> None:
        kind = _tagged(type_name(node), self._file)
        for declarator in node.children_by_field_name("declarator"):
            found = _declared(declarator)
            if found.name is not None:
                levels = found.levels
                pointed = kind._replace(pointers=len(levels), levels=levels)
                self._scope.add_type(text_of(found.name), pointed)

    def _take_alias(self, node: Any) -> None:
        name, kind = node.child_by_field_name("name"), node.child_by_field_name("type")
        if name is not None and kind is not None:
            self._scope.add_type(text_of(name), _tagged(type_name(kind), self._file))


def _span(node: Any) -> Span:
    return Span(node.start_byte, node.end_byte)


def _is_scoped(node: Any) -> bool:
    return any(kid.type in ("class", "struct") for kid in node.children[:2])


def _tagged(kind: TypeName, file: int) -> TypeName:
    """Return ``kind`` with the file in the tag of a structure without a name."""
    return kind._replace(tag=f"{kind.tag}:{file}") if kind.tag.startswith("@") else kind


def _once(nodes: list[Any]) -> list[Any]:
    """Return ``nodes``, each once: a query may give one several times."""
    return list({node.start_byte: node for node in nodes}.values())


def _declared(node: Any) -> _Declarator:
    """Return what a declarator says."""
    levels: list[bool] = []
    is_fixed = is_reference = False
    for _ in range(16):
        if node is None:
            break
        if node.type in ("identifier", "type_identifier", "field_identifier"):
            return _Declarator(node, tuple(levels), is_fixed, is_reference)
        if node.type == "pointer_declarator":
            words = [kid.text for kid in node.named_children if kid.type == "type_qualifier"]
            is_fixed = b"const" in words or b"constexpr" in words
            levels.append(b"volatile" in words)
            node = node.child_by_field_name("declarator")
        elif node.type == "reference_declarator":
            is_reference = True
            node = node.named_children[-1] if node.named_children else None
        else:
            break
    return _Declarator(None, (), is_fixed, is_reference)
