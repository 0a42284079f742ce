"""Layouts of structures and unions against gcc, for a host with LP64.

Source: ``offsetof`` and ``sizeof`` of gcc, with ``-fpack-struct`` and without. What is the same
with both is sure, what differs is not.
"""

from __future__ import annotations

import random
import re
import subprocess
from pathlib import Path
from typing import NamedTuple

import pytest
from code_reading import laid_out, layout_of, seen

from conftest import Compile
from regwright.code.integers import ILP32, IP16, LP64, DataModel
from regwright.code.scope import Layout
from regwright.code.seen import Location, Pointer
from regwright.code.text import CPP, C

TYPES = ["char", "unsigned char", "uint8_t", "volatile uint8_t", "int8_t", "short", "uint16_t",
         "const uint16_t", "int", "uint32_t", "long", "long long", "uint64_t", "_Bool",
         "byte", "word"]  # fmt: skip
HEADERS = (
    "#include <stddef.h>\n#include <stdint.h>\n#include <stdio.h>\n"
    "typedef unsigned char byte;\ntypedef volatile uint16_t word;\n"
)


class Made(NamedTuple):
    """A structure: its text, its tag, the ways to its own members."""

    text: str
    tag: str
    kind: str
    ways: tuple[str, ...]


class Maker:
    """Makes random structures that may have those made before as members."""

    def __init__(self, seed: int) -> None:
        self.rng = random.Random(seed)
        self.before: list[Made] = []
        self.names = 0

    def name(self) -> str:
        self.names += 1
        return f"m{self.names}"

    def members(self, depth: int) -> tuple[str, tuple[str, ...]]:
        rng = self.rng
        lines, ways = [], []
        small = rng.random() < 0.6  # so that many have one layout only
        for _ in range(rng.randint(1, 6)):
            kind = rng.choice([*TYPES[:5], "byte"] if small else TYPES)
            if self.before and rng.random() < 0.25:
                other = rng.choice(self.before[-6:])
                kind = f"{other.kind} {other.tag}"
            name = self.name()
            choice = rng.random()
            if depth and choice < 0.15:
                inner, inner_ways = self.members(depth - 1)
                lines.append(f"{rng.choice(['struct', 'union'])} {{ {inner} }};")
                ways += inner_ways
                continue
            if choice < 0.35:
                lines.append(f"{kind} {name}[{rng.choice(['2', '3', '0x4', '07'])}];")
            elif choice < 0.45 and not small:
                lines.append(f"{kind} *{name}, *{name}_b;")
                ways.append(f"{name}_b")
            elif choice < 0.5:
                lines.append(f"{kind} {name}, {name}_b[2];")
                ways.append(f"{name}_b")
            else:
                lines.append(f"{kind} {name};")
            ways.append(name)
        return " ".join(lines), tuple(ways)

    def structure(self) -> Made:
        kind = self.rng.choice(["struct", "struct", "struct", "union"])
        inside, ways = self.members(1)
        packed = self.rng.choice(["", "", "", "__attribute__((packed)) "])
        tag = f"t{self.name()}"
        behind = kind == "union" or self.rng.random() < 0.5  # the grammar wants it there
        head = f"{kind} {'' if behind else packed}{tag}"
        made = Made(f"{head} {{ {inside} }} {packed if behind else ''};", tag, kind, ways)
        self.before.append(made)
        return made


def by_gcc(
    made: list[Made], compile_c: Compile, folder: Path, *flags: str, std: str = "gnu11"
) -> list[list[int]]:
    """Return the size of each structure, and the offset and size of each of its members."""
    rows = ""
    for item in made:
        whole = f"{item.kind} {item.tag}"
        parts = [f"sizeof({whole})"]
        for way in item.ways:
            parts += [f"offsetof({whole}, {way})", f"sizeof((({whole} *)0)->{way})"]
        form = " ".join(["%zu"] * len(parts))
        rows += f'    printf("{form}\\n", {", ".join(parts)});\n'
    texts = "".join(f"{item.text}\n" for item in made)
    source = f"{HEADERS}{texts}int main(void) {{\n{rows}    return 0;\n}}\n"
    done = compile_c(source, *flags, "-w", std=std, strict=False, link=True)
    assert done.returncode == 0, done.stderr
    printed = subprocess.run([folder / "program"], capture_output=True, text=True, check=True)
    return [[int(number) for number in line.split()] for line in printed.stdout.splitlines()]


def numbers(layout: Layout, ways: tuple[str, ...]) -> list[int]:
    made = [layout.size]
    for way in ways:
        member = layout.members[way]
        made += [member.offset, member.size * max(member.length, 1)]
    return made


@pytest.mark.parametrize(("language", "std"), [(C, "gnu11"), (CPP, "c++17")])
def test_what_is_sure_is_what_gcc_makes_packed_or_not(
    language: str, std: str, compile_c: Compile, tmp_path: Path
) -> None:
    maker = Maker(1 if language == C else 2)
    made = [maker.structure() for _ in range(400)]
    if language == CPP:
        made = [item._replace(text=item.text.replace("_Bool", "bool")) for item in made]
    plain = by_gcc(made, compile_c, tmp_path, std=std)
    packed = by_gcc(made, compile_c, tmp_path, "-fpack-struct", std=std)
    text = HEADERS + "".join(f"{item.text}\n" for item in made)
    scope = laid_out(text, LP64, language)
    sure = 0
    for item, one, other in zip(made, plain, packed, strict=True):
        layout = layout_of(scope, item.tag)
        inner = [layout_of(scope, tag) for tag in re.findall(r"(tm\d+) m", item.text)]
        same = one == other and all(each.is_sure for each in inner)
        assert layout.is_sure == same, item.text
        if layout.is_sure:
            assert numbers(layout, item.ways) == one, item.text
            sure += 1
    assert 100 < sure < 350


def test_what_differs_is_not_sure_and_what_does_not_is() -> None:
    """By hand: each member at its own size, or all of them without gaps."""
    cases = {
        "struct a { uint8_t x; uint16_t y; };": False,
        "struct a { uint16_t y; uint8_t x; };": False,
        "struct a { uint8_t x, z; uint16_t y; };": True,
        "struct a { uint8_t x; uint16_t y; } __attribute__((packed));": True,
        "union a { uint8_t x[3]; uint16_t y; };": False,
        "union a { uint8_t x[4]; uint16_t y; };": True,
        "struct a { struct { uint16_t x; } y; uint8_t z; };": False,
        "struct a { uint8_t z; struct { uint16_t x; } y; };": False,
        "struct a { uint8_t z; struct { uint16_t x; }; };": False,
        "struct a { uint8_t z; struct { uint8_t x; }; uint8_t y; };": True,
        "struct a { uint32_t x; struct b *y; };": False,
        "struct a { struct b *y; uint32_t x[2]; };": True,
        # what the compiler or a switch of it decides, or nobody here knows
        "struct a { uint8_t x : 4, y : 4; };": False,
        "struct a { enum b x; };": False,
        "struct a { other x; };": False,
        "struct a { struct other x; };": False,
        "struct a { uint8_t x[N]; };": False,
        "struct a { uint8_t x[]; };": False,
        "struct a { uint8_t x[2][2]; };": False,
        "struct a { float x; };": False,
        "struct a { void (*x)(void); };": False,
        "struct a { _Alignas(4) uint8_t x; };": False,
        "struct a { uint8_t x __attribute__((aligned(2))); };": False,
        "struct a { uint8_t x; } __attribute__((aligned(2)));": False,
        "struct a { uint8_t x;\n#if B\n uint8_t y;\n#endif\n};": False,
        "struct a { };": False,
        "struct a { uint8_t x; struct b { uint8_t y; }; };": False,
        "struct a { uint8_t x; byte; };": False,
        "struct a { uint8_t x[0x100000]; uint8_t y; };": False,
        # one name for two layouts
        "struct a { uint8_t x; }; struct a { uint16_t x; };": False,
        "struct a { uint8_t x; }; struct a { uint8_t x; };": True,
    }
    head = "typedef unsigned char uint8_t; typedef unsigned char byte;\n"
    found = {text: layout_of(laid_out(head + text, LP64), "a").is_sure for text in cases}
    assert found == cases


def test_classes() -> None:
    cases = {
        "class a { public: uint8_t x; private: uint8_t y; };": True,
        "struct a { static const uint8_t x = 1; uint8_t y; };": True,
        "struct a : b { uint8_t x; };": False,
        "struct a { virtual void f(); uint8_t x; };": False,
        "struct alignas(4) a { uint8_t x; };": False,
        "struct a { uint8_t x [[gnu::aligned(4)]]; };": False,
    }
    found = {text: layout_of(laid_out(text, LP64, CPP), "a").is_sure for text in cases}
    assert found == cases
    layout = layout_of(laid_out(list(cases)[1], LP64, CPP), "a")
    assert (layout.size, list(layout.members), layout.members["y"].offset) == (1, ["y"], 0)


@pytest.mark.parametrize(("model", "size"), [(IP16, 2), (ILP32, 4), (LP64, 8)])
def test_pointers_are_as_wide_as_the_model_has_them(model: DataModel, size: int) -> None:
    layout = layout_of(laid_out("struct a { void *x; char *y[2]; };", model), "a")
    assert (layout.size, layout.is_sure) == (3 * size, True)
    assert layout.members["y"][:1] == (size,)


# Members of what is laid over an address.


def test_members_of_an_overlay() -> None:
    text = """
typedef struct { unsigned char in, out; } pin_t;
typedef volatile struct {
    pin_t port[2];
    unsigned char dir;
    struct { unsigned char low, high; };
} ports_t;
#define PORTS ((ports_t *)0x40)
"""
    found = {
        item.name: (item.means.address, item.means.type.bits, item.means.type.volatile)
        for item in seen(text).definitions
        if isinstance(item.means, Location)
    }
    assert found == {
        "PORTS.port[0].in": (0x40, 8, True),
        "PORTS.port[0].out": (0x41, 8, True),
        "PORTS.port[1].in": (0x42, 8, True),
        "PORTS.port[1].out": (0x43, 8, True),
        "PORTS.dir": (0x44, 8, True),
        "PORTS.low": (0x45, 8, True),
        "PORTS.high": (0x46, 8, True),
    }
    members = [item for item in seen(text).definitions if item.form == "member"]
    assert {item.means.base for item in members if not isinstance(item.means, Pointer)} == {0x40}


@pytest.mark.parametrize(
    "text",
    [
        # rows of rows of what has no members, and of what has too many
        "struct a{};struct b{struct a x[255];};struct c{struct b x[255];};"
        "struct d{struct c x[255];};struct e{struct d x[255];};\n#define P (*(struct e *)0x38)\n",
        "struct a{struct {} x;};struct b{struct a x[255];};struct c{struct b x[255];};"
        "struct d{struct c x[255];};struct e{struct d x[255];};\n#define P (*(struct e *)0x38)\n",
        "struct a{char x[2];};struct b{struct a x[255];};struct c{struct b x[255];};\n"
        "#define P (*(struct c *)0x38)\n",
        "struct a{char x[256];};\n"
        + "".join(f"#define P{n} (*(struct a *)0x38)\n" for n in range(2000)),
    ],
)
def test_there_are_not_more_members_than_anybody_needs(text: str) -> None:
    found = seen(text).definitions
    assert len(found) < 4096 + 2 * len(text)
