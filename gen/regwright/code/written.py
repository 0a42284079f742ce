"""What is known of a value that is written, bit by bit, and which names take part in it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from regwright.code.integers import BOOL
from regwright.code.seen import Bits, IntType, Location, Meaning, Number
from regwright.code.syntax import Node, TypeName

UNKNOWN = Bits(0, 0, 0)
_WIDEST = 64
_ALL = (1 << _WIDEST) - 1


class Known(NamedTuple):
    """What the sources know: what a part of an expression stands for, which integer a type is."""

    value: Callable[[Node], Meaning | None]
    integer: Callable[[TypeName], IntType | None]


def constant(value: int) -> Bits:
    """Return the bits of a constant."""
    ones = value & _ALL
    return Bits(ones, _ALL & ~ones, 0)


def united(one: Bits, other: Bits) -> Bits:
    """Return the bits of ``one | other``."""
    ones = one.ones | other.ones
    zeros = one.zeros & other.zeros
    kept = (one.kept & (other.kept | other.zeros)) | (other.kept & one.zeros)
    return Bits(ones, zeros, kept & ~ones)


def common(one: Bits, other: Bits) -> Bits:
    """Return the bits of ``one & other``."""
    zeros = one.zeros | other.zeros
    ones = one.ones & other.ones
    kept = (one.kept & (other.kept | other.ones)) | (other.kept & one.ones)
    return Bits(ones, zeros, kept & ~zeros)


def flipped(one: Bits, other: Bits) -> Bits:
    """Return the bits of ``one ^ other``."""
    ones = (one.ones & other.zeros) | (one.zeros & other.ones)
    zeros = (one.ones & other.ones) | (one.zeros & other.zeros)
    return Bits(
        ones, zeros | (one.kept & other.kept), (one.kept & other.zeros) | (other.kept & one.zeros)
    )


def inverse(bits: Bits) -> Bits:
    """Return the bits of ``~bits``."""
    return Bits(bits.zeros, bits.ones, 0)


def shifted(bits: Bits, count: int) -> Bits:
    """Return the bits ``count`` places to the left, or to the right for a negative count."""
    if abs(count) >= _WIDEST:
        return UNKNOWN
    if count >= 0:
        ones, zeros = bits.ones << count & _ALL, bits.zeros << count & _ALL
        return Bits(ones, zeros | ((1 << count) - 1), 0)
    down = -count
    return Bits(bits.ones >> down, bits.zeros >> down, 0)


def cast(bits: Bits, to: IntType) -> Bits:
    """Return the bits of a value that is converted to a type, and from that to a wider one."""
    if to.rank == BOOL.rank:
        return Bits(int(bits.ones != 0), _ALL - 1, 0)
    inside = (1 << to.bits) - 1
    made = Bits(bits.ones & inside, bits.zeros & inside, bits.kept & inside)
    sign = 1 << (to.bits - 1)
    if not to.signed or made.zeros & sign:
        return made._replace(zeros=made.zeros | (_ALL & ~inside))
    return made._replace(ones=made.ones | (_ALL & ~inside)) if made.ones & sign else made


_BY_OPERATOR = {"|": united, "&": common, "^": flipped}


def combined(operator: str, one: Bits, other: Bits) -> Bits:
    """Return the bits of ``one operator other``, as far as they are known."""
    make = _BY_OPERATOR.get(operator)
    return make(one, other) if make else UNKNOWN


class Written(NamedTuple):
    """The bits of a value, and whether what is written to is read for it."""

    bits: Bits
    reads_target: bool


def written(node: Node, target: Location, known: Known) -> Written:
    """Return what is known of the value of ``node`` when it is written to ``target``."""
    means = known.value(node)
    if isinstance(means, Number):
        return Written(constant(means.value), reads_target=False)
    if isinstance(means, Location):
        is_target = means.address == target.address and means.type.bits == target.type.bits
        return Written(Bits(0, 0, _ALL) if is_target else UNKNOWN, is_target)
    make = _BY_KIND.get(node.kind, _of_others)
    return make(node, target, known)


def _of_others(node: Node, target: Location, known: Known) -> Written:
    reads = any(written(kid, target, known).reads_target for kid in node.kids)
    return Written(UNKNOWN, reads)


def _of_inner(node: Node, target: Location, known: Known) -> Written:
    kind = node.type
    if not node.kids or (kind is not None and kind.pointers):
        return _of_others(node, target, known)
    inner = written(node.kids[0], target, known)
    to = known.integer(kind) if kind is not None else None
    return inner._replace(bits=cast(inner.bits, to)) if to is not None else inner


def _of_inverse(node: Node, target: Location, known: Known) -> Written:
    if node.text != "~":
        return _of_others(node, target, known)
    inner = written(node.kids[0], target, known)
    return Written(inverse(inner.bits), inner.reads_target)


def _of_choice(node: Node, target: Location, known: Known) -> Written:
    test, one, other = (written(kid, target, known) for kid in node.kids)
    same = Bits(*(a & b for a, b in zip(one.bits, other.bits, strict=True)))
    return Written(same, any(item.reads_target for item in (test, one, other)))


def _of_two(node: Node, target: Location, known: Known) -> Written:
    one, other = (written(kid, target, known) for kid in node.kids)
    reads = one.reads_target or other.reads_target
    if node.text in ("<<", ">>"):
        count = known.value(node.kids[1])
        if not isinstance(count, Number):
            return Written(UNKNOWN, reads)
        signed = count.value if node.text == "<<" else -count.value
        return Written(shifted(one.bits, signed), reads)
    return Written(combined(node.text, one.bits, other.bits), reads)


_BY_KIND: dict[str, Callable[[Node, Location, Known], Written]] = {
    "group": _of_inner,
    "cast": _of_inner,
    "unary": _of_inverse,
    "binary": _of_two,
    "choice": _of_choice,
}


class Role(NamedTuple):
    """A name in a value and what it does there, as :class:`regwright.code.seen.Part` says."""

    name: Node
    role: str


def roles(node: Node, role: str = "operand") -> Iterator[Role]:
    """Yield the names in ``node``, a value that is written, with what each does there."""
    if node.kind == "name":
        yield Role(node, role)
        return
    for kid, inner in zip(node.kids, _roles_of_kids(node, role), strict=True):
        yield from roles(kid, inner)


def _roles_of_kids(node: Node, role: str) -> list[str]:
    """Return what the names in each part of ``node`` do when ``node`` itself does ``role``."""
    count = len(node.kids)
    keeps = False
    if node.kind in ("group", "comma"):
        keeps = True
    elif node.kind == "cast":
        keeps = node.type is not None and not node.type.pointers
    elif node.kind == "unary":
        keeps = node.text == "~"
    elif node.kind == "binary":
        if node.text == "<<":
            return ["other", "count"]
        keeps = node.text in ("|", "&", "^", "+")
    elif node.kind == "choice":
        return ["other", role, role]
    return [role if keeps else "other"] * count
