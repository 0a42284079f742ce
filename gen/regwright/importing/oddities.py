"""The names of remarks on what was imported, and what each is about, in one sentence."""

from __future__ import annotations

ODDITIES: dict[str, str] = {
    "not-carried-over": "A description has no place for this; it is listed so that nothing "
    "vanishes silently.",
    "not-readable": "The file, or a part of it, cannot be read at all.",
    "name-mapped": "A name is no C identifier, or is taken; it was mapped, and the original became "
    "the title.",
    "text-shortened": "A text is longer than a description allows; its end was left out.",
    "needs-review": "A value could not be read with certainty; a person must look at it.",
}
