"""Words packed and unpacked by bitstruct (PyPI), which knows nothing of this project."""

from __future__ import annotations

import bitstruct
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from lamp_chip import lamp

from regwright.configuration.decode import choices_of, decode, problems
from regwright.configuration.encode import encode
from regwright.model.chip import BitRange
from regwright.model.configuration import (
    Choice,
    Configuration,
    ConfigurationField,
    ConfigurationWord,
)

STEADY = settings(
    deadline=None,
    derandomize=True,
    database=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow],
)


def test_each_low_byte() -> None:
    """Every value of the low byte decodes as bitstruct has it, or a reason is given."""
    for value in range(256):
        divider, output, start_up, source = bitstruct.unpack("u1u1u2u4", bytes([value]))
        names = {
            "clock-divider": ["divide-by-8", "off"][divider],
            "clock-output": ["programmed", "unprogrammed"][output],
            "start-up": {0: "fast", 1: "medium", 2: "slow"}.get(start_up),
            "clock-source": {0: "pin", 2: "oscillator", 15: "crystal"}.get(source),
        }
        read = decode(lamp(), {"low": value})
        assert {setting: read[setting] for setting in names} == names
        missing = {setting for setting, name in names.items() if name is None}
        assert {item.setting for item in problems(lamp(), {"low": value})} == missing


@st.composite
def packed(draw: st.DrawFn) -> tuple[Configuration, str, list[int], list[int]]:
    """Draw one word of fields side by side, its bitstruct format, old and new values of each."""
    sizes = draw(st.lists(st.integers(1, 9), min_size=1, max_size=7))
    width = sum(sizes)
    fields, high = [], width - 1
    for number, size in enumerate(sizes):
        values = draw(
            st.lists(st.integers(0, (1 << size) - 1), min_size=1, max_size=5, unique=True)
        )
        choices = tuple(Choice(f"c{value}", value) for value in values)
        bits = (BitRange(high, high - size + 1),)
        fields.append(ConfigurationField(f"F{number}", f"s{number}", bits, choices=choices))
        high -= size
    word = ConfigurationWord("all", 0, 0, width=width, fields=tuple(fields))
    values = [[draw(st.sampled_from(field.choices)).value for field in fields] for _ in range(2)]
    return Configuration("fuse", (word,)), "".join(f"u{size}" for size in sizes), *values


@STEADY
@given(packed())
def test_packing_fields(case: tuple[Configuration, str, list[int], list[int]]) -> None:
    configuration, form, old, new = case
    padding = -configuration.words[0].width % 8

    def word(values: list[int]) -> int:
        return int.from_bytes(bitstruct.pack(form, *values), "big") >> padding

    chosen = {f"s{number}": f"c{value}" for number, value in enumerate(new)}
    assert encode(configuration, {"all": word(old)}, chosen) == {"all": word(new)}
    assert decode(configuration, {"all": word(new)}) == chosen
    first = {"s0": chosen["s0"]}
    assert encode(configuration, {"all": word(old)}, first) == {"all": word([new[0], *old[1:]])}


def test_a_field_in_two_pieces() -> None:
    """Bit 4 is the high end, bits 2:1 the low one: bitstruct packs the same with its neighbours."""
    field = lamp().words[1].fields[3]
    assert choices_of(lamp(), field) == ()
    for value in range(8):
        top, rest = value >> 2, value & 3
        packed_word = bitstruct.pack("u1u1u1u1u1u2u1", 1, 1, 0, top, 1, rest, 1)
        found = encode(lamp(), {}, {"supply-watch": f"0d{value}"})
        assert found["high"].to_bytes(1, "big") == packed_word
