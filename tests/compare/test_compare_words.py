"""A sentence for each kind of change, and for the way back; written by hand, none left out."""

from __future__ import annotations

import pytest
from rest_sentences import REST_SAID
from small_chips import chip, field, register

from regwright.compare import pairs
from regwright.compare.changes import KINDS, Change, mirrored
from regwright.compare.differences import Comparison, compare
from regwright.compare.words import REASONS, WHAT, Words, doubt
from regwright.resolve.chip import ResolvedChip

#: Kind, before and after, what is said of A against B, and what of B against A.
Case = tuple[str, str, str, str, str]
NOTHING = pairs.Matching([], [], [])
SAID: list[Case] = [
    (
        "register-only-in-a",
        "data 0x60, 8 bits",
        "",
        "only a has it: data 0x60, 8 bits",
        "only a has it: data 0x60, 8 bits",
    ),
    (
        "register-only-in-b",
        "",
        "data 0x60, 8 bits",
        "only b has it: data 0x60, 8 bits",
        "only b has it: data 0x60, 8 bits",
    ),
    ("field-only-in-a", "bit 4", "", "only a has it: bit 4", "only a has it: bit 4"),
    ("field-only-in-b", "", "bit 4", "only b has it: bit 4", "only b has it: bit 4"),
    ("value-only-in-a", "0x06", "", "only a has it: 0x06", "only a has it: 0x06"),
    ("value-only-in-b", "", "0x06", "only b has it: 0x06", "only b has it: 0x06"),
    ("space-only-in-a", "0x40 units", "", "only a has it: 0x40 units", "only a has it: 0x40 units"),
    ("space-only-in-b", "", "0x40 units", "only b has it: 0x40 units", "only b has it: 0x40 units"),
    (
        "register-renamed",
        "TMR0_CNT",
        "TMR_A_CNT",
        "is now called TMR_A_CNT, was called TMR0_CNT",
        "is now called TMR0_CNT, was called TMR_A_CNT",
    ),
    (
        "field-renamed",
        "E",
        "EN",
        "is now called EN, was called E",
        "is now called E, was called EN",
    ),
    ("value-renamed", "X", "Y", "is now called Y, was called X", "is now called X, was called Y"),
    ("chip-name", "x1", "x2", "is now called x2, was called x1", "is now called x1, was called x2"),
    (
        "register-aliases",
        "",
        "CNT0",
        "is now also called CNT0",
        "has no other name now, was also called CNT0",
    ),
    (
        "field-aliases",
        "A1",
        "A2 A3",
        "is now also called A2 A3, was also called A1",
        "is now also called A1, was also called A2 A3",
    ),
    (
        "value-aliases",
        "A1",
        "",
        "has no other name now, was also called A1",
        "is now also called A1",
    ),
    (
        "register-width",
        "8 bits",
        "16 bits",
        "is now 16 bits wide, was 8 bits",
        "is now 8 bits wide, was 16 bits",
    ),
    (
        "field-width",
        "1 bit",
        "2 bits",
        "is now 2 bits wide, was 1 bit",
        "is now 1 bit wide, was 2 bits",
    ),
    (
        "register-access",
        "read-write",
        "read-only",
        "is now read-only, was read-write",
        "is now read-write, was read-only",
    ),
    (
        "field-access",
        "read-only",
        "writeOnce",
        "is now writeOnce, was read-only",
        "is now read-only, was writeOnce",
    ),
    ("value", "0x06", "0x07", "is now 0x07, was 0x06", "is now 0x06, was 0x07"),
    (
        "register-reset",
        "0xFF",
        "0x063F",
        "is now 0x063F after reset, was 0xFF",
        "is now 0xFF after reset, was 0x063F",
    ),
    (
        "field-reset",
        "",
        "0x00",
        "is now 0x00 after reset, which was not said",
        "its value after reset is not said now, was 0x00",
    ),
    (
        "register-read-action",
        "",
        "clear",
        "reading it now clears it, changed nothing before",
        "reading it now changes nothing, cleared it before",
    ),
    (
        "field-read-action",
        "set",
        "modify",
        "reading it now changes it, set it before",
        "reading it now sets it, changed it before",
    ),
    (
        "write-effect",
        "zeroToClear",
        "oneToClear",
        "is now cleared by writing 1, was by writing 0",
        "is now cleared by writing 0, was by writing 1",
    ),
    (
        "write-effect",
        "oneToSet",
        "oneToClear",
        "is now cleared by writing 1, was set by writing 1",
        "is now set by writing 1, was cleared by writing 1",
    ),
    (
        "write-effect",
        "",
        "oneToToggle",
        "is now toggled by writing 1, became what was written",
        "now becomes what is written, was toggled by writing 1",
    ),
    (
        "reserved",
        "0x14: write 0",
        "",
        "0x14 was to be written 0; now no bit is reserved",
        "no bit was reserved; now 0x14 is to be written 0",
    ),
    (
        "reserved",
        "0x80: preserve, 0x03: write 1",
        "0xC0: not said",
        "0x80 was to be preserved and 0x03 was to be written 1; now 0xC0 is reserved",
        "0xC0 was reserved; now 0x80 is to be preserved and 0x03 is to be written 1",
    ),
    ("halves", "", "L, H", "now has halves: L, H", "has no halves now, had L, H"),
    (
        "halves",
        "L, H",
        "K, J",
        "its halves are now K, J, were L, H",
        "its halves are now L, H, were K, J",
    ),
    (
        "read-order",
        "low",
        "high",
        "was read low half first, is now high half first",
        "was read high half first, is now low half first",
    ),
    (
        "write-order",
        "",
        "high",
        "is now written high half first, no order was said",
        "was written high half first, now no order is said",
    ),
    (
        "byte-order",
        "little",
        "big",
        "now lies in memory high end first, lay there low end first",
        "now lies in memory low end first, lay there high end first",
    ),
    (
        "temporary",
        "TEMP",
        "ADC_TEMP",
        "ADC_TEMP now holds its other half meanwhile, TEMP did",
        "TEMP now holds its other half meanwhile, ADC_TEMP did",
    ),
    (
        "condition",
        "",
        "LCR.DLAB = 0x1",
        "now answers only while LCR.DLAB = 0x1, always did",
        "now always answers, did only while LCR.DLAB = 0x1",
    ),
    (
        "alias-of",
        "",
        "OTHER",
        "now stands for OTHER, was a register of its own",
        "is now a register of its own, stood for OTHER",
    ),
    ("field-moved", "CTRL", "MODE", "moved from CTRL to MODE", "moved from MODE to CTRL"),
    ("field-bits", "bit 2", "bit 7", "moved from bit 2 to bit 7", "moved from bit 7 to bit 2"),
    (
        "field-bits",
        "bits 7:5",
        "bits 2,7:5",
        "now takes bits 2,7:5, took bits 7:5",
        "now takes bits 7:5, took bits 2,7:5",
    ),
    (
        "volatile",
        "no",
        "yes",
        "now changes by itself, it did not",
        "now does not change by itself, it did",
    ),
    (
        "volatile",
        "",
        "yes",
        "now changes by itself, which was not said",
        "whether it changes by itself is not said now, it did",
    ),
    (
        "value-usage",
        "read",
        "read-write",
        "now has this meaning when read or written, had it when read",
        "now has this meaning when read, had it when read or written",
    ),
    (
        "values-complete",
        "no",
        "yes",
        "now has no values but those with a name",
        "may now have values without a name",
    ),
    (
        "space",
        "0x40 units",
        "0x80 units",
        "is now 0x80 units; was 0x40 units",
        "is now 0x40 units; was 0x80 units",
    ),
    (
        "window",
        "0x00 to 0x3F at +0x20",
        "",
        "only a has it: 0x00 to 0x3F at +0x20",
        "only a has it: 0x00 to 0x3F at +0x20",
    ),
    (
        "region",
        "",
        "0x60 to 0x7F, ram",
        "only b has it: 0x60 to 0x7F, ram",
        "only b has it: 0x60 to 0x7F, ram",
    ),
    (
        "instruction",
        "read io",
        "read data",
        "is now read data; was read io",
        "is now read io; was read data",
    ),
    (
        "int-width",
        "16 bits",
        "32 bits",
        "int now has 32 bits, had 16 bits",
        "int now has 16 bits, had 32 bits",
    ),
    (
        "compiler-macro",
        "",
        "__S40__",
        "the compiler now defines __S40__, no macro was named",
        "no macro of the compiler is named now, __S40__ was",
    ),
    ("kind", "chip", "device", "is now a device, was a chip", "is now a chip, was a device"),
    (
        "title",
        "One",
        "Two",
        'is now titled "Two", was titled "One"',
        'is now titled "One", was titled "Two"',
    ),
    ("page", "", "7", "is now on page 7, had no page", "has no page now, was on page 7"),
    (
        "notes",
        "",
        "Careful",
        'its notes now say "Careful", it had none',
        'has no notes now, they said "Careful"',
    ),
    (
        "document",
        "M, A",
        "M, B",
        "is now described in M, B, was in M, A",
        "is now described in M, A, was in M, B",
    ),
    (
        "family",
        "Old",
        "New",
        "now belongs to New, belonged to Old",
        "now belongs to Old, belonged to New",
    ),
    *REST_SAID,
]


def words(comparison: Comparison) -> Words:
    return Words(comparison, (comparison.a.chip.name, comparison.b.chip.name))


@pytest.mark.parametrize("case", SAID, ids=[f"{row[0]}: {row[1]} to {row[2]}" for row in SAID])
def test_sentence_and_the_one_for_the_way_back(case: Case) -> None:
    kind, before, after, there, back = case
    a, b = chip(name="a"), chip(name="b")
    change = Change(kind, "R" if before or not after else "", "R", before, after)
    assert words(Comparison(a, b, NOTHING, [])).sentence(change) == there
    assert words(Comparison(b, a, NOTHING, [])).sentence(mirrored(change)) == back


def test_split_and_merged() -> None:
    a, b = chip(name="a"), chip(name="b")
    change = Change("register-split", "BIG", "LOW, HIGH", "", "LOW, HIGH")
    there, back = words(Comparison(a, b, NOTHING, [])), words(Comparison(b, a, NOTHING, []))
    assert there.message(change) == "BIG: is several registers in b: LOW, HIGH"
    assert back.message(mirrored(change)) == "LOW, HIGH: are one register in a: BIG"
    assert there.sides(change) == ("BIG", "LOW, HIGH")
    assert back.sides(mirrored(change)) == ("LOW, HIGH", "BIG")


def test_every_kind_is_named_and_has_a_sentence_of_its_own() -> None:
    elsewhere = {"address", "single-bit-reach", "register-split", "registers-merged"}
    assert {row[0] for row in SAID} | elsewhere == set(KINDS)
    assert set(WHAT) | {"address"} == set(KINDS)


def test_every_reason_for_a_match_has_words() -> None:
    names = [
        value for key, value in vars(pairs).items() if key.isupper() and isinstance(value, str)
    ]
    reasons = set(names) - set(pairs.SURENESS)
    assert set(REASONS) == reasons
    assert {doubt(pairs.sureness(why), why).partition(":")[0] for why in reasons} == {
        "",
        "probably",
        "perhaps",
    }
    assert doubt("certain", "name") == ""
    assert doubt("likely", "title") == "probably: same title"
    assert doubt("possible", "fields") == "perhaps: same fields"


def test_columns() -> None:
    one = register("R", 0x24, fields=[field("F", "2", modifiedWriteValue="zeroToClear")])
    other = register("R", 0x9F, fields=[field("F", "7", modifiedWriteValue="oneToClear")])
    comparison = compare(chip(one), chip(other))
    found = words(comparison)
    rows = {(item.a, found.what(item), *found.sides(item)) for item in comparison.changes}
    assert rows == {
        ("R", "data address", "0x24", "0x9F"),
        ("R", "io address", "0x04", "none, only data 0x9F"),
        ("R", "single bits", "within reach", "out of reach"),
        ("R.F", "when written", "cleared by writing 0", "cleared by writing 1"),
        ("R.F", "bits", "2", "7"),
    }


def test_a_change_of_reserved_bits_says_which() -> None:
    bits = {"bits": "7:6", "write": "0"}
    one = register("R", 0x60, reserved=[{**bits, "page": 3}])
    other = register("R", 0x60, reserved=[{**bits, "page": 4}])
    comparison = compare(chip(one), chip(other))
    found = words(comparison)
    assert [(found.what(item), found.message(item)) for item in comparison.changes] == [
        ("page of reserved 0xc0", "R: reserved 0xc0 is now on page 4, was on page 3")
    ]


def test_a_match_that_is_not_certain_says_why() -> None:
    one = register("COUNTER", 0x60, title="Counter of the pump", fields=[field("F", "0")])
    other = register("PUMP", 0x70, title="Counter of the pump", fields=[field("F", "1")])
    comparison = compare(chip(one), chip(other))
    found = words(comparison)
    messages = [found.message(item) for item in comparison.changes]
    assert messages == [
        "COUNTER: is now called PUMP, was called COUNTER (probably: same title)",
        "COUNTER: moved from data 0x60 to 0x70 (probably: same title)",
        "COUNTER.F: moved from bit 0 to bit 1",
    ]


def test_a_match_of_what_is_no_register_says_why() -> None:
    """Nothing has the name "vector TICK" but the vector; a register TICK is as it was."""

    def chip_with(vector: str, word: str) -> ResolvedChip:
        vectors = [{"number": 1, "name": vector, "title": "the counter has run over"}]
        words = [{"name": word, "address": "0", "default": "0", "fields": []}]
        return chip(
            register("TICK", 0x60),
            vectorTable={"space": "data", "size": 1, "vectors": vectors},
            configuration={"space": "data", "words": words},
        )

    comparison = compare(chip_with("TICK", "low"), chip_with("T0", "fuse0"))
    assert list(map(words(comparison).message, comparison.changes)) == [
        "vector TICK: is now called T0, was called TICK (probably: same title)",
        "word low: is now called fuse0, was called low (perhaps: same place)",
    ]
