"""Sentences for changes of what a chip has besides registers, written by hand, both ways."""

from __future__ import annotations

from regwright.compare.rest_kinds import THINGS

#: Kind, before and after, what is said of A against B, and what of B against A.
Case = tuple[str, str, str, str, str]


def _only(thing: str) -> list[Case]:
    said = "only a has it: this", "only a has it: this"
    back = "only b has it: that", "only b has it: that"
    return [
        (f"{thing}-only-in-a", "this", "", *said),
        (f"{thing}-only-in-b", "", "that", *back),
    ]


def _same_forms(kind: str, form: str) -> Case:
    """Return a case whose sentence is ``form`` either way, with NOW and THEN in it."""
    there = form.replace("NOW", "Y").replace("THEN", "X")
    return kind, "X", "Y", there, form.replace("NOW", "X").replace("THEN", "Y")


#: The sentence of what both chips always have, with what is and what was.
_BOTH = {
    "memory-renamed": "is now called NOW, was called THEN",
    "memory-kind": "is now NOW, was THEN",
    "memory-place": "now starts at NOW, started at THEN",
    "memory-size": "now has NOW, had THEN",
    "vector-table": "now NOW; was THEN",
    "vector-renamed": "is now called NOW, was called THEN",
    "vector-number": "is now vector NOW, was vector THEN",
    "vector-address": "is now at NOW, was at THEN",
    "configuration-space": "now lies in NOW, lay in THEN",
    "configuration-polarity": "a bit of NOW now counts as programmed, THEN did",
    "word-renamed": "is now called NOW, was called THEN",
    "word-address": "now has the address NOW, had THEN",
    "word-width": "is now NOW wide, was THEN",
    "word-default": "is delivered with NOW now, was with THEN",
    "setting-name": "its bits are now called NOW, were called THEN",
    "setting-place": "moved from THEN to NOW",
    "setting-polarity": "a bit of NOW now counts as programmed, THEN did",
    "setting-default": "is delivered as NOW now, was as THEN",
    "choice-value": "is now NOW, was THEN",
    "hazard-kind": "is now NOW, was THEN",
    "clock-source-kind": "is now NOW, was THEN",
    "clock-divider-options": "now divides NOW; divided THEN",
    "rate-formula": "is now NOW; was THEN",
    "port-bits": "now has NOW, had THEN",
    "package-form": "is now NOW, was THEN",
    "pin-number": "is now pin NOW, was pin THEN",
    "pin-name": "is now called NOW, was called THEN",
    "pin-kind": "is now NOW, was THEN",
    "pin-function-moved": "is now at pin NOW, was at THEN",
}

#: What is said when both have it, when B alone does, and the other way round.
_OPTIONAL = {
    "memory-page-size": (
        "now Y are written at once, were X",
        "Y are written at once, which was not said",
        "how much is written at once is not said now, was Y",
    ),
    "memory-erase-unit": (
        "now Y are erased at once, were X",
        "Y are erased at once, which was not said",
        "how much is erased at once is not said now, was Y",
    ),
    "unused-bits": (
        "its unused bits must now be Y, had to be X",
        "now has unused bits, which must be Y",
        "has no unused bits now, they had to be Y",
    ),
    "choice-hazards": (
        "now has the hazards Y, had X",
        "now has the hazards Y, had none",
        "has no hazard now, had Y",
    ),
    "hazard-when": (
        "now comes of Y, came of X",
        "now comes of Y together",
        "comes of no settings together now, came of Y",
    ),
    "hazard-caution": (
        'now warns "Y", warned "X"',
        'now warns "Y", gave no warning',
        'gives no warning now, warned "Y"',
    ),
    "default-clock": (
        "the CPU of a chip as delivered now runs at Y, ran at X",
        "the CPU of a chip as delivered runs at Y, which was not known",
        "how fast the CPU of a chip as delivered runs is not known now, was Y",
    ),
    "supply": (
        "now works at Y, worked at X",
        "works at Y, which was not said",
        "at which supply it works is not said now, was Y",
    ),
    "clock-limits": (
        "now runs at most at Y; ran at X",
        "runs at most at Y, which was not said",
        "how fast it may run is not said now; was Y",
    ),
    "clock-constant": (
        "the program's constant is now Y, was X",
        "the program's constant is now Y, none was named",
        "no constant of the program is named now, Y was",
    ),
    "clock-source-frequency": (
        "now gives Y, gave X",
        "gives Y, which was not said",
        "its frequency is not said now, was Y",
    ),
    "clock-source-tolerance": (
        "may now be off by Y, by X before",
        "may be off by Y, which was not said",
        "how far it may be off is not said now, was Y",
    ),
    "clock-source-when": (
        "is now chosen by Y, was by X",
        "is now chosen by Y, was always there",
        "is now always there, was chosen by Y",
    ),
    "clock-divider-when": (
        "now acts when Y, did when X",
        "now acts when Y, always did",
        "now always acts, did when Y",
    ),
    "clock-divider-decided": (
        "is now decided by Y, was by X",
        "is now decided by Y, nothing decided it",
        "nothing decides it now, Y did",
    ),
    "rate-options": (
        "its prescaler now divides Y; divided X",
        "now has a prescaler: Y",
        "has no prescaler now; it divided Y",
    ),
    "port-registers": (
        "now stands in Y, stood in X",
        "now stands in Y, named no registers",
        "names no registers now, named Y",
    ),
    "signature": (
        "the signature is now Y, was X",
        "the signature is Y, which was not given",
        "no signature is given now, was Y",
    ),
    "signature-place": (
        "the signature is now read at Y, was at X",
        "the signature is read at Y, which was not said",
        "where the signature is read is not said now, was Y",
    ),
    "build-target": (
        "the compiler's name of it is now Y, was X",
        "the compiler's name of it is now Y, was not said",
        "the compiler's name of it is not said now, was Y",
    ),
    "instruction-set": (
        "the instruction set is now Y, was X",
        "the instruction set is now Y, was not said",
        "the instruction set is not said now, was Y",
    ),
    "programmer-part": (
        "the programmer's name of it is now Y, was X",
        "the programmer's name of it is now Y, was not said",
        "the programmer's name of it is not said now, was Y",
    ),
}


def _optional(kind: str, said: tuple[str, str, str]) -> list[Case]:
    changed, new, gone = said
    back = changed.replace("X", "Z").replace("Y", "X").replace("Z", "Y")
    return [(kind, "X", "Y", changed, back), (kind, "", "Y", new, gone)]


REST_SAID: list[Case] = [
    *(case for thing in THINGS for case in _only(thing)),
    *(_same_forms(kind, form) for kind, form in _BOTH.items()),
    *(case for kind, said in _OPTIONAL.items() for case in _optional(kind, said)),
    ("word-lock", "no", "yes", "now holds lock bits", "holds no lock bits now"),
]
