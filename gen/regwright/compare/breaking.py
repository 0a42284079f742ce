"""What a newer description changes in the header, as the preprocessor sees it."""

import re
from collections.abc import Callable
from typing import NamedTuple

from regwright.macros.frame import Frame
from regwright.macros.registers import ChipMacros, header_macros, macro_name
from regwright.model.chip import Chip

#: What becomes of a macro. It is gone; it has another value or body; it is new; the preprocessor
#: sees another text that means the same, as ``0x01U`` in place of ``0x1U``.
GONE, VALUE, ADDED, RESPELLED = "gone", "value", "added", "respelled"
EFFECTS = (GONE, VALUE, ADDED, RESPELLED)
#: The effects that break a program which uses the macro.
BREAKING = frozenset([GONE, VALUE])

#: What else breaks a program that includes the header: it has another file name; it is for another
#: compiler; it does not stand beside another chip's header any more.
RENAMED, TARGET, ALONE = "renamed", "target", "alone"

#: Integer constants of a header; ISO/IEC 9899:2011, 6.4.4.1: with a U, how one is spelled decides
#: neither its value nor its type.
_NUMBER = re.compile(r"\b(0x[0-9A-F]+|[0-9]+)U\b")


class MacroChange(NamedTuple):
    """A macro that the preprocessor sees differently.

    ``before`` and ``after`` are what stands behind its name in either header, parameters and all;
    ``None`` where it is not defined.
    """

    name: str
    before: str | None
    after: str | None
    effect: str


class HeaderChange(NamedTuple):
    """What breaks users of the header though no macro does: one of the three words above."""

    kind: str
    before: str
    after: str


def macro_changes(old: ChipMacros, new: ChipMacros) -> list[MacroChange]:
    """Return every macro that differs, those of the old header in its order, then what is new."""
    before, after = definitions(old), definitions(new)
    meaning_before, meaning_after = _meaning(old.frame), _meaning(new.frame)
    changes = []
    for name, text in before.items():
        now = after.get(name)
        if now is None:
            changes.append(MacroChange(name, text, None, GONE))
        elif now != text:
            is_same = meaning_before(text) == meaning_after(now)
            changes.append(MacroChange(name, text, now, RESPELLED if is_same else VALUE))
    changes += [
        MacroChange(name, None, text, ADDED) for name, text in after.items() if name not in before
    ]
    return changes


def definitions(macros: ChipMacros) -> dict[str, str]:
    """Return for each macro what stands behind its name."""
    found = {}
    for head, body in header_macros(macros):
        name = macro_name(head)
        found[name] = f"{head[len(name) :]} {body}".strip()
    return found


def _meaning(frame: Frame) -> Callable[[str], str]:
    """Return what makes equal of two texts that mean the same, in a header with this frame.

    The accesses of two chips have other names, but their bodies follow from the rest of the name.
    """
    own = [macro_name(head) for head, _ in frame.accesses]
    access = re.compile(rf"\b({'|'.join(own)})\(") if own else None

    def meaning(text: str) -> str:
        if access:
            text = access.sub(lambda match: f"{match[1].rpartition('_')[2]}(", text)
        return _NUMBER.sub(lambda match: f"{int(match[1], 0)}U", text)

    return meaning


def header_changes(old: Chip, new: Chip) -> list[HeaderChange]:
    """Return what breaks users of the header of ``old`` beside its macros."""
    changes = []
    if old.name != new.name:
        changes.append(HeaderChange(RENAMED, f"{old.name}.h", f"{new.name}.h"))
    if new.compiler_macro and new.compiler_macro != old.compiler_macro:
        changes.append(HeaderChange(TARGET, old.compiler_macro or "", new.compiler_macro))
    if old.kind != "chip" and new.kind == "chip":
        changes.append(HeaderChange(ALONE, old.kind, new.kind))
    return changes
