"""The parameters of one document, worked out when an expression asks for them."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from regwright.importing.ieee1685.expressions import evaluate
from regwright.importing.ieee1685.literals import (
    BASED,
    EXPRESSION,
    BadNumber,
    Value,
    plain,
    shown,
)

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.editions import Edition

#: Parameters may refer to each other over so many steps.
LONGEST_CHAIN = 50
_KINDS = ("parameter", "moduleParameter")


class Parameters:
    """Parameters by identifier, or by name where a file refers to them so."""

    def __init__(
        self, root: etree._Element, edition: Edition, overrides: dict[str, str] | None = None
    ) -> None:
        self._root = root
        self._edition = edition
        self._overrides = overrides or {}
        self._texts: dict[str, str] | None = None
        self._values: dict[str, Value] = {}
        self._open: list[str] = []
        #: Names that were used although only identifiers should be.
        self.by_name: set[str] = set()
        self._names: set[str] = set()

    def evaluate(self, text: str, odd: set[str]) -> Value:
        """Return what ``text`` comes to, spelled as the edition has it.

        What is unusual about its numbers is added to ``odd``. Raises :class:`BadNumber`.
        """
        text = text.strip()
        if not text:
            raise BadNumber("a number is missing")
        if self._edition.plain_numbers:
            return self._evaluate_plain(text, odd)
        return evaluate(text, self._lookup, self._is_name, odd)

    def _evaluate_plain(self, text: str, odd: set[str]) -> Value:
        try:
            value, unusual = plain(text, octal=True)
        except BadNumber:
            if not BASED.fullmatch(text):
                odd.add(EXPRESSION)
            return evaluate(text, self._lookup, self._is_name, odd)
        odd |= unusual
        return Value(value)

    def _known(self) -> dict[str, str]:
        if self._texts is None:
            self._texts = self._collect()
        return self._texts

    def _collect(self) -> dict[str, str]:
        """Return the text of each parameter's value; that of an identifier goes before a name."""
        named: dict[str, str] = {}
        identified: dict[str, str] = {}
        start = f"{{{self._edition.namespace}}}"
        for element in self._root.iter(*(start + kind for kind in _KINDS)):
            value = element.find(start + "value")
            text = "".join(value.itertext()) if value is not None else ""
            own = _attribute(element, value, start)
            name = (element.findtext(start + "name") or "").strip()
            text = self._overrides.get(own, text) if own else text
            if own:
                identified.setdefault(own, text)
            if name:
                named.setdefault(name, text)
        self._names = named.keys() - identified.keys()
        return {**named, **identified}

    def _is_name(self, name: str) -> bool:
        return name in self._known()

    def _lookup(self, name: str) -> Value | None:
        text = self._known().get(name)
        if text is None:
            return None
        if name in self._names:
            self.by_name.add(name)
        if name in self._values:
            return self._values[name]
        if name in self._open:
            circle = " → ".join([*self._open[self._open.index(name) :], name])
            raise BadNumber(f"parameters refer to each other in a circle: {circle[:200]}")
        if len(self._open) >= LONGEST_CHAIN:
            raise BadNumber(f"parameters refer to each other over more than {LONGEST_CHAIN} steps")
        self._open.append(name)
        try:
            self._values[name] = self._value_of(name, text)
        finally:
            self._open.pop()
        return self._values[name]

    def _value_of(self, name: str, text: str) -> Value:
        """Return the value of a parameter: an expression, or else its text as a string."""
        try:
            return self.evaluate(text, set())
        except BadNumber as problem:
            if "circle" in str(problem) or "steps" in str(problem):
                raise
            if re.fullmatch(r"\s*[^\W\d][\w .-]*\s*", text):
                return Value(text.strip())
            raise BadNumber(f"the parameter {shown(name)}: {problem}") from None


def _attribute(element: etree._Element, value: etree._Element | None, start: str) -> str:
    """Return the identifier by which expressions refer to a parameter."""
    found = element.get("parameterId") or element.get(start + "id")
    if not found and value is not None:
        found = value.get(start + "id")
    return found or ""
