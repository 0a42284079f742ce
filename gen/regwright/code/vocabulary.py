"""What is known of a chip beside the sources: names, and what its header makes of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from regwright.code.scope import HeaderMacro


@dataclass(frozen=True)
class Vocabulary:
    """What is known beside the sources: the macros of the chip's header, and which names count.

    ``knows`` tells whether a name means something on the chip, wherever it stands;
    ``knows_loosely`` whether it does where the sources define it. ``calls`` are the functions whose
    calls stand for instructions.
    """

    header: Mapping[str, HeaderMacro]
    knows: Callable[[str], bool]
    calls: frozenset[str] = frozenset()
    knows_loosely: Callable[[str], bool] = lambda _: False
