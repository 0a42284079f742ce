"""C's rules for integers: types, literals, conversions and operators, without any syntax.

Source: ISO/IEC 9899:2011, 6.3.1 (conversions), 6.4.4 (constants), 6.5 (operators); digit
separators, ``0b`` and the suffix ``z`` from ISO C++ (lex.icon). Values are Python integers that
always lie within 64 bits. Plain ``char`` is signed, as gcc has it on most targets.
"""

from __future__ import annotations

import operator
import re
from collections.abc import Callable, Sequence
from typing import NamedTuple

from regwright.code.seen import IntType


class DataModel(NamedTuple):
    """How wide the types of a C compiler are, in bits; ``char`` has 8 and ``short`` 16."""

    int_bits: int
    long_bits: int
    long_long_bits: int = 64
    pointer_bits: int = 32


#: ``int`` and pointers of 16 bits, ``long`` of 32.
IP16 = DataModel(16, 32, 64, 16)
ILP32 = DataModel(32, 32, 64, 32)
#: What 64-bit hosts with a Unix have; to compare with their compiler.
LP64 = DataModel(32, 64, 64, 64)

_BOOL_RANK, _CHAR_RANK, _SHORT_RANK, _INT_RANK, _LONG_RANK, _LONG_LONG_RANK = range(6)

#: ``bool``: as wide as it is stored; all but 0 converts to 1. The only type of rank 0.
BOOL = IntType(8, signed=False, rank=_BOOL_RANK)

Value = tuple[int, IntType]


def data_model(int_bits: int) -> DataModel:
    """Return the usual model with an ``int`` of 16 or 32 bits; raise ``ValueError`` for others.

    That 16 goes with pointers of 16 and ``long`` of 32 bits is common practice, no source.
    """
    if int_bits == 16:
        return IP16
    if int_bits == 32:
        return ILP32
    raise ValueError(f"no data model has an int of {int_bits} bits")


def int_type(model: DataModel, *, signed: bool = True) -> IntType:
    """Return ``int`` or ``unsigned int``."""
    return IntType(model.int_bits, signed, _INT_RANK)


# Types by name.

_QUALIFIERS = frozenset(["const", "volatile", "restrict", "register", "_Atomic"])
#: Words that gcc also takes with underscores on one or both sides: ``__volatile__``.
_UNDERSCORED = {
    f"__{word}{end}": word for word in ("const", "volatile", "signed") for end in ("", "__")
}
_SIGNS = {"signed": True, "unsigned": False}
#: The words of a type but its sign, sorted, and its rank.
_RANKS = {
    "": _INT_RANK,
    "char": _CHAR_RANK,
    "int": _INT_RANK,
    "int short": _SHORT_RANK,
    "short": _SHORT_RANK,
    "int long": _LONG_RANK,
    "long": _LONG_RANK,
    "int long long": _LONG_LONG_RANK,
    "long long": _LONG_LONG_RANK,
}
_BOOLS = frozenset(["_Bool", "bool"])
#: ``uint8_t`` and the like, and the names of Linux: ``u8``, ``__u8``, ``__le16``.
_WIDTH_NAME = re.compile(
    r"(?:__)?(?P<sign>u?)int(?:_least)?(?P<bits>8|16|32|64)_t"
    r"|(?:__)?(?P<letter>[us]|(?<=__)[lb]e)(?P<letter_bits>8|16|32|64)"
)
_POINTER_WIDE = {
    "size_t": False,
    "uintptr_t": False,
    "ptrdiff_t": True,
    "intptr_t": True,
    "ssize_t": True,
}
_OTHER_NAMES = {
    "intmax_t": (64, True),
    "uintmax_t": (64, False),
    "char8_t": (8, False),
    "char16_t": (16, False),
    "char32_t": (32, False),
}


def _bits_by_rank(model: DataModel) -> tuple[int, ...]:
    return (8, 8, 16, model.int_bits, model.long_bits, model.long_long_bits)


def _by_rank(rank: int, model: DataModel, *, signed: bool) -> IntType:
    return IntType(_bits_by_rank(model)[rank], signed, rank)


def _by_bits(bits: int, model: DataModel, *, signed: bool) -> IntType:
    """Return the type that the usual ``stdint.h`` takes: ``int`` before all others."""
    widths = _bits_by_rank(model)
    order = (_INT_RANK, _CHAR_RANK, _SHORT_RANK, _LONG_RANK, _LONG_LONG_RANK)
    rank = next((rank for rank in order if widths[rank] == bits), _LONG_LONG_RANK)
    return IntType(bits, signed, rank)


def _by_one_word(word: str, model: DataModel) -> IntType | None:
    if word in _BOOLS:
        return BOOL
    if word in _POINTER_WIDE:
        return _by_bits(model.pointer_bits, model, signed=_POINTER_WIDE[word])
    if word in _OTHER_NAMES:
        bits, signed = _OTHER_NAMES[word]
        return _by_bits(bits, model, signed=signed)
    match = _WIDTH_NAME.fullmatch(word)
    if match is None:
        return None
    if match["bits"]:
        return _by_bits(int(match["bits"]), model, signed=not match["sign"])
    return _by_bits(int(match["letter_bits"]), model, signed=match["letter"] == "s")


def named_type(words: Sequence[str], model: DataModel) -> IntType | None:
    """Return the integer type that these words name, in any order; qualifiers do not count.

    ``None`` is for what is no integer type, is not known, or, as ``uint_fast8_t`` and ``wchar_t``,
    has a width that its name and the model do not tell.
    """
    plain = [_UNDERSCORED.get(word, word) for word in words]
    words = [word for word in plain if word not in _QUALIFIERS]
    if len(words) == 1:
        found = _by_one_word(words[0].removeprefix("::").removeprefix("std::"), model)
        if found is not None:
            return found
    signs = [_SIGNS[word] for word in words if word in _SIGNS]
    rank = _RANKS.get(" ".join(sorted(word for word in words if word not in _SIGNS)))
    if rank is None or len(signs) > 1 or not words:
        return None
    return _by_rank(rank, model, signed=signs[0] if signs else True)


# Literals.

_LITERAL = re.compile(
    r"(?:0[xX](?P<hex>[0-9a-fA-F](?:'?[0-9a-fA-F])*)"
    r"|0[bB](?P<binary>[01](?:'?[01])*)"
    r"|(?P<octal>0(?:'?[0-7])*)"
    r"|(?P<decimal>[1-9](?:'?[0-9])*))"
    r"(?P<suffix>(?:[uU](?:ll|LL|[lLzZ])?|(?:ll|LL|[lLzZ])[uU]?)?)",
    re.ASCII,
)
_BASES = {"hex": 16, "binary": 2, "octal": 8, "decimal": 10}
#: Significant digits that a value of 64 bits has at most; longer ones need not be computed.
_MOST_DIGITS = {16: 16, 2: 64, 8: 22, 10: 20}
_CHARACTER = re.compile(
    r"'(?:(?P<plain>[^'\\\n])"
    r"|\\(?P<simple>[abefnrtv'\"?\\])"
    r"|\\(?P<octal>[0-7]{1,3})"
    r"|\\x0*(?P<hex>[0-9a-fA-F]{1,2}))'",
    re.ASCII,
)
#: Escapes of 6.4.4.4, and ``\e`` of gcc.
_ESCAPES = dict(zip("abefnrtv'\"?\\", b"\a\b\x1b\f\n\r\t\v'\"?\\", strict=True))


def literal(text: str, model: DataModel) -> Value | None:
    """Return the value and the type of an integer literal or a character constant.

    The type is the first of C's table (6.4.4.1) that holds the value. ``None`` is for all other
    text, also for a value that no type holds, and for character constants that are wide or of
    several characters.
    """
    if text[:1] == "'":
        return _character(text, model)
    match = _LITERAL.fullmatch(text)
    if match is None:
        return None
    kind = next(name for name in _BASES if match[name])
    base = _BASES[kind]
    digits = match[kind].replace("'", "").lstrip("0")
    if len(digits) > _MOST_DIGITS[base]:
        return None
    value = int(digits or "0", base)
    candidates = _literal_types(match["suffix"].lower(), base, model)
    return next(((value, type_) for type_ in candidates if convert(value, type_) == value), None)


def _literal_types(suffix: str, base: int, model: DataModel) -> list[IntType]:
    signs = [False] if "u" in suffix else [True] if base == 10 else [True, False]
    if "z" in suffix:
        return [_by_bits(model.pointer_bits, model, signed=signed) for signed in signs]
    first = _INT_RANK + suffix.count("l")
    ranks = range(first, _LONG_LONG_RANK + 1)
    return [_by_rank(rank, model, signed=signed) for rank in ranks for signed in signs]


def _character(text: str, model: DataModel) -> Value | None:
    match = _CHARACTER.fullmatch(text)
    if match is None:
        return None
    if match["plain"]:
        code = ord(match["plain"])
        if code > 0x7F:
            return None
    elif match["simple"]:
        code = _ESCAPES[match["simple"]]
    else:
        code = int(match["octal"], 8) if match["octal"] else int(match["hex"], 16)
        if code > 0xFF:
            return None
    return convert(code, _by_rank(_CHAR_RANK, model, signed=True)), int_type(model)


# Conversions.


def convert(value: int, to: IntType) -> int:
    """Return what ``value`` becomes when it is converted to a type (6.3.1.2, 6.3.1.3).

    To a signed type that does not hold it, it wraps around, as gcc documents.
    """
    if to.rank == _BOOL_RANK:
        return int(value != 0)
    value &= (1 << to.bits) - 1
    if to.signed and value >> (to.bits - 1):
        value -= 1 << to.bits
    return value


def promote(type_: IntType, model: DataModel) -> IntType:
    """Return the type after integer promotion (6.3.1.1)."""
    if type_.rank >= _INT_RANK:
        return type_
    fits = type_.bits < model.int_bits or (type_.signed and type_.bits == model.int_bits)
    return int_type(model, signed=fits)


def usual(a: IntType, b: IntType, model: DataModel) -> IntType:
    """Return the common type of two operands: the usual arithmetic conversions (6.3.1.8)."""
    a, b = promote(a, model), promote(b, model)
    if a.signed == b.signed:
        return max(a, b, key=lambda type_: type_.rank)
    signed, unsigned = (a, b) if a.signed else (b, a)
    if unsigned.rank >= signed.rank:
        return unsigned
    if signed.bits > unsigned.bits:
        return signed
    return signed._replace(signed=False)


# Operators.


def _divided(a: int, b: int) -> int | None:
    if b == 0:
        return None
    quotient = abs(a) // abs(b)
    return quotient if (a < 0) == (b < 0) else -quotient


_ARITHMETIC: dict[str, Callable[[int, int], int]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "&": operator.and_,
    "|": operator.or_,
    "^": operator.xor,
}
_COMPARISONS: dict[str, Callable[[int, int], bool]] = {
    "<": operator.lt,
    ">": operator.gt,
    "<=": operator.le,
    ">=": operator.ge,
    "==": operator.eq,
    "!=": operator.ne,
}


def binary(op: str, a: Value, b: Value, model: DataModel) -> Value | None:
    """Return ``a op b``, or ``None`` where C leaves it undefined or ``op`` is no such operator.

    The operators are ``+ - * / % & | ^ << >> < > <= >= == != && ||``. Two cases are defined here
    as gcc has them: a signed value may be shifted into its sign bit and beyond (which
    :func:`shift_fits` tells), and a negative one is shifted right with its sign.
    """
    if op in ("<<", ">>"):
        return _shift(op, a, b[0], model)
    if op in ("&&", "||"):
        holds = a[0] and b[0] if op == "&&" else a[0] or b[0]
        return int(bool(holds)), int_type(model)
    common = usual(a[1], b[1], model)
    left, right = convert(a[0], common), convert(b[0], common)
    if op in _COMPARISONS:
        return int(_COMPARISONS[op](left, right)), int_type(model)
    if op in ("/", "%"):
        return _division(op, left, right, common)
    return _defined(_ARITHMETIC[op](left, right), common) if op in _ARITHMETIC else None


def _defined(value: int, type_: IntType) -> Value | None:
    """Wrap an unsigned result; a signed one that its type does not hold is undefined."""
    wrapped = convert(value, type_)
    return None if type_.signed and wrapped != value else (wrapped, type_)


def _division(op: str, left: int, right: int, type_: IntType) -> Value | None:
    quotient = _divided(left, right)
    # Where the quotient has no value, the remainder is undefined as well (6.5.5).
    if quotient is None or convert(quotient, type_) != quotient:
        return None
    return (quotient if op == "/" else left - quotient * right), type_


def _shift(op: str, a: Value, count: int, model: DataModel) -> Value | None:
    type_ = promote(a[1], model)
    if not 0 <= count < type_.bits:
        return None
    if op == ">>":
        return a[0] >> count, type_
    return None if a[0] < 0 else (convert(a[0] << count, type_), type_)


def shift_fits(value: int, type_: IntType, count: int) -> bool:
    """Tell whether ``value << count`` loses nothing in ``type_``, which must be promoted.

    For a signed type this is when C defines the shift (6.5.7); an unsigned one drops bits.
    """
    if not 0 <= count < type_.bits or value < 0:
        return False
    return value << count == convert(value << count, type_)


def unary(op: str, a: Value, model: DataModel) -> Value | None:
    """Return ``op a`` for ``+ - ~ !``, or ``None`` where C leaves it undefined."""
    if op == "!":
        return int(not a[0]), int_type(model)
    type_ = promote(a[1], model)
    if op == "-":
        return _defined(-a[0], type_)
    if op == "~":
        return convert(~a[0], type_), type_
    return (a[0], type_) if op == "+" else None
