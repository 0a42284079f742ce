"""Which names stand for nothing: what they are defined to be has no value in any choice of arms.

Evaluating a constant tells that for the arms that were tried. For all of them it follows where no
conditional makes a difference, or where its value begins with a name that stands for nothing.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from regwright.code.directives import Macro
from regwright.code.leads import lead_of
from regwright.code.reach import Following, Reach, known_in, place_of
from regwright.code.scope import Constant, Scope

#: Constants of which the names that they lead to are followed.
_MOST_LOOKS = 4096


def valued(macros: Iterable[Macro], constants: Iterable[Constant], scope: Scope) -> Reach:
    """Return where the names of ``macros`` and ``constants`` may stand for something.

    Those of the constants that ``is_nothing`` were nothing where they were looked at; the others of
    them, which may be something elsewhere, are so no more. The names of the chip's header stand for
    something anywhere.
    """
    looking = _Looking(scope)
    for macro in macros:
        looking.take_macro(macro)
    for constant in constants:
        looking.take_constant(constant)
    looking.follow()
    return looking.reach


class _Led(NamedTuple):
    """A definition that is nothing as long as the name is with which it begins."""

    name: bytes
    constant: Constant | None


class _Looking:
    """Looks through definitions for what stands for something."""

    def __init__(self, scope: Scope) -> None:
        self.reach = Reach(name.encode() for name in scope.header)
        self._scope = scope
        self._looks = _MOST_LOOKS
        self._following: Following[_Led] = Following(self.reach)

    def take_macro(self, macro: Macro) -> None:
        lead = lead_of(macro.body, is_macro=True)
        is_open = lead is None or lead in (macro.parameters or ())
        self._take(_Led(macro.name.encode(), None), None if is_open else lead)

    def take_constant(self, constant: Constant) -> None:
        led = _Led(constant.name.encode(), constant)
        if constant.is_nothing:
            self._take(led, lead_of(constant.value))
        else:
            self._following.add(led.name, known_in(constant))

    def follow(self) -> None:
        """Follow what stands for something to all that begins with it."""
        for _, items in self._following.follow():
            for led in items:
                self._look(led)

    def _take(self, led: _Led, lead: str | None) -> None:
        if lead is None or lead in self._scope.header:
            self._look(led)
        elif lead:
            place = place_of(led.constant) if led.constant else None
            self._following.user(led, (lead.encode(),), place)

    def _look(self, led: _Led) -> None:
        """Let something be nothing all the same if no conditional makes a difference to it."""
        if led.constant is None:
            self._following.add(led.name, None)
            return
        self._looks -= 1
        if self._looks < 0 or not self._scope.is_settled(led.constant.value):
            led.constant.is_nothing = False
            self._following.add(led.name, known_in(led.constant))
