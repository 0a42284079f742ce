"""Which names stand for nothing: what they are defined to be has no value in any choice of arms.

Evaluating a constant tells that for the arms that were tried. For all of them it follows where no
conditional makes a difference, or where its value begins with a name that stands for nothing.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from regwright.code.directives import Macro
from regwright.code.leads import lead_of
from regwright.code.scope import Constant, Scope

#: Constants of which the names that they lead to are followed.
_MOST_LOOKS = 4096


def valued(macros: Iterable[Macro], constants: Iterable[Constant], scope: Scope) -> frozenset[str]:
    """Return the names of ``macros`` and ``constants`` that may stand for something.

    Those of the constants that ``is_nothing`` were nothing where they were looked at; the others of
    them, which may be something elsewhere, are so no more.
    """
    looking = _Looking(scope)
    for macro in macros:
        looking.take_macro(macro)
    for constant in constants:
        looking.take_constant(constant)
    looking.follow()
    return frozenset(looking.valued)


@dataclass
class _Led:
    """A definition that is nothing as long as the name is with which it begins."""

    name: str
    constant: Constant | None


class _Looking:
    """Looks through definitions for what stands for something."""

    def __init__(self, scope: Scope) -> None:
        self.valued: set[str] = set()
        self._scope = scope
        self._looks = _MOST_LOOKS
        self._waiting: list[str] = []
        self._led: dict[str, list[_Led]] = {}

    def take_macro(self, macro: Macro) -> None:
        lead = lead_of(macro.body, is_macro=True)
        if lead is None or lead in (macro.parameters or ()):
            self._add(macro.name)
        else:
            self._take(lead, _Led(macro.name, None))

    def take_constant(self, constant: Constant) -> None:
        if not constant.is_nothing:
            self._add(constant.name)
            return
        lead = lead_of(constant.value)
        led = _Led(constant.name, constant)
        if lead is None:
            self._look(led)
        else:
            self._take(lead, led)

    def follow(self) -> None:
        """Follow what stands for something to all that begins with it."""
        while self._waiting:
            for led in self._led.pop(self._waiting.pop(), ()):
                self._look(led)

    def _take(self, lead: str, led: _Led) -> None:
        if lead in self.valued or lead in self._scope.header:
            self._look(led)
        elif lead:
            self._led.setdefault(lead, []).append(led)

    def _look(self, led: _Led) -> None:
        """Let something be nothing all the same if no conditional makes a difference to it."""
        if led.constant is None:
            self._add(led.name)
            return
        self._looks -= 1
        if self._looks < 0 or not self._scope.is_settled(led.constant.value):
            led.constant.is_nothing = False
            self._add(led.name)

    def _add(self, name: str) -> None:
        if name not in self.valued:
            self.valued.add(name)
            self._waiting.append(name)
