"""The functions that constant expressions may call: IEEE 1800-2017, 20.8 and 20.9."""

from __future__ import annotations

import math
from collections.abc import Callable

from regwright.importing.ieee1685.literals import BadNumber, Value, shown
from regwright.importing.ieee1685.operators import Number, number, power, whole


def _clog2(value: Value) -> Value:
    """Return how many bits number as many things as ``value`` says: 0 for 0 and 1."""
    bits = whole(value)
    if bits < 0:
        raise BadNumber("$clog2 of a negative number")
    return Value(max(bits - 1, 0).bit_length())


def _real(function: Callable[[Number], Number]) -> Callable[[Value], Value]:
    return lambda value: Value(float(function(number(value))))


def _count_ones(value: Value) -> Value:
    bits = whole(value)
    return Value((bits & ((1 << (value.width or 32)) - 1) if bits < 0 else bits).bit_count())


def _signed(value: Value) -> Value:
    bits = whole(value)
    if value.width and bits >> (value.width - 1) & 1 and bits > 0:
        bits -= 1 << value.width
    return Value(bits, value.width)


def _unsigned(value: Value) -> Value:
    bits = whole(value)
    return Value(bits & ((1 << (value.width or 64)) - 1), value.width)


_OF_ONE: dict[str, Callable[[Value], Value]] = {
    "$clog2": _clog2,
    "$ln": _real(math.log),
    "$log10": _real(math.log10),
    "$exp": _real(math.exp),
    "$sqrt": _real(math.sqrt),
    "$floor": _real(math.floor),
    "$ceil": _real(math.ceil),
    "$rtoi": lambda value: Value(int(number(value))),
    "$itor": lambda value: Value(float(number(value))),
    "$countones": _count_ones,
    "$onehot": lambda value: Value(int(_count_ones(value).of == 1), 1),
    "$onehot0": lambda value: Value(int(_count_ones(value).of in (0, 1)), 1),
    "$signed": _signed,
    "$unsigned": _unsigned,
}


def call(name: str, arguments: list[Value]) -> Value:
    """Return what the function ``name`` makes of ``arguments``. Raises :class:`BadNumber`."""
    try:
        if name == "$pow" and len(arguments) == 2:
            return Value(power(float(number(arguments[0])), float(number(arguments[1]))))
        if name in _OF_ONE and len(arguments) == 1:
            return _OF_ONE[name](arguments[0])
    except (OverflowError, ValueError, ZeroDivisionError):
        raise BadNumber(f"the result of {name} is no number that can be held") from None
    if name in _OF_ONE or name == "$pow":
        raise BadNumber(f"{name} takes another number of arguments")
    raise BadNumber(f"the function {shown(name)} is not known, or has no constant value")
