"""What is said of addresses, which depends on the chips: windows, spaces, single-bit reach."""

from __future__ import annotations

from small_chips import SPACES, Tree, chip

from regwright.compare.changes import Change, mirrored
from regwright.compare.differences import Comparison, compare
from regwright.compare.pairs import Matching
from regwright.compare.words import Words

NOTHING = Matching([], [], [])


def words(comparison: Comparison) -> Words:
    return Words(comparison, (comparison.a.chip.name, comparison.b.chip.name))


def said(a: Tree, b: Tree) -> tuple[list[str], list[str]]:
    """Return what is said of addresses of two chips, and on the way back."""
    one, other = (chip(**{"name": name, **tree}) for name, tree in (("a", a), ("b", b)))
    both = []
    for comparison in (compare(one, other), compare(other, one)):
        found = words(comparison)
        kinds = ("address", "single-bit-reach")
        both.append([found.sentence(item) for item in comparison.changes if item.kind in kinds])
    return both[0], both[1]


def at(address: str, **more: object) -> Tree:
    return {"registers": [{"name": "R", "address": address}], **more}


#: The window of SPACES and WINDOWS: io 0x00 to 0x3F is data 0x20 to 0x5F, single bits to io 0x1F.
def test_a_move_within_the_window() -> None:
    assert said(at("io:0x10"), at("io:0x18")) == (
        ["moved from data 0x30 to 0x38", "moved from io 0x10 to 0x18"],
        ["moved from data 0x38 to 0x30", "moved from io 0x18 to 0x10"],
    )


def test_leaving_the_window_and_coming_back() -> None:
    assert said(at("io:0x04"), at("data:0x9F")) == (
        [
            "moved from data 0x24 to 0x9F",
            "left the io window: only data 0x9F reaches it",
            "is now out of reach of single-bit instructions",
        ],
        [
            "moved from data 0x9F to 0x24",
            "is now in the io window: io 0x04 reaches it too",
            "is now within reach of single-bit instructions",
        ],
    )


def test_out_of_reach_within_the_window() -> None:
    there, back = said(at("io:0x1F"), at("io:0x20"))
    assert there[-1] == "is now out of reach of single-bit instructions"
    assert back[-1] == "is now within reach of single-bit instructions"


def test_a_chip_without_the_space() -> None:
    alone = at("data:0x38", spaces=SPACES[:1], windows=[])
    there, back = said(at("io:0x18"), alone)
    assert there == [
        "has no io address now, for b has no io space; was 0x18",
        "was within reach of single-bit instructions, of which b has none",
    ]
    assert back == [
        "now has the io address 0x18; b has no io space",
        "is within reach of single-bit instructions, of which b has none",
    ]


def test_a_space_without_a_window() -> None:
    there, back = said(at("io:0x18 data:0x38", windows=[]), at("data:0x38", windows=[]))
    assert there == ["has no io address now: only data 0x38 reaches it"]
    assert back == ["now has the io address 0x18, had none"]


def test_no_address_at_all() -> None:
    found = words(Comparison(chip(name="a"), chip(name="b"), NOTHING, []))
    lost = Change("address", "R", "R", "0x18", "", "io")
    assert found.sentence(lost) == "has no io address now, was 0x18"
    assert found.sides(lost) == ("0x18", "none")
    assert found.sentence(mirrored(lost)) == "now has the io address 0x18, had none"
