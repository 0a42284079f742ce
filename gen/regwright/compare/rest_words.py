"""The words for changes of what a chip has besides registers: what they are of, and sentences."""

from __future__ import annotations

from regwright.compare.rest_kinds import FACTS, THINGS

#: What a change is of, where the kind's own words do not say it.
_WHAT = {
    "memory-renamed": "name",
    "memory-kind": "kind",
    "memory-place": "start",
    "memory-size": "size",
    "memory-page-size": "written at once",
    "memory-erase-unit": "erased at once",
    "vector-table": "table",
    "vector-renamed": "name",
    "configuration-space": "space",
    "configuration-polarity": "counts as programmed",
    "word-renamed": "name",
    "word-address": "address",
    "word-width": "width",
    "word-default": "as delivered",
    "word-lock": "holds lock bits",
    "unused-bits": "unused bits",
    "setting-name": "name of its bits",
    "setting-place": "stands in",
    "setting-polarity": "counts as programmed",
    "setting-default": "as delivered",
    "choice-value": "value",
    "choice-hazards": "hazards",
    "hazard-kind": "kind",
    "hazard-when": "comes of",
    "hazard-caution": "caution",
    "default-clock": "CPU as delivered",
    "clock-limits": "fastest",
    "clock-constant": "constant",
    "clock-source-kind": "kind",
    "clock-source-frequency": "frequency",
    "clock-source-tolerance": "tolerance",
    "clock-source-when": "chosen by",
    "clock-divider-decided": "decided by",
    "clock-divider-when": "when",
    "clock-divider-options": "divides",
    "rate-formula": "made by",
    "rate-options": "prescaler",
    "port-bits": "bits",
    "port-registers": "registers",
    "package-form": "form",
    "pin-number": "number",
    "pin-name": "name",
    "pin-kind": "kind",
    "pin-function-moved": "pin",
    "signature-place": "stands at",
    "build-target": "compiler's name",
    "programmer-part": "programmer's name",
}

#: What each kind of change is of.
WHAT: dict[str, str] = {
    **{
        f"{thing}-only-in-{side}": thing.removeprefix("clock-").removeprefix("pin-")
        for thing in THINGS
        for side in "ab"
    },
    **{kind: _WHAT.get(kind, kind.replace("-", " ")) for kinds in FACTS.values() for kind in kinds},
}

#: What it is called that a description has nothing there.
NOTHING = {
    **dict.fromkeys(
        (
            *("memory-page-size", "memory-erase-unit", "default-clock", "supply", "clock-limits"),
            *("clock-source-frequency", "clock-source-tolerance", "signature", "signature-place"),
            *("build-target", "instruction-set", "programmer-part", "hazard-caution"),
        ),
        "not said",
    ),
    **dict.fromkeys(("clock-source-when", "clock-divider-when"), "always"),
    "clock-divider-decided": "nothing",
}

#: A sentence for a change, for what only A has, and for what only B has.
Forms = tuple[str, str, str]

_ONLY = ("", "only {a} has it: {before}", "only {b} has it: {after}")
_IS = ("is now {after}, was {before}", "", "")
_CALLED = ("is now called {after}, was called {before}", "", "")
_CALLS = (
    "{what} is now {after}, was {before}",
    "{what} is not said now, was {before}",
    "{what} is now {after}, was not said",
)
_COUNTS = ("a bit of {after} now counts as programmed, {before} did", "", "")
FORMS: dict[str, Forms] = {
    **{f"{thing}-only-in-{side}": _ONLY for thing in THINGS for side in "ab"},
    **dict.fromkeys(("memory-renamed", "vector-renamed", "word-renamed", "pin-name"), _CALLED),
    **dict.fromkeys(("memory-kind", "clock-source-kind", "hazard-kind", "package-form"), _IS),
    **dict.fromkeys(("pin-kind", "choice-value"), _IS),
    "memory-place": ("now starts at {after}, started at {before}", "", ""),
    "memory-size": ("now has {after}, had {before}", "", ""),
    "memory-page-size": (
        "now {after} are written at once, were {before}",
        "how much is written at once is not said now, was {before}",
        "{after} are written at once, which was not said",
    ),
    "memory-erase-unit": (
        "now {after} are erased at once, were {before}",
        "how much is erased at once is not said now, was {before}",
        "{after} are erased at once, which was not said",
    ),
    "vector-table": ("now {after}; was {before}", "", ""),
    "vector-number": ("is now vector {after}, was vector {before}", "", ""),
    "vector-address": ("is now at {after}, was at {before}", "", ""),
    "configuration-space": ("now lies in {after}, lay in {before}", "", ""),
    **dict.fromkeys(("configuration-polarity", "setting-polarity"), _COUNTS),
    "word-address": ("now has the address {after}, had {before}", "", ""),
    "word-width": ("is now {after} wide, was {before}", "", ""),
    "word-default": ("is delivered with {after} now, was with {before}", "", ""),
    "unused-bits": (
        "its unused bits must now be {after}, had to be {before}",
        "has no unused bits now, they had to be {before}",
        "now has unused bits, which must be {after}",
    ),
    "setting-name": ("its bits are now called {after}, were called {before}", "", ""),
    "setting-place": ("moved from {before} to {after}", "", ""),
    "setting-default": ("is delivered as {after} now, was as {before}", "", ""),
    "choice-hazards": (
        "now has the hazards {after}, had {before}",
        "has no hazard now, had {before}",
        "now has the hazards {after}, had none",
    ),
    "hazard-when": (
        "now comes of {after}, came of {before}",
        "comes of no settings together now, came of {before}",
        "now comes of {after} together",
    ),
    "clock-source-when": (
        "is now chosen by {after}, was by {before}",
        "is now always there, was chosen by {before}",
        "is now chosen by {after}, was always there",
    ),
    "clock-divider-when": (
        "now acts when {after}, did when {before}",
        "now always acts, did when {before}",
        "now acts when {after}, always did",
    ),
    "hazard-caution": (
        'now warns "{after}", warned "{before}"',
        'gives no warning now, warned "{before}"',
        'now warns "{after}", gave no warning',
    ),
    "default-clock": (
        "the CPU of a chip as delivered now runs at {after}, ran at {before}",
        "how fast the CPU of a chip as delivered runs is not known now, was {before}",
        "the CPU of a chip as delivered runs at {after}, which was not known",
    ),
    "supply": (
        "now works at {after}, worked at {before}",
        "at which supply it works is not said now, was {before}",
        "works at {after}, which was not said",
    ),
    "clock-limits": (
        "now runs at most at {after}; ran at {before}",
        "how fast it may run is not said now; was {before}",
        "runs at most at {after}, which was not said",
    ),
    "clock-constant": (
        "the program's constant is now {after}, was {before}",
        "no constant of the program is named now, {before} was",
        "the program's constant is now {after}, none was named",
    ),
    "clock-source-frequency": (
        "now gives {after}, gave {before}",
        "its frequency is not said now, was {before}",
        "gives {after}, which was not said",
    ),
    "clock-source-tolerance": (
        "may now be off by {after}, by {before} before",
        "how far it may be off is not said now, was {before}",
        "may be off by {after}, which was not said",
    ),
    "clock-divider-decided": (
        "is now decided by {after}, was by {before}",
        "nothing decides it now, {before} did",
        "is now decided by {after}, nothing decided it",
    ),
    "clock-divider-options": ("now divides {after}; divided {before}", "", ""),
    "rate-formula": ("is now {after}; was {before}", "", ""),
    "rate-options": (
        "its prescaler now divides {after}; divided {before}",
        "has no prescaler now; it divided {before}",
        "now has a prescaler: {after}",
    ),
    "port-bits": ("now has {after}, had {before}", "", ""),
    "port-registers": (
        "now stands in {after}, stood in {before}",
        "names no registers now, named {before}",
        "now stands in {after}, named no registers",
    ),
    "pin-number": ("is now pin {after}, was pin {before}", "", ""),
    "pin-function-moved": ("is now at pin {after}, was at {before}", "", ""),
    "signature": (
        "the signature is now {after}, was {before}",
        "no signature is given now, was {before}",
        "the signature is {after}, which was not given",
    ),
    "signature-place": (
        "the signature is now read at {after}, was at {before}",
        "where the signature is read is not said now, was {before}",
        "the signature is read at {after}, which was not said",
    ),
    **{
        kind: tuple(form.replace("{what}", what) for form in _CALLS)  # type: ignore[misc]
        for kind, what in (
            ("build-target", "the compiler's name of it"),
            ("instruction-set", "the instruction set"),
            ("programmer-part", "the programmer's name of it"),
        )
    },
}
