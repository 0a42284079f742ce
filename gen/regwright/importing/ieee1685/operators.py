"""What the operators of SystemVerilog do to numbers. All raise :class:`BadNumber`."""

from __future__ import annotations

import operator
from collections.abc import Callable, Iterable

from regwright.importing.ieee1685.literals import MOST_BITS, BadNumber, Value

Number = int | float

_COMPARE: dict[str, Callable[[Number, Number], bool]] = {
    "<": operator.lt,
    "<=": operator.le,
    ">": operator.gt,
    ">=": operator.ge,
}
_EQUAL = {"==": True, "===": True, "==?": True, "!=": False, "!==": False, "!=?": False}
_BITWISE: dict[str, Callable[[int, int], int]] = {
    "&": operator.and_,
    "|": operator.or_,
    "^": operator.xor,
}


def known(value: Value) -> Value:
    """Return ``value`` unless bits of it are x or z, with which nothing can be worked out."""
    if value.unknown:
        raise BadNumber("a number with x or z digits is worked with; its value is not known")
    return value


def number(value: Value) -> Number:
    """Return the number, real or whole, that ``value`` is."""
    known(value)
    if isinstance(value.of, str):
        raise BadNumber(f"the string {value.of[:40]!r} stands where a number must")
    return value.of


def whole(value: Value) -> int:
    """Return the whole number that ``value`` is; a real one is rounded, halves away from 0."""
    found = number(value)
    if isinstance(found, int):
        return found
    try:
        return int(found + 0.5) if found >= 0 else -int(-found + 0.5)
    except (OverflowError, ValueError):
        raise BadNumber("a real number is too large to be made a whole one") from None


def is_true(value: Value) -> bool:
    """Tell whether ``value`` counts as true: it is not zero, nor an empty string."""
    return bool(value.of) if isinstance(value.of, str) else number(value) != 0


def _bounded(found: Number, width: int | None = None) -> Value:
    if isinstance(found, int) and found.bit_length() > MOST_BITS:
        raise BadNumber(f"a value has more than {MOST_BITS} bits")
    return Value(found, width)


def _width(*values: Value) -> int | None:
    widths = [value.width for value in values]
    return max(width or 0 for width in widths) if None not in widths else None


def unary(sign: str, value: Value) -> Value:
    """Return the operator ``sign`` before ``value``."""
    if sign == "+":
        return Value(number(value), value.width)
    if sign == "-":
        return Value(-number(value), value.width)
    if sign == "!":
        return Value(int(not is_true(value)), 1)
    if sign == "~":
        inverted = ~_unsigned(value) if value.width else ~whole(value)
        return Value(inverted & ((1 << value.width) - 1) if value.width else inverted, value.width)
    bits = _unsigned(value)
    plain = {
        "&": bits == (1 << (value.width or 32)) - 1,
        "|": bits != 0,
        "^": bool(bits.bit_count() & 1),
    }
    core = sign.strip("~")
    return Value(int(plain[core] != ("~" in sign)), 1)


def _unsigned(value: Value) -> int:
    """Return the bits of ``value``; those of an unsized one are 32 or as many as it has."""
    bits = whole(value)
    return bits & ((1 << (value.width or max(32, bits.bit_length()))) - 1)


def binary(sign: str, one: Value, other: Value) -> Value:
    """Return ``one`` and ``other`` joined by the operator ``sign``."""
    truth = _truth(sign, one, other)
    if truth is not None:
        return Value(int(truth), 1)
    width = _width(one, other)
    if sign in _BITWISE:
        return _bounded(_BITWISE[sign](whole(one), whole(other)), width)
    if sign in ("~^", "^~"):
        return unary("~", Value(whole(one) ^ whole(other), width))
    if sign in ("<<", "<<<", ">>", ">>>"):
        return _shifted(sign, one, whole(other))
    try:
        return _bounded(_ARITHMETIC[sign](number(one), number(other)), width)
    except (OverflowError, ValueError, ZeroDivisionError):
        raise BadNumber(f"the result of {sign} is no number that can be held") from None


def _truth(sign: str, one: Value, other: Value) -> bool | None:
    """Return what a comparison or logical operator comes to, ``None`` for any other operator."""
    if sign in ("&&", "||"):
        pair = is_true(one), is_true(other)
        return all(pair) if sign == "&&" else any(pair)
    if sign in _EQUAL:
        return _same(one, other) == _EQUAL[sign]
    if sign in _COMPARE:
        return _COMPARE[sign](number(one), number(other))
    return None


def _same(one: Value, other: Value) -> bool:
    if isinstance(one.of, str) or isinstance(other.of, str):
        return str(known(one).of) == str(known(other).of)
    return number(one) == number(other)


def _shifted(sign: str, value: Value, by: int) -> Value:
    if not 0 <= by <= MOST_BITS:
        raise BadNumber(f"a shift by {by} places is no shift within {MOST_BITS} bits")
    bits = whole(value)
    if sign.startswith("<"):
        return _bounded(bits << by, value.width)
    return Value(bits >> by if sign == ">>>" or bits >= 0 else _unsigned(value) >> by, value.width)


def _divide(one: Number, other: Number) -> Number:
    if other == 0:
        raise BadNumber("a division by zero")
    if isinstance(one, float) or isinstance(other, float):
        return one / other
    found = abs(one) // abs(other)
    return found if (one < 0) == (other < 0) else -found


def _remainder(one: Number, other: Number) -> Number:
    if other == 0:
        raise BadNumber("a division by zero")
    if isinstance(one, float) or isinstance(other, float):
        raise BadNumber("a remainder of real numbers")
    found = abs(one) % abs(other)
    return -found if one < 0 else found


def power(one: Number, other: Number) -> Number:
    """Return ``one`` to the power of ``other``."""
    if isinstance(one, float) or isinstance(other, float):
        found = float(one) ** float(other)
        if isinstance(found, complex):
            raise BadNumber("a root of a negative number")
        return float(found)
    if other < 0:
        if one == 0:
            raise BadNumber("a division by zero")
        return (1 if other % 2 == 0 else one) if one in (1, -1) else 0
    if one.bit_length() > 1 and one.bit_length() * other > 2 * MOST_BITS:
        raise BadNumber(f"a power has more than {MOST_BITS} bits")
    if abs(one) <= 1:
        other = min(other, other % 2 + 2)  # huge powers of 0, 1 and -1
    return int(one**other)


_ARITHMETIC: dict[str, Callable[[Number, Number], Number]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": _divide,
    "%": _remainder,
    "**": power,
}


def concatenated(values: Iterable[Value]) -> Value:
    """Return ``values``, which must be sized, next to each other, the first one highest."""
    bits = width = 0
    for value in values:
        if value.width is None:
            raise BadNumber("a number within { } does not say how wide it is")
        bits = bits << value.width | _unsigned(value)
        width += value.width
        if width > MOST_BITS:
            raise BadNumber(f"a value has more than {MOST_BITS} bits")
    return Value(bits, width)


def repeated(times: int, value: Value) -> Value:
    """Return ``value`` ``times`` times next to itself."""
    if not 0 < times <= MOST_BITS:
        raise BadNumber(f"something is repeated {times} times")
    return concatenated([value] * times)


def bits_of(value: Value, high: int, low: int) -> Value:
    """Return the bits ``high`` down to ``low`` of ``value``."""
    if not 0 <= low <= high < MOST_BITS:
        raise BadNumber(f"[{high}:{low}] are no bits of a number")
    width = high - low + 1
    return Value(whole(value) >> low & ((1 << width) - 1), width)
