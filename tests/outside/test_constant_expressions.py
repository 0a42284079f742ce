"""C's integers against gcc: literals, types, conversions and operators.

Source: gcc for this host, which has LP64, and ``gcc -m32`` for ILP32; for the latter nothing is
linked, so that no library is needed. Both are those of x86, where plain ``char`` is signed.
"""

from __future__ import annotations

from itertools import product
from pathlib import Path

import pytest
from c_expressions import CASTS, HEADERS, Compile, Node, blamed, nodes, values_by_gcc

from regwright.code.integers import (
    ILP32,
    LP64,
    DataModel,
    binary,
    convert,
    literal,
    named_type,
    promote,
    shift_fits,
    unary,
    usual,
)
from regwright.code.seen import IntType

#: The types that ``_Generic`` tells apart, in the order of the numbers it is made to give.
TYPES = (
    "_Bool",
    "char",
    "signed char",
    "unsigned char",
    "short",
    "unsigned short",
    "int",
    "unsigned",
    "long",
    "unsigned long",
    "long long",
    "unsigned long long",
)
GENERIC = (
    "#define TYPE_OF(x) _Generic((x), "
    + ", ".join(f"{name}: {number}" for number, name in enumerate(TYPES))
    + ")\n"
)
#: The same for C++, where ``_Bool`` is no word.
OVERLOADS = "#include <cstdio>\n#include <cstddef>\n" + "".join(
    f"constexpr int type_of({name.replace('_Bool', 'bool')}) {{ return {number}; }}\n"
    for number, name in enumerate(TYPES)
)


def type_named(name: str, model: DataModel = LP64) -> IntType:
    type_ = named_type(name.split(), model)
    assert type_ is not None
    return type_


def types_by_gcc(texts: list[str], tmp_path: Path, compile_c: Compile) -> list[IntType]:
    numbers = values_by_gcc(
        [f"TYPE_OF({text})" for text in texts], tmp_path, compile_c, headers=HEADERS + GENERIC
    )
    return [type_named(TYPES[number]) for number in numbers]


def spellings() -> list[str]:
    """Return literals around each power of two, in each base, with suffixes of all kinds."""
    near = {
        value
        for bits in (0, 7, 8, 15, 16, 31, 32, 63, 64)
        for value in ((1 << bits) - 1, 1 << bits, (1 << bits) + 1)
    }
    suffixes = ["", "u", "U", "l", "L", "ul", "LU", "ll", "LL", "ull", "ULL", "llu", "LLU", "Ull"]
    forms = ["{:d}", "{:#x}", "0X{:X}", "0{:o}", "{:#b}", "0x000{:x}", "0000{:o}"]
    return [form.format(value) + suffix for value, form, suffix in product(near, forms, suffixes)]


def test_literals(tmp_path: Path, compile_c: Compile) -> None:
    texts = spellings()
    # In the assembled constant gcc only warns of a value that no type holds.
    lines = [f"unsigned long long v{i} = {text};" for i, text in enumerate(texts)]
    refused = blamed(lines, compile_c, "-Wall")
    ours = [literal(text, LP64) for text in texts]
    assert {i for i, found in enumerate(ours) if found is None} == refused
    accepted = [text for i, text in enumerate(texts) if i not in refused]
    assert len(accepted) > 1500
    assert len(refused) > 50
    values = values_by_gcc(accepted, tmp_path, compile_c)
    types = types_by_gcc(accepted, tmp_path, compile_c)
    found = dict(zip(texts, ours, strict=True))
    for text, value, type_ in zip(accepted, values, types, strict=True):
        assert found[text] == (value, type_), text


@pytest.mark.parametrize("digits", ["0", "1", "0x1", "017", "0b1"])
def test_suffixes_that_are_none(digits: str, compile_c: Compile) -> None:
    letters = [""] + ["".join(p) for n in (1, 2, 3, 4) for p in product("uUlL", repeat=n)]
    texts = [digits + suffix for suffix in letters]
    refused = blamed([f"int v{i} = {text};" for i, text in enumerate(texts)], compile_c)
    assert {i for i, text in enumerate(texts) if literal(text, LP64) is None} == refused
    # None, u and U, l L ll LL, and each of these before and behind each of those.
    assert len(texts) - len(refused) == 1 + 2 + 4 + 16


def test_forms_that_are_none(compile_c: Compile) -> None:
    # What stands after a digit belongs to one token; points, exponents and i make other constants.
    texts = ["".join(p) for n in (1, 2, 3, 4) for p in product("0189xbAa_", repeat=n)]
    texts = [text for text in texts if text[0].isdigit()]
    refused = blamed([f"int v{i} = {text};" for i, text in enumerate(texts)], compile_c)
    assert {i for i, text in enumerate(texts) if literal(text, LP64) is None} == refused
    assert len(texts) - len(refused) > 300


def test_separators_and_sizes_of_c_plus_plus(tmp_path: Path, compile_c: Compile) -> None:
    digits = ["".join(p) for n in (1, 2, 3, 4, 5) for p in product("01'x", repeat=n)]
    # A quote that ends a token would start a character constant: only whole tokens are asked for.
    texts = [text for text in digits if text[0] in "01" and not text.endswith("'")]
    texts = [text for text in texts if "''" not in text]
    texts += ["1'000'000ull", "0xFFFF'FFFFu", "0b1111'0000", "0'7'7", "0x8000'0000", "0XaB'cDlu"]
    ends = ["".join(p) for n in (1, 2, 3) for p in product("uUlLzZ", repeat=n)]
    texts += [f"{number}{end}" for number in ("7", "0x7") for end in ends]
    texts += ["0x7FFF'FFFF'FFFF'FFFFz", "9223372036854775807Z", "0xFFFF'FFFF'FFFF'FFFFuz"]
    lines = [f"unsigned long long v{i} = {text};" for i, text in enumerate(texts)]
    refused = blamed(lines, compile_c, std="c++2b")
    ours = [literal(text, LP64) for text in texts]
    assert {i for i, found in enumerate(ours) if found is None} == refused
    accepted = [i for i in range(len(texts)) if i not in refused]
    assert len(accepted) > 100
    values = values_by_gcc(
        [texts[i] for i in accepted], tmp_path, compile_c, std="c++2b", headers=OVERLOADS
    )
    types = values_by_gcc(
        [f"type_of({texts[i]})" for i in accepted],
        tmp_path,
        compile_c,
        std="c++2b",
        headers=OVERLOADS,
    )
    for i, value, number in zip(accepted, values, types, strict=True):
        assert ours[i] == (value, type_named(TYPES[number])), texts[i]


def test_character_constants(tmp_path: Path, compile_c: Compile) -> None:
    texts = [f"'{chr(code)}'" for code in range(32, 127) if chr(code) not in "'\\"]
    texts += [f"'\\{letter}'" for letter in "abefnrtv'\"?\\"]
    texts += [f"'\\{code:o}'" for code in range(256)] + [f"'\\x{code:x}'" for code in range(256)]
    texts += ["'\\07'", "'\\007'", "'\\x0041'", "'\\x000'"]
    values = values_by_gcc(texts, tmp_path, compile_c)
    types = types_by_gcc(texts, tmp_path, compile_c)
    for text, value, type_ in zip(texts, values, types, strict=True):
        assert literal(text, LP64) == (value, type_), text


def test_character_constants_that_are_none(compile_c: Compile) -> None:
    texts = ["''", "'ab'", "'\\q'", "'\\400'", "'\\x'", "'\\x100'", "'\\xg'", "'\u00e9'", "'\\08'"]
    lines = [f"int v{i} = {text};" for i, text in enumerate(texts)]
    assert blamed(lines, compile_c, "-Wall") == set(range(len(texts)))
    assert [literal(text, LP64) for text in texts] == [None] * len(texts)


def test_words_of_types(tmp_path: Path, compile_c: Compile) -> None:
    words = ("unsigned", "signed", "char", "short", "int", "long", "volatile", "__signed__")
    texts = [" ".join(p) for n in (1, 2, 3, 4) for p in product(words, repeat=n)]
    lines = [f"extern {text} v{i};" for i, text in enumerate(texts)]
    # Without any type, C11 says int with a warning; we say that nothing is named.
    refused = blamed(lines, compile_c, "-Wimplicit-int")
    ours = [named_type(text.split(), LP64) for text in texts]
    assert {i for i, found in enumerate(ours) if found is None} == refused
    accepted = [i for i in range(len(texts)) if i not in refused]
    assert len(accepted) > 200
    types = types_by_gcc([f"({texts[i]})0" for i in accepted], tmp_path, compile_c)
    assert [ours[i] for i in accepted] == types


FREESTANDING = "#include <stdbool.h>\n#include <stddef.h>\n#include <stdint.h>\n"


def assert_compiles(lines: list[str], compile_c: Compile, *flags: str) -> None:
    source = FREESTANDING + "\n".join(lines) + "\n"
    compiled = compile_c(source, *flags, std="gnu11", strict=False)
    assert compiled.returncode == 0, compiled.stderr


def about_types(names: list[str], model: DataModel) -> list[str]:
    """Return assertions of C about width and sign of types."""
    lines = []
    for name in names:
        type_ = type_named(name, model)
        width, negative = f"sizeof({name}) * 8 == {type_.bits}", f"({name})-1 < 0"
        lines.append(f'_Static_assert({width} && ({negative}) == {int(type_.signed)}, "{name}");')
    return lines


@pytest.mark.parametrize(("model", "flag"), [(LP64, "-m64"), (ILP32, "-m32")])
def test_names_of_types(model: DataModel, flag: str, compile_c: Compile) -> None:
    names = [
        f"{sign}int{least}{bits}_t"
        for sign in ("", "u")
        for least in ("", "_least")
        for bits in (8, 16, 32, 64)
    ]
    names += ["size_t", "ptrdiff_t", "intptr_t", "uintptr_t", "intmax_t", "uintmax_t", *CASTS]
    unicode = [f"typedef __CHAR{bits}_TYPE__ char{bits}_t;" for bits in (16, 32)]
    lines = unicode + about_types([*names, "char16_t", "char32_t"], model)
    assert_compiles(lines, compile_c, flag, "-ffreestanding")


def test_names_of_types_in_linux(compile_c: Compile) -> None:
    """Source: linux/types.h and sys/types.h."""
    names = [f"__{sign}{bits}" for sign in ("u", "s") for bits in (8, 16, 32, 64)]
    names += [f"__{order}{bits}" for order in ("le", "be") for bits in (16, 32, 64)]
    lines = ["#include <linux/types.h>", "#include <sys/types.h>"]
    assert_compiles(lines + about_types([*names, "ssize_t"], LP64), compile_c)


def test_promotion_and_common_type(tmp_path: Path, compile_c: Compile) -> None:
    promoted = types_by_gcc([f"+({name})1" for name in TYPES], tmp_path, compile_c)
    assert [promote(type_named(name), LP64) for name in TYPES] == promoted
    pairs = list(product(TYPES, repeat=2))
    common = types_by_gcc([f"({a})1 + ({b})1" for a, b in pairs], tmp_path, compile_c)
    assert [usual(type_named(a), type_named(b), LP64) for a, b in pairs] == common


def test_casts(tmp_path: Path, compile_c: Compile) -> None:
    near = [
        sign * (1 << bits) + by
        for bits in (0, 7, 8, 15, 16, 31, 32, 62)
        for sign in (1, -1)
        for by in (-1, 0, 1)
    ]
    pairs = list(product(CASTS, near))
    values = values_by_gcc([f"({name})({value}LL)" for name, value in pairs], tmp_path, compile_c)
    assert [convert(value, type_named(name)) for name, value in pairs] == values


#: Operands of the test of single operators: limits and small values of all types from int on.
LEFT = (
    "0", "1", "-1", "2", "-7", "2147483647", "(-2147483647 - 1)", "65536", "0u", "3u",
    "4294967295u", "4294967296", "9223372036854775807", "(-9223372036854775807 - 1)",
    "0x8000000000000000", "18446744073709551615u", "(signed char)-128", "(unsigned short)65535",
    "(_Bool)1",
)  # fmt: skip
RIGHT = (*LEFT, "31", "32", "63u", "64ull", "16", "(char)30")
OPERATORS = (
    "+", "-", "*", "/", "%", "&", "|", "^", "<<", ">>", "<", ">", "<=", ">=", "==", "!=", "&&", "||"
)  # fmt: skip
UNDEFINED = ("-Woverflow", "-Wdiv-by-zero", "-Wshift-count-overflow", "-Wshift-count-negative",
             "-Wshift-overflow=2", "-Wshift-negative-value")  # fmt: skip


def operand(text: str) -> Node:
    """Return what one of the operands above is, from its literals and operators."""
    cast, _, rest = text.rpartition(")") if text.startswith("(") and text[-1] != ")" else ("",) * 3
    if cast:
        type_ = type_named(cast[1:])
        return Node(text, (convert(operand(rest).value[0], type_), type_), 0)
    body = text.strip("()")
    first, minus, second = body.partition(" - ")
    negative = first.startswith("-")
    value = literal(first.removeprefix("-"), LP64)
    assert value is not None
    value = unary("-", value, LP64) if negative else value
    one = literal(second, LP64) if minus else None
    value = binary("-", value, one, LP64) if value and one else value
    assert value is not None
    return Node(text, value, 0)


def test_each_operator(tmp_path: Path, compile_c: Compile) -> None:
    """Defined where gcc does not warn, with gcc's value and type there."""
    cases = list(product(map(operand, LEFT), OPERATORS, map(operand, RIGHT)))
    texts = [f"({a.text}) {op} ({b.text})" for a, op, b in cases]
    lines = [f"unsigned long long v{i}(void) {{ return {text}; }}" for i, text in enumerate(texts)]
    warned = blamed(lines, compile_c, *UNDEFINED)
    ours = [binary(op, a.value, b.value, LP64) for a, op, b in cases]
    lost = {
        i
        for i, (a, op, b) in enumerate(cases)
        if op == "<<"
        and promote(a.value[1], LP64).signed
        and not shift_fits(a.value[0], promote(a.value[1], LP64), b.value[0])
    }
    undefined = {i for i, found in enumerate(ours) if found is None}
    assert undefined | lost == warned
    assert len(lost - undefined) > 10
    # A shift into the sign bit and beyond has gcc's value as well, where gcc gives one.
    defined = sorted(set(range(len(cases))) - undefined)
    assert len(defined) > 5000
    flags = ["-Wno-shift-overflow"]
    values = values_by_gcc([texts[i] for i in defined], tmp_path, compile_c, *flags)
    types = types_by_gcc([texts[i] for i in defined], tmp_path, compile_c)
    for i, value, type_ in zip(defined, values, types, strict=True):
        assert ours[i] == (value, type_), texts[i]


def test_each_operator_before_an_operand(tmp_path: Path, compile_c: Compile) -> None:
    cases = list(product("+-~!", map(operand, LEFT)))
    texts = [f"{op}({a.text})" for op, a in cases]
    lines = [f"unsigned long long v{i} = {text};" for i, text in enumerate(texts)]
    warned = blamed(lines, compile_c, *UNDEFINED)
    ours = [unary(op, a.value, LP64) for op, a in cases]
    assert {i for i, found in enumerate(ours) if found is None} == warned
    assert len(warned) == 2
    defined = [i for i in range(len(cases)) if i not in warned]
    values = values_by_gcc([texts[i] for i in defined], tmp_path, compile_c)
    types = types_by_gcc([texts[i] for i in defined], tmp_path, compile_c)
    assert [ours[i] for i in defined] == list(zip(values, types, strict=True))


def test_random_expressions(tmp_path: Path, compile_c: Compile) -> None:
    made = nodes(seed=1, number=1000)
    texts = [node.text for node in made]
    values = values_by_gcc(texts, tmp_path, compile_c)
    types = types_by_gcc([f"({text})" for text in texts], tmp_path, compile_c)
    for node, value, type_ in zip(made, values, types, strict=True):
        # _Generic sees the value after the loss of qualifiers, not after promotion (6.5.1.1).
        assert node.value == (value, type_), node.text


def about_values(made: list[Node], off_by: int = 0) -> list[str]:
    """Return an assertion of C about the value and the promoted type of each expression."""
    lines = []
    for node in made:
        value, type_ = node.value
        modulo = (value + off_by) & (2**64 - 1)
        has_value = f"(unsigned long long)({node.text}) == {modulo}u"
        has_sign = f"(({node.text}) < 0) == {int(value < 0)}"
        number = PROMOTED_32.index(promote(type_, ILP32))
        has_type = f"TYPE_OF(+({node.text})) == {number + TYPES.index('int')}"
        lines.append(f'_Static_assert({has_value} && {has_sign} && {has_type}, "");')
    return lines


PROMOTED_32 = [type_named(name, ILP32) for name in TYPES[TYPES.index("int") :]]


def test_random_expressions_with_32_bits(compile_c: Compile) -> None:
    made = nodes(seed=2, number=1000, model=ILP32)
    headers, flags = FREESTANDING + GENERIC, ("-m32", "-ffreestanding")
    assert blamed(about_values(made), compile_c, *flags, headers=headers) == set()
    wrong = about_values(made, off_by=1)
    assert blamed(wrong, compile_c, *flags, headers=headers) == set(range(len(made)))
