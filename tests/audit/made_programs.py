"""Programs made up at random: functions of which most never touch the chip, and all that misleads.

Names are few, so that a pointer of one function is a number in another and a macro in a third.
"""

from __future__ import annotations

import random
from collections.abc import Callable

from regwright.code.text import CPP, C

_REGISTERS = (
    "OUT_A",
    "OUT_B",
    "DIR_B",
    "ADC_CTRL",
    "TMR_FLAGS",
    "LED",
    "led",
    "vent_open",
    "START",
)
_NAMES = (*(f"x{number}" for number in range(5)), *(f"p{number}" for number in range(4)), "count")
_NUMBERS = (
    "0x18",
    "0x38",
    "0x24",
    "3",
    "1u",
    "0b101",
    "0",
    "(1 << 3)",
    "0x20 + 0x18",
    "'{'",
    "'a'",
)
_POINTER = "(volatile uint8_t *)"
#: What stands where a statement or a declaration may; the names in it are chosen anew each time.
_ANYWHERE = (
    "const uint8_t {n} = {v};",
    "static const uint8_t {n} = {v}, {n} = {v};",
    "const uint8_t a, {n} = {v};",
    "uint8_t const {n} /* = ; {{ */ = {v};",
    "static uint8_t *{n} = {a};",
    "volatile uint8_t *{n} = " + _POINTER + "{v};",
    "volatile uint8_t *const {n} = " + _POINTER + "{v};",
    "uint8_t a1, *{n} = {v};",
    "const uint8_t *{n} = &{n}[2];",
    "const uint8_t *{n} = {n} + (count & 3);",
    'const char *{n} = "{{ // /* ;";',
    "enum {{ größe = {v} }};",
    "enum {{ {n}, {n}_B = {v}, {n}_C }};",
    "struct s{d} {{ uint8_t a, b; }};",
    "struct __attribute__((packed)) t{d} {{ uint8_t a; uint16_t b; }};",
    "struct s{d} *{n} = (struct s{d} *){v};",
    "typedef volatile uint8_t *reg{d}_t;",
    "reg{d}_t {n} = (reg{d}_t){v};",
    "uint8_t {n} = {v};",
    "int {n}_t[] = {{ {v}, {v}, {v} }};",
    "\n#define {n} {a}\n",
    "\n#define M_{n} (*" + _POINTER + "{v})\n",
    "\n#ifdef X{d}\nconst uint8_t {n} = {v};\n#else\nenum {{ {n} = {v} }};\n#endif\n",
    "/* ) {{ {n} = OUT_B; */",
    "\n#define OWN_{d} (*(volatile uint8_t *){v})\n#define BIT_{d} {v}\n",
    "\n#if X{d}\n#define OWN_{d} (*(uint8_t *){v})\n#else\n#define OWN_{d} x{d}\n#endif\n",
    "\n#define MEM(at) (*(volatile uint8_t *)(at))\n",
    "\n#define GLUED(a, b) a##b\n",
    "\n#define PRE(a) OUT_##a\n",
    "\n#define PRE(a) MY_##a##_OUT\n",
    "\n#define MY_{d}_OUT (*(volatile uint8_t *){v})\n",
    '\n#define LOG(text, ...) log(#text ": " text, ##__VA_ARGS__)\n',
    "\n#define LEAST(a, b) ((a) < (b) ? (a) : (b))\n",
    "\n#define BIT(n) (1 << (n))\n#define MASK {n} & 0x7F\n",
    "\n#define NEXT {n}->b\n#define {n} NEXT\n",
    "\n#if X{d}\n#define FAR\n#else\n#define FAR __far\n#endif\n",
    "\n#define AS(type, at) (*(type)(at))\n#define STAR *\n",
    "\n#define FROM(at) ((struct s{d} *)(at))\n",
    "const int32_t {n} = (int32_t)({n} - {v}) + {n};",
    "const uint16_t {n} = ((uint16_t)1 << {n}) - 1, {n} = (f({n}), (uint16_t){n});",
    "const uint8_t {n} = LEAST({n}, {v}), {n} = (uint8_t)({n} * {n}.a);",
    "const uint8_t {n} = -{n} + 62 - {n}, {n} = ({n});",
    "struct s{d} *const {n} = ((struct s{d} *){a})->a ? (struct s{d} *)(&{n}[1]) : {n};",
    "struct s{d} *{n} = (struct s{d} *)((uint8_t *)f({v})->b);",
    '// ) {{ "\n',
)
_STATEMENTS = (
    *("{n} = {a};", "*{n} = {v};", "{n}++;", "use(&{n});", "*{n} |= 1 << {n};"),
    *("{r} |= {a};", "{r} &= ~(1 << {n});", "if ({r} & {a}) {{ {n} = {v}; }}"),
    *("M_{n} = {v};", "*" + _POINTER + "{v} = {a};", "{n}->a = {v};", "{n}[{d}] = {a};"),
    *(
        "for (const uint8_t *{n} = {a}; {n}; {n}++) {{ count += *{n}; }}",
        "do {{ {n}--; }} while ({n});",
    ),
    *("switch ({n}) {{ case {d}: {n} = '}}'; break; default: break; }}", "x0 = (x1 * {v}) >> {d};"),
    *('asm volatile ("out 0x18, r1");', '_Static_assert({v} == {a}, "x");', 'log("{{%u\\"", {a});'),
    *("/* regwright: silence not-volatile: a test */", "total += {n} / *{n};", "if (!{n}) return;"),
    *("x0 = ({{ int z = {a}; z; }});", "f((struct s{d}){{ {v}, {v} }});", "x1 <<= {v};"),
    *(
        "\n#if X{d}\n{n} = {v};\n#endif\n",
        "{{ const uint8_t {n} = {v}; {r} = {n}; }}",
        "x2 *= {a};",
    ),
)
_CASTS = (
    *("OWN_1 |= 1 << BIT_1;", "OWN_2 = BIT_2;", "OWN_0 = OWN_1 & ~BIT_0;", "OWN_1++;"),
    *("uint8_t i = (count) * 2, *{n} = {v};", "TRACE(*count)\n    uint8_t *{n} = {v};"),
    *("uint8_t [[maybe_unused]] *{n} = {v};", "*(volatile uint8_t *)({n} + 0, {v}) = 3;"),
    *("*(uint8_t *)größe = 3;", "uint8_t *{n} = größe + 2;"),
    *("{n} = *(uint8_t *){a};", "use((volatile uint8_t *){a}, sizeof(uint8_t *));"),
    *("const uint8_t *{n} = (const uint8_t *){a} + 2;", "{n} = *(uint16_t *)&{n} + 3;"),
    *("*(volatile uint8_t *)({n} + 3) = 1 << {n};", "*(volatile uint8_t *)(({n}) + 3) = {v};"),
    *("*(uint8_t *)(uint16_t){n} = {a};", "*(uint8_t *)(void *){n} = {n} << 9;"),
    *("const uint8_t {n} = f({n}, 3) ? {v} : 2;", 'const char *{n} = (char *)"{{";'),
    *("MEM({n}) = {a};", "MEM({v}) |= 1 << {n};", "x0 = MEM(p0) + GLUED(x, 1);"),
    *("const uint8_t {n} = *{n} << 3;", "uint8_t *{n} = GLUED(OUT, _B_ADDR);"),
    *("PRE(A) = {v};", "PRE({d}) |= {a};", 'LOG("x", {a}, {r});', "x0 = LEAST({a}, {a}) << {n};"),
    *("{n} |= BIT({v});", "{n} |= BIT({n}) << 9;", "x1 = MASK << 9;", "NEXT = {a};"),
    *("*(uint8_t * FAR){v} = {a};", "*(uint8_t * FAR)({n} + 1) = 1;", "x0 = ({n} * {n})\n;"),
    *("AS(uint8_t *, {v}) = {a};", "AS(uint8_t STAR, {n}) = 1;", "FROM({a})->a = {v};"),
    *("*(uint8_t *)-{n} = 1 << {n};", "x0 = 300 << 7 | 1 << 15 | 1 << (x{d} + 3);"),
    *("use(*((uint8_t *)((uint8_t *){n} + {v})));", "*(uint8_t *)(1 << {n}) = 500 << ({a});"),
)
_STATEMENTS_OF_CPP = (
    *("volatile uint8_t &{n} = *reinterpret_cast<volatile uint8_t *>({v});", "auto {n} = {a};"),
    *("constexpr uint8_t {n} {{ {v} }};", "const uint8_t {n}({v});", "{n} = 1'000 + {v};"),
    *('log(R"x({{ OUT_B = 1; )" {{ )x");', "auto f = [&](int q) {{ {n} = q; {r} = {v}; }};"),
    *("using reg{d}_t = volatile uint8_t *;", "uint8_t *{n}{{{a}}};"),
)
_HEADS = (
    *(
        "void f{i}(void)\n",
        "static uint8_t f{i}(uint8_t count, uint8_t *p0) ",
        "struct s{d} *f{i}(void)",
    ),
    *(
        "ISR(VECTOR_{i}) ",
        "int f{i}(struct s{d} *x0)\n",
        "__attribute__((noinline)) void f{i}(void) ",
    ),
)


def program(seed: int, language: str = C) -> str:
    """Return one program; a seed always gives the same."""
    rng = random.Random(seed)
    inside = _STATEMENTS + _CASTS + (_STATEMENTS_OF_CPP if language == CPP else ())
    parts = ["#include <stdint.h>\n"]
    for number in range(rng.randint(2, 12)):
        while rng.random() < 0.4:
            parts.append(_filled(rng, rng.choice(_ANYWHERE)) + "\n")
        choose: Callable[[], str] = (
            (lambda: rng.choice(_ANYWHERE if rng.random() < 0.2 else inside))
            if rng.random() < 0.5
            else (lambda: rng.choice(("x0 = x1 + 3;", "count++;", *rng.choices(inside, k=3))))
        )
        head = rng.choice(_HEADS).replace("{i}", str(number)).replace("{d}", str(rng.randrange(3)))
        lines = [_filled(rng, choose()) for _ in range(rng.randint(1, 8))]
        parts.append(head + "{\n    " + "\n    ".join(lines) + "\n}\n")
    return "".join(parts)


def _filled(rng: random.Random, text: str) -> str:
    """Return ``text`` with its marks replaced, each by a choice of its own."""
    made = []
    rest = text.replace("{{", "\0").replace("}}", "\1")
    while (at := rest.find("{")) >= 0:
        made += [rest[:at], _chosen(rng, rest[at + 1])]
        rest = rest[at + 3 :]
    return "".join([*made, rest]).replace("\0", "{").replace("\1", "}")


def _chosen(rng: random.Random, mark: str) -> str:
    if mark == "d":
        return str(rng.randrange(3))
    if mark == "r":
        return rng.choice(_REGISTERS)
    if mark == "v":
        return rng.choice(_NUMBERS)
    kinds = (_NAMES, _NAMES, _NUMBERS, _REGISTERS) if mark == "a" else (_NAMES,) * 6 + (_REGISTERS,)
    return rng.choice(rng.choice(kinds))
