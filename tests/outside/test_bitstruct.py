"""Masks, extracting and inserting, against the package ``bitstruct``.

Source: ``bitstruct`` packs fields into bytes from the highest bit down, and knows nothing of
registers. A split field is several of its fields.
"""

from __future__ import annotations

import random
import subprocess
from itertools import pairwise
from typing import NamedTuple

import bitstruct
from hypothesis import given, settings
from hypothesis import strategies as st
from outside_tools import emitted, macros_of

from regwright.model.chip import BitRange
from regwright.resolve.layout import layout


class Part(NamedTuple):
    """A run of bits: its width, and the field it belongs to, or None for a gap."""

    width: int
    owner: int | None


class Packed(NamedTuple):
    """A register cut into parts, from its highest bit down."""

    width: int
    parts: tuple[Part, ...]

    def places(self, owner: int) -> list[BitRange]:
        """Return the ranges of a field's parts, in the order of the parts."""
        high, found = self.width - 1, []
        for part in self.parts:
            if part.owner == owner:
                found.append(BitRange(high, high - part.width + 1))
            high -= part.width
        return found

    def format(self) -> str:
        """Return what bitstruct calls this; bits above the register fill up the first byte."""
        gap = -self.width % 8
        formats = [f"{'p' if part.owner is None else 'u'}{part.width}" for part in self.parts]
        return (f"p{gap}" if gap else "") + "".join(formats)

    def pack(self, values: list[int]) -> int:
        """Return the register value in which each part that has an owner holds its value."""
        return int.from_bytes(bitstruct.pack(self.format(), *values), "big")

    def unpack(self, value: int) -> tuple[int, ...]:
        return bitstruct.unpack(self.format(), value.to_bytes(-(-self.width // 8), "big"))


def cut(width: int, cuts: list[int], owners: list[int | None]) -> Packed:
    """Return a register cut at the bits ``cuts``; neighbours of one owner stay apart."""
    edges = sorted({width, 0, *(edge for edge in cuts if edge < width)}, reverse=True)
    pairs = pairwise(edges)
    return Packed(
        width,
        tuple(Part(a - b, owners[i % len(owners)]) for i, (a, b) in enumerate(pairs)),
    )


registers = st.builds(
    cut,
    st.integers(1, 64),
    st.lists(st.integers(1, 63), max_size=10),
    st.lists(st.sampled_from([None, 0, 0, 1, 2]), min_size=1, max_size=11),
)


def shuffled(register: Packed, owner: int, seed: int) -> tuple[list[BitRange], list[int]]:
    """Return a field's ranges in some order, high end of the field first, and that order."""
    ranges = register.places(owner)
    order = list(range(len(ranges)))
    random.Random(seed).shuffle(order)
    return [ranges[index] for index in order], order


def parts_of(value: int, ranges: list[BitRange], order: list[int]) -> list[int]:
    """Cut a field's value into what each of its parts holds, in the order of the register."""
    held = [0] * len(order)
    for index, (high, low) in reversed(list(zip(order, ranges, strict=True))):
        held[index] = value & ((1 << (high - low + 1)) - 1)
        value >>= high - low + 1
    return held


@settings(derandomize=True, database=None, deadline=None, max_examples=400)
@given(registers, st.integers(0, 2**64 - 1), st.integers(0, 2**64 - 1), st.integers(0, 99))
def test_layouts_agree_with_bitstruct(register, noise, content, seed):
    owned = [part for part in register.parts if part.owner is not None]
    content &= (1 << register.width) - 1
    unpacked = register.unpack(content)
    for owner in {part.owner for part in owned}:
        ranges, order = shuffled(register, owner, seed)
        place = layout(tuple(ranges))
        mine = [part.owner == owner for part in owned]
        assert place.mask == register.pack(
            [(1 << part.width) - 1 if own else 0 for part, own in zip(owned, mine, strict=True)]
        )
        value = noise & ((1 << place.width) - 1)
        held = iter(parts_of(value, ranges, order))
        assert place.insert(value) == register.pack([next(held) if own else 0 for own in mine])
        held = [part for part, own in zip(unpacked, mine, strict=True) if own]
        assert parts_of(place.extract(content), ranges, order) == held


def test_the_example_that_bitstruct_publishes():
    # bitstruct's README: pack('u1u3u4s16', 1, 2, 3, -4) is a3 ff fc
    assert bitstruct.pack("u1u3u4s16", 1, 2, 3, -4) == b"\xa3\xff\xfc"
    fields = {1: ((23, 23), 1), 2: ((22, 20), 2), 3: ((19, 16), 3), 4: ((15, 0), -4)}
    whole = 0
    for ends, value in fields.values():
        whole |= layout((BitRange(*ends),)).insert(value)
    assert whole == 0xA3FFFC
    assert layout((BitRange(22, 20),)).extract(0xA3FFFC) == 2


def test_fields_of_1_and_0_a_gap_of_2_and_9_make_0x89():
    # what bitstruct makes of it is asked, not believed
    assert bitstruct.pack("u1u1p2u4", 1, 0, 9) == b"\x89"
    first, second, last = (layout((BitRange(*ends),)) for ends in ((7, 7), (6, 6), (3, 0)))
    assert first.insert(1) | second.insert(0) | last.insert(9) == 0x89
    assert (first.extract(0x89), second.extract(0x89), last.extract(0x89)) == (1, 0, 9)


def sample() -> list[tuple[Packed, dict[int, tuple[list[BitRange], list[int]]]]]:
    """Return 64 registers, one of each width, with the ranges of their fields."""
    rng = random.Random(16550)
    found = []
    for width in range(1, 65):
        cuts = [rng.randrange(1, 64) for _ in range(rng.randrange(9))]
        owners = [rng.choice([None, 0, 0, 1, 2]) for _ in range(9)] + [0]
        register = cut(width, cuts, owners)
        numbers = {part.owner for part in register.parts if part.owner is not None}
        found.append((register, {owner: shuffled(register, owner, width) for owner in numbers}))
    return found


def described(registers: list[tuple[Packed, dict[int, tuple[list[BitRange], list[int]]]]]) -> dict:
    """Return a description of the registers R0, R1 and so on with fields F0, F1 and F2."""
    return {
        "name": "packed",
        "spaces": [{"name": "data", "size": "0x1000"}],
        "registers": [
            {
                "name": f"R{index}",
                "width": register.width,
                "address": hex(8 * index),
                "fields": [
                    {"name": f"F{owner}", "bits": ",".join(f"{h}:{low}" for h, low in ranges)}
                    for owner, (ranges, _) in fields.items()
                ],
            }
            for index, (register, fields) in enumerate(registers)
        ],
    }


def expectations(names: dict[str, str]) -> list[str]:
    """Return C expressions that are true when the macros do what bitstruct does."""
    rng, lines = random.Random(1), []
    for index, (register, fields) in enumerate(sample()):
        owners = [part.owner for part in register.parts if part.owner is not None]
        content = rng.getrandbits(register.width)
        unpacked = register.unpack(content)
        for owner, (ranges, order) in fields.items():
            stem = f"R{index}_F{owner}_"
            size = sum(high - low + 1 for high, low in ranges)
            value = rng.getrandbits(size)
            held = iter(parts_of(value, ranges, order))
            changed = [
                next(held) if own == owner else old
                for own, old in zip(owners, unpacked, strict=True)
            ]
            gaps = content & ~register.pack(
                [(1 << part.width) - 1 for part in register.parts if part.owner is not None]
            )
            after = register.pack(changed) | gaps
            # bits above the register and above the field have to be left out
            above = (1 << 64) - (1 << register.width)
            if f"{stem}INSERT" not in names:
                kept = f"{content:#x}U & ~(uint64_t){stem}MASK"
                lines.append(f"(({kept}) | ({value}U * {stem}MASK)) == {after:#x}U")
                continue
            more = value | ((1 << 64) - (1 << size))
            lines.append(
                f"same({stem}INSERT(id({content | above:#x}U), id({more:#x}U)), {after:#x}U)"
            )
            lines.append(f"same({stem}EXTRACT(id({after | above:#x}U)), {value:#x}U)")
    return lines


def test_the_macros_agree_with_bitstruct_in_a_program(compile_c, tmp_path):
    item = emitted(described(sample()))
    item.write(tmp_path)
    names = {
        name.partition("(")[0]
        for name in macros_of('#include "packed.h"', "-x", "c", folder=tmp_path)
    }
    lines = expectations(names)
    assert len(lines) > 150
    checks = "\n".join(f'    if (!({line})) {{ printf("%s\\n", "{line}"); }}' for line in lines)
    source = f"""#include <stdio.h>
#include "packed.h"
static uint64_t id(uint64_t value) {{ volatile uint64_t kept = value; return kept; }}
static int same(uint64_t one, uint64_t other) {{ return one == other; }}
int main(void) {{
{checks}
    printf("%d checked\\n", {len(lines)});
    return 0;
}}
"""
    flags = ["-fsanitize=undefined", "-fno-sanitize-recover=all"]
    process = compile_c(source, *flags, link=True)
    assert process.returncode == 0, process.stderr
    run = subprocess.run([tmp_path / "program"], capture_output=True, text=True, check=True)
    assert run.stdout == f"{len(lines)} checked\n"
    assert run.stderr == ""
