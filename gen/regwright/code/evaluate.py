"""What an expression stands for: an integer constant, a constant address, an object at one."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

from regwright.code import integers
from regwright.code.anywhere import Anywhere
from regwright.code.expand import Expander
from regwright.code.expanded import Expanded
from regwright.code.grammar import Shapes
from regwright.code.integers import DataModel
from regwright.code.moved import Move
from regwright.code.pieces import Spot, TooLarge
from regwright.code.scope import Constant, Member, Scope
from regwright.code.seen import CType, IntType, Location, Meaning, Number, Pointer, Where
from regwright.code.syntax import Node, TypeName

#: How many parts of expressions one question may look at, and how deep they may be within each
#: other, the values of constants included.
_FUEL = 20_000
_DEEPEST = 150
_FRACTIONS = frozenset({"float", "double"})
_TRUTH = {"true": 1, "false": 0}
#: The value of the left operand with which the right one is not looked at.
_DECIDED = {"&&": False, "||": True}


_literal = lru_cache(maxsize=1 << 16)(integers.literal)
_named_type = lru_cache(maxsize=1 << 10)(integers.named_type)


class Evaluator:
    """Works out what expressions stand for, with the names of one scope and one data model."""

    def __init__(self, scope: Scope, model: DataModel, shapes: dict[int, Shapes]) -> None:
        """``shapes`` has the parser of macros' bodies for each file."""
        self.scope = scope
        self.model = model
        self._shapes = shapes
        self._expander = Expander(scope)
        self._fuel = _FUEL
        self._depth = 0
        self._is_cut = False
        self._types: dict[TypeName, CType] = {}
        self._anywhere = Anywhere(scope)
        #: What texts stand for that mean the same anywhere, with a place of each.
        self._known: dict[tuple[int, bytes], tuple[Meaning | None, int]] = {}

    def since(self, text: bytes, file: int) -> int | None:
        """Return from where in ``file`` on ``text`` means the same (:class:`Anywhere`)."""
        return self._anywhere.since(text, file)

    def expanded(self, text: bytes, spot: Spot, start: int) -> Expanded | None:
        """Return the expression that ``text`` is when it is seen from ``spot``, if it is one."""
        try:
            chunks = self._expander.expand(text, spot, start)
        except TooLarge:
            return None
        whole = chunks[0].text if len(chunks) == 1 else b"".join(item.text for item in chunks)
        parsed = self._shapes[spot.file].parse(whole)
        if parsed is None:
            return None
        starts = []
        position = 0
        for item in chunks:
            starts.append(position)
            position += len(item.text)
        return Expanded(parsed, chunks, starts, {})

    def meaning(self, text: bytes, spot: Spot, start: int) -> Meaning | None:
        """Return what ``text``, which stands at ``start``, stands for."""
        self._fuel = _FUEL
        return self._meaning(text, spot, start)

    def _meaning(self, text: bytes, spot: Spot, start: int) -> Meaning | None:
        if text[:1].isdigit() and text.isalnum() and self.enter():
            self.leave()
            found = _literal(text.decode("ascii"), self.model)
            return Number(*found, Where(spot.file, start, start + len(text))) if found else None
        if not self._anywhere.is_same(text, spot.file):
            made = self.expanded(text, spot, start)
            return _Evaluation(self, made, spot).value(made.node) if made else None
        key = spot.file, text
        known = self._known.get(key)
        if known is not None:
            means, place = known
            move = Move(place, place + len(text), start - place)
            return move.meaning(means) if means is not None else None
        before, self._is_cut = self._is_cut, False
        made = self.expanded(text, spot, start)
        means = _Evaluation(self, made, spot).value(made.node) if made else None
        if not self._is_cut:
            self._known[key] = means, start
        self._is_cut = self._is_cut or before
        return means

    def value(self, made: Expanded, node: Node, spot: Spot) -> Meaning | None:
        """Return what ``node`` of the expression ``made`` stands for."""
        if id(node) in made.known:
            return made.known[id(node)]
        self._fuel = _FUEL
        return _Evaluation(self, made, spot).value(node)

    def enter(self) -> bool:
        """Go into one more part; tell whether there is still time and room to look at it."""
        self._fuel -= 1
        self.scope.work -= 1
        self._depth += 1
        is_cut = self._fuel < 0 or self.scope.work < 0 or self._depth > _DEEPEST
        self._is_cut = self._is_cut or is_cut
        return not is_cut

    def leave(self) -> None:
        """Come back from a part."""
        self._depth -= 1

    def constant(self, found: Constant) -> Meaning | None:
        """Return what a declared constant stands for; ``None`` for one that needs itself."""
        self._fuel = _FUEL
        return self.inner_constant(found)

    def inner_constant(self, found: Constant) -> Meaning | None:
        """Return what a constant stands for that is met while something else is evaluated."""
        if found.is_known and not self.scope.world:
            return found.means
        if found.is_busy:
            return None
        found.is_busy, self._is_cut = True, False
        around = self.scope.open_groups
        opened: dict[int, set[int]] = {}
        self.scope.open_groups = opened
        means = self._declared(found)
        self.scope.open_groups = around
        for group, numbers in opened.items():
            around.setdefault(group, set()).update(numbers)
        found.is_busy = False
        is_far = self._is_cut and self._depth <= _DEEPEST // 2  # a row of names too long to follow
        is_sure = not opened and not self.scope.world
        if is_sure and (is_far or not self._is_cut):
            found.is_known, found.means = True, means
        return means

    def _declared(self, found: Constant) -> Meaning | None:
        spot = Spot(found.file, found.arms, found.start)
        value_at = found.value_at
        means = self._meaning(found.value, spot, value_at.start)
        if isinstance(means, Number) and found.form == "enum":
            is_own = value_at.start != found.start
            return Number(means.value + found.plus, means.type, means.literal if is_own else None)
        if found.form == "object" and isinstance(means, Number) and found.type is not None:
            to = self.type_of(found.type)
            return Location(means.value, to, means.literal, self._type_place(found))
        if found.type is None or means is None:
            return means
        return self._converted(found, means)

    def _type_place(self, found: Constant) -> Where | None:
        """Return where ``volatile`` makes the object volatile, if it does before the type."""
        kind = found.type
        if kind is None or kind.pointers != (found.form == "pointer"):
            return None
        if self.scope.resolve_type(kind).pointers != kind.pointers:
            return None
        return Where(found.file, kind.start, kind.start)

    def _converted(self, found: Constant, means: Meaning) -> Meaning | None:
        """Return the value of a declaration as its declared type has it."""
        kind = self.scope.resolve_type(found.type) if found.type else TypeName(())
        is_auto = "auto" in kind.words
        if isinstance(means, Location) or found.form == "object":
            return self._referred(found, means, kind)
        if is_auto:
            return means if isinstance(means, Pointer) or kind.const else None
        if kind.pointers:
            address = means.address if isinstance(means, Pointer) else means.value
            to = self.type_of(kind._replace(pointers=kind.pointers - 1))
            return Pointer(address, to, means.literal, self._type_place(found))
        if isinstance(means, Pointer):
            return None
        integer = _named_type(kind.words, self.model)
        if integer is None:
            return None if _FRACTIONS.intersection(kind.words) else means
        return Number(integers.convert(means.value, integer), integer, means.literal)

    def _referred(self, found: Constant, means: Meaning, kind: TypeName) -> Meaning | None:
        """Return what a reference is to: its type, not that of its value, is what counts."""
        if not isinstance(means, Location) or found.form != "object":
            return None
        if "auto" in kind.words:
            return means
        to = self.type_of(kind)
        return means._replace(type=to, qualifier=means.qualifier if to == means.type else None)

    def integer_of(self, name: TypeName) -> IntType | None:
        """Return the integer type that ``name`` is, if it is one."""
        name = self.scope.resolve_type(name)
        return None if name.pointers else _named_type(name.words, self.model)

    def type_of(self, name: TypeName) -> CType:
        """Return the type that ``name`` is, with its width."""
        found = self._types.get(name)
        if found is None:
            found = self._types[name] = self._type_of(name)
        return found

    def _type_of(self, name: TypeName) -> CType:
        name = self.scope.resolve_type(name)
        words = " ".join(name.words)
        if name.pointers:
            volatile = name.levels[name.pointers - 1 : name.pointers] == (True,)
            shown = f"{words} {'*' * name.pointers}"
            return CType(self.model.pointer_bits, volatile, name=shown)
        if name.tag or words in self.scope.layouts:
            return CType(None, name.volatile, name.const, name.tag or words)
        integer = _named_type(name.words, self.model)
        return CType(integer.bits if integer else None, name.volatile, name.const, words)

    def size_of(self, kind: CType) -> int | None:
        """Return how many bytes an object of a type takes."""
        if kind.bits is not None:
            return max(kind.bits // 8, 1)
        layout = self.scope.layouts.get(kind.name)
        if layout is not None:
            return layout.size if layout.is_sure else None
        return 1 if kind.name in ("void", "") else None


class _Evaluation:
    """Evaluates the parts of one expression."""

    def __init__(self, evaluator: Evaluator, made: Expanded, spot: Spot) -> None:
        self._evaluator = evaluator
        self._scope = evaluator.scope
        self._model = evaluator.model
        self._made = made
        self._spot = spot

    def value(self, node: Node) -> Meaning | None:
        """Return what ``node`` stands for."""
        make = _VALUES.get(node.kind)
        if make is None:
            return None
        known = self._made.known
        key = id(node)
        if key not in known:
            known[key] = make(self, node) if self._evaluator.enter() else None
            self._evaluator.leave()
        return known[key]

    def _number(self, node: Node) -> Meaning | None:
        found = _literal(self._made.parsed.literal(node), self._model)
        if found is None:
            return None
        return Number(*found, self._made.where(node.start, node.end))

    def _name(self, node: Node) -> Meaning | None:
        if node.text in _TRUTH:
            return Number(_TRUTH[node.text], integers.int_type(self._model))
        found = self._scope.constant(node.text, *self._spot)
        return self._evaluator.inner_constant(found) if found and not found.loose else None

    def _inner(self, node: Node) -> Meaning | None:
        return self.value(node.kids[0]) if node.kids else None

    def _unary(self, node: Node) -> Meaning | None:
        inner = self.value(node.kids[0])
        if not isinstance(inner, Number):
            return None
        found = integers.unary(node.text, (inner.value, inner.type), self._model)
        if found is None:
            return None
        return Number(*found, inner.literal if node.text == "+" else None)

    def _binary(self, node: Node) -> Meaning | None:
        left, right = self.value(node.kids[0]), self.value(node.kids[1])
        if left is None and node.text in ("+", "-"):
            return self._signed_cast(node)
        if isinstance(left, Number) and _DECIDED.get(node.text) == bool(left.value):
            return Number(int(bool(left.value)), integers.int_type(self._model))
        if isinstance(left, Number) and isinstance(right, Number):
            one, other = (left.value, left.type), (right.value, right.type)
            found = integers.binary(node.text, one, other, self._model)
            return Number(*found) if found else None
        if isinstance(left, Pointer) and isinstance(right, Number) and node.text in ("+", "-"):
            return self._stepped(left, right.value if node.text == "+" else -right.value)
        if isinstance(left, Number) and isinstance(right, Pointer) and node.text == "+":
            return self._stepped(right, left.value)
        return None

    def _signed_cast(self, node: Node) -> Meaning | None:
        """Return the value of ``(type)-x``, which the grammar takes for a difference."""
        group, operand = node.kids
        inner = group.kids[0] if group.kind == "group" and group.kids else group
        value = self.value(operand)
        if inner is group or inner.kind != "name" or not isinstance(value, Number):
            return None
        kind = self._scope.resolve_type(TypeName((inner.text,)))
        integer = _named_type(kind.words, self._model)
        signed = integers.unary(node.text, (value.value, value.type), self._model)
        if integer is None or kind.pointers or signed is None:
            return None
        return Number(integers.convert(signed[0], integer), integer)

    def _stepped(self, pointer: Pointer, count: int) -> Pointer | None:
        size = self._evaluator.size_of(pointer.to)
        if size is None:
            return None
        address = (pointer.address + count * size) & self._every_address
        base = pointer.base if pointer.base is not None else pointer.address
        return pointer._replace(address=address, literal=None, base=base)

    def _choice(self, node: Node) -> Meaning | None:
        condition = self.value(node.kids[0])
        if not isinstance(condition, Number):
            return None
        chosen = self.value(node.kids[1] if condition.value else node.kids[2])
        other = self.value(node.kids[2] if condition.value else node.kids[1])
        if isinstance(chosen, Number) and isinstance(other, Number):
            kind = integers.usual(chosen.type, other.type, self._model)
            return Number(integers.convert(chosen.value, kind), kind)
        return chosen

    def _cast(self, node: Node) -> Meaning | None:
        inner = self.value(node.kids[0])
        if inner is None or isinstance(inner, Location) or node.type is None:
            return None
        kind = self._scope.resolve_type(node.type)
        value = inner.address if isinstance(inner, Pointer) else inner.value
        if kind.pointers:
            to = self._evaluator.type_of(kind._replace(pointers=kind.pointers - 1))
            is_plain = node.type.pointers == 1 == kind.pointers
            place = self._made.where(node.type.start, node.type.start) if is_plain else None
            return Pointer(value & self._every_address, to, inner.literal, place)
        integer = _named_type(kind.words, self._model)
        if kind.words == ("enum",):
            integer = integers.int_type(self._model)
        if integer is None:
            return None
        return Number(integers.convert(value, integer), integer, inner.literal)

    @property
    def _every_address(self) -> int:
        return (1 << self._model.pointer_bits) - 1

    def _deref(self, node: Node) -> Meaning | None:
        inner = self.value(node.kids[0])
        return _object(inner) if isinstance(inner, Pointer) else None

    def _address(self, node: Node) -> Meaning | None:
        inner = self.value(node.kids[0])
        if not isinstance(inner, Location):
            return None
        return Pointer(
            inner.address, inner.type, inner.literal, inner.qualifier, inner.member, inner.base
        )

    def _index(self, node: Node) -> Meaning | None:
        base, at = self.value(node.kids[0]), self.value(node.kids[1])
        if not isinstance(base, Pointer) or not isinstance(at, Number):
            return None
        stepped = self._stepped(base, at.value)
        if stepped is None:
            return None
        found = _object(stepped)
        return found._replace(member=f"{base.member}[{at.value}]") if base.member else found

    def _member(self, node: Node) -> Meaning | None:
        inner = self.value(node.kids[0])
        if node.kind == "arrow":
            inner = _object(inner) if isinstance(inner, Pointer) else None
        if not isinstance(inner, Location):
            return None
        layout = self._scope.layouts.get(inner.type.name)
        member = layout.members.get(node.text) if layout and layout.is_sure else None
        return _in_layout(self._evaluator, inner, node.text, member) if member else None

    def _sizeof(self, node: Node) -> Meaning | None:
        kind = node.type
        inner = node.kids[0] if node.kids else None
        while inner is not None and inner.kind == "group" and inner.kids:
            inner = inner.kids[0]
        means = self.value(inner) if inner is not None else None
        if means is None and inner is not None and inner.kind == "name":
            kind = TypeName((inner.text,))
        size = None
        if isinstance(means, Number):
            size = means.type.bits // 8
        elif isinstance(means, Location):
            size = self._evaluator.size_of(means.type)
        elif isinstance(means, Pointer):
            size = self._model.pointer_bits // 8
        elif kind is not None:
            size = self._evaluator.size_of(self._evaluator.type_of(kind))
        wide = _named_type(("size_t",), self._model)
        return Number(size, wide) if size is not None and wide is not None else None

    def _last(self, node: Node) -> Meaning | None:
        return self.value(node.kids[1])


def _object(pointer: Pointer) -> Location:
    return Location(
        pointer.address,
        pointer.to,
        pointer.literal,
        pointer.qualifier,
        pointer.member,
        pointer.base,
    )


def _in_layout(evaluator: Evaluator, around: Location, name: str, member: Member) -> Meaning:
    kind = evaluator.type_of(member.type)
    kind = kind._replace(volatile=kind.volatile or around.type.volatile)
    way = f"{around.member}.{name}" if around.member else name
    base = around.base if around.base is not None else around.address
    address = around.address + member.offset
    if member.length:
        return Pointer(address, kind, around.literal, around.qualifier, way, base)
    return Location(address, kind, around.literal, around.qualifier, way, base)


_VALUES: dict[str, Callable[[_Evaluation, Node], Meaning | None]] = {
    "number": _Evaluation._number,
    "name": _Evaluation._name,
    "group": _Evaluation._inner,
    "unary": _Evaluation._unary,
    "binary": _Evaluation._binary,
    "choice": _Evaluation._choice,
    "cast": _Evaluation._cast,
    "deref": _Evaluation._deref,
    "address": _Evaluation._address,
    "index": _Evaluation._index,
    "member": _Evaluation._member,
    "arrow": _Evaluation._member,
    "sizeof": _Evaluation._sizeof,
    "comma": _Evaluation._last,
}
