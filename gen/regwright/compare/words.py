"""Changes in words: what a change is of, what stands on either side, and a sentence that says it.

Swapping the chips swaps the sides; each sentence is then the one for the way back.
"""

from __future__ import annotations

from functools import cached_property

from regwright.compare.changes import Change
from regwright.compare.differences import Comparison
from regwright.compare.pairs import (
    ALIAS,
    ALIKE,
    BLOCK,
    CERTAIN,
    ELSEWHERE,
    FIELDS,
    HALF,
    LIKELY,
    MOVED,
    NAME,
    PINNED,
    PLACE,
    POSSIBLE,
    TITLE,
)
from regwright.compare.rest_words import NOTHING as REST_NOTHING
from regwright.compare.rest_words import WHAT as REST_WHAT
from regwright.compare.sentences import (
    EFFECTS,
    HALVES,
    ORDERS,
    REACH,
    READ_EFFECTS,
    USAGES,
    Context,
    said,
)
from regwright.resolve.chip import Placed, ResolvedChip

#: What a change is of, by its kind.
WHAT = {
    **dict.fromkeys(("register-only-in-a", "register-only-in-b"), "register"),
    "register-split": "split",
    "registers-merged": "merged",
    **dict.fromkeys(("register-renamed", "field-renamed", "value-renamed", "chip-name"), "name"),
    **dict.fromkeys(("register-aliases", "field-aliases", "value-aliases"), "other names"),
    "single-bit-reach": "single bits",
    **dict.fromkeys(("register-width", "field-width"), "width"),
    **dict.fromkeys(("register-access", "field-access"), "access"),
    **dict.fromkeys(("register-read-action", "field-read-action"), "when read"),
    "write-effect": "when written",
    **dict.fromkeys(("register-reset", "field-reset"), "reset"),
    "reserved": "reserved bits",
    "halves": "halves",
    "read-order": "read order",
    "write-order": "write order",
    "byte-order": "byte order",
    "temporary": "hidden half",
    "condition": "answers",
    "alias-of": "stands for",
    **dict.fromkeys(("field-only-in-a", "field-only-in-b"), "field"),
    "field-moved": "stands in",
    "field-bits": "bits",
    "volatile": "changes by itself",
    **dict.fromkeys(("value-only-in-a", "value-only-in-b", "value"), "value"),
    "value-usage": "meant",
    "values-complete": "all values named",
    **dict.fromkeys(("space-only-in-a", "space-only-in-b", "space"), "space"),
    "window": "window",
    "region": "region",
    "instruction": "instruction",
    "int-width": "width of int",
    "compiler-macro": "compiler macro",
    "kind": "kind",
    **REST_WHAT,
    "title": "title",
    "page": "page",
    "notes": "notes",
    "document": "document",
    "family": "family",
}

#: What it is called that a description has nothing there; ``none`` where it is not here.
_NOTHING = {
    **dict.fromkeys(("register-reset", "field-reset", "volatile", "int-width"), "not said"),
    **dict.fromkeys(("read-order", "write-order"), "not said"),
    **REST_NOTHING,
    "byte-order": "one address",
    "condition": "always",
    "alias-of": "itself",
    "single-bit-reach": "no such instructions",
}
_SPELLED = {
    "write-effect": EFFECTS,
    **dict.fromkeys(("register-read-action", "field-read-action"), READ_EFFECTS),
    "byte-order": ORDERS,
    "read-order": HALVES,
    "write-order": HALVES,
    "single-bit-reach": REACH,
    "value-usage": USAGES,
}

#: How a match is called that is not certain, and why one was made.
DOUBTS = {CERTAIN: "", LIKELY: "probably", POSSIBLE: "perhaps"}
REASONS = {
    PINNED: "as you say",
    NAME: "same name",
    ALIAS: "other name of it",
    ALIKE: "names alike",
    TITLE: "same title",
    BLOCK: "same name in its block",
    FIELDS: "same fields",
    PLACE: "same place",
    HALF: "same half",
    MOVED: "same name in the block",
    ELSEWHERE: "same name elsewhere",
}


#: What is no register is taken for another by its title when that is likely, by its place else.
_REST_REASONS = {LIKELY: TITLE, POSSIBLE: PLACE}


def doubt(sure: str, why: str) -> str:
    """Return how unsure a match is and why it was made, as ``probably: same title``."""
    word = DOUBTS.get(sure, sure)
    return f"{word}: {REASONS.get(why, why)}" if word else ""


class Words:
    """The words for the changes of one comparison; ``labels`` are what the two chips are called."""

    def __init__(self, comparison: Comparison, labels: tuple[str, str]) -> None:
        """Word the changes of ``comparison``."""
        self.labels = labels
        self._comparison = comparison

    @cached_property
    def _context(self) -> Context:
        a, b = self._comparison.a, self._comparison.b
        return Context(self.labels, (_by_name(a), _by_name(b)), (a.chip, b.chip))

    @cached_property
    def _reasons(self) -> dict[str, str]:
        """Why each register and field of A is taken for one of B."""
        matching = self._comparison.matching
        found = {pair.a.name: pair.why for pair in matching.registers if pair.a and pair.b}
        for item in matching.fields:
            if item.a and item.b:
                found[item.a.name] = item.why
        return found

    def name(self, change: Change) -> str:
        """Return what ``change`` is about, as A calls it, or as B does if only B has it."""
        return change.a or change.b

    def what(self, change: Change) -> str:
        """Return what of it differs, in a word or two."""
        if change.kind == "address":
            return f"{change.detail} address"
        word = WHAT[change.kind]
        return f"{word} of {change.detail}" if change.detail else word

    def sides(self, change: Change) -> tuple[str, str]:
        """Return what stands in A and in B, with a word where a chip has nothing."""
        if change.kind in ("register-split", "registers-merged"):
            return change.a, change.b
        nothing = _NOTHING.get(change.kind, "none")
        spelled = _SPELLED.get(change.kind, {})
        before, after = (
            spelled.get(text, text) or nothing for text in (change.before, change.after)
        )
        if change.kind == "field-bits":
            return before.partition(" ")[2], after.partition(" ")[2]
        if change.kind == "address":
            others = self._context.others(change)
            if others and not change.after:
                after = f"{nothing}, only {others}"
            elif others and not change.before:
                before = f"{nothing}, only {others}"
        return before, after

    def sentence(self, change: Change) -> str:
        """Return what differs in words that go on from the name and a colon."""
        return said(change, self._context)

    def doubt(self, change: Change) -> str:
        """Return how unsure it is that the two things are one, and why; nothing for certain."""
        if change.sure in ("", CERTAIN):
            return ""
        name = change.a
        while name not in self._reasons and "." in name:
            name = name.rpartition(".")[0]
        why = self._reasons.get(name, "")
        if " " in name:  # no register and no field
            why = _REST_REASONS.get(change.sure, "")
        return doubt(change.sure, why) if why else DOUBTS.get(change.sure, change.sure)

    def message(self, change: Change) -> str:
        """Return the whole sentence, with the name and how unsure it is."""
        words = self.doubt(change)
        tail = f" ({words})" if words else ""
        return f"{self.name(change)}: {self.sentence(change)}{tail}"


def _by_name(chip: ResolvedChip) -> dict[str, Placed]:
    return {placed.name: placed for placed in chip.registers}
