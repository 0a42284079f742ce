"""What the elements of one document say: texts, attributes, numbers and flags."""

from __future__ import annotations

from typing import TYPE_CHECKING

from regwright.importing.ieee1685.literals import (
    BARE_HEX,
    BASE,
    EXPRESSION,
    HASH,
    OCTAL,
    PREFIX,
    SCALE,
    BadNumber,
    Value,
    shown,
)
from regwright.importing.ieee1685.operators import is_true, whole
from regwright.importing.ieee1685.parameters import Parameters

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.editions import Edition
    from regwright.importing.ieee1685.log import Log

_ODD_OF_PLAIN = frozenset({OCTAL, BARE_HEX, BASE, EXPRESSION})
_ODD_OF_EXPRESSIONS = frozenset({HASH, PREFIX, SCALE})
_YES = {"true": True, "1": True, "false": False, "0": False}


class Unclear(Exception):
    """A number that is needed cannot be had; carries the message and the element at fault."""

    def __init__(self, message: str, element: etree._Element) -> None:
        super().__init__(message)
        self.element = element


class Numbers:
    """Reads what elements of a document say; each text is worked out once."""

    def __init__(
        self,
        root: etree._Element,
        edition: Edition,
        log: Log,
        overrides: dict[str, str] | None = None,
    ) -> None:
        """Hold ``root``; ``overrides`` are values for its parameters, by identifier."""
        self.root = root
        self.edition = edition
        self.log = log
        self._start = f"{{{edition.namespace}}}"
        self._parameters = Parameters(root, edition, overrides)
        self._odd_here = _ODD_OF_PLAIN if edition.plain_numbers else _ODD_OF_EXPRESSIONS
        #: Numbers by the text that says them, where nothing is odd about it.
        self.clean: dict[str | None, int] = {}
        self._values: dict[str, tuple[Value, list[list[etree._Element]]]] = {}
        self._bits: dict[str | None, tuple[int, int, list[list[etree._Element]]]] = {}

    def tag(self, name: str) -> str:
        """Return ``name`` in the document's namespace."""
        return self._start + name

    def attribute(self, element: etree._Element, name: str) -> str:
        """Return an attribute, qualified or not, or nothing."""
        return element.get(name) or element.get(self._start + name) or ""

    def text(self, element: etree._Element | None) -> str:
        """Return the text of ``element`` without white space around it."""
        if element is None:
            return ""
        text: str | None = element.text
        if text is not None and not len(element):
            return text.strip()
        return "".join(element.itertext()).strip()

    def number(self, element: etree._Element) -> int:
        """Return the whole number that ``element`` says, 0 or more. Raises :class:`Unclear`."""
        found = self.clean.get(element.text)
        return found if found is not None else self._number(element)

    def _number(self, element: etree._Element) -> int:
        plain = self._plain(element)
        if plain is not None:
            return plain
        value, odd = self._evaluated(element)
        try:
            number = whole(value)
        except BadNumber as problem:
            raise Unclear(str(problem), element) from None
        if number < 0 or number.bit_length() > 64:
            size = "negative" if number < 0 else f"a number of {number.bit_length()} bits"
            raise Unclear(f"{shown(self.text(element))} is {size}, which cannot be here", element)
        if not odd and not len(element):
            self.clean[element.text] = number
        return number

    def _plain(self, element: etree._Element) -> int | None:
        """Return the number that ``element`` says if it is spelled in a common way."""
        text = element.text
        if text is None or len(element):
            return None
        found = _simple(text.strip(), self.edition)
        if found is not None:
            self.clean[text] = found
        return found

    def signed(self, element: etree._Element) -> int:
        """Return the whole number that ``element`` says. Raises :class:`Unclear`."""
        try:
            return whole(self._evaluated(element)[0])
        except BadNumber as problem:
            raise Unclear(str(problem), element) from None

    def bits(self, element: etree._Element) -> tuple[int, int]:
        """Return the bits that ``element`` says, and which of them are x or z.

        Either may be negative: then all higher bits are 1. Raises :class:`Unclear`.
        """
        text = element.text
        known = self._bits.get(text)
        if known is None:
            plain = self.clean.get(text) if text in self.clean else self._plain(element)
            if plain is not None:
                return plain, 0
            return self._other_bits(element)
        for places in known[2]:
            places.append(element)
        return known[0], known[1]

    def _other_bits(self, element: etree._Element) -> tuple[int, int]:
        value, odd = self._evaluated(element)
        try:
            found = whole(value._replace(unknown=0))
        except BadNumber as problem:
            raise Unclear(str(problem), element) from None
        if not len(element) and not element.keys():
            self._bits[element.text] = found, value.unknown, odd
        return found, value.unknown

    def flag(self, element: etree._Element) -> bool:
        """Tell whether what ``element`` says is true. Raises :class:`Unclear`."""
        found = _YES.get(element.text or "")
        if found is not None:
            return found
        try:
            return is_true(self._evaluated(element)[0])
        except BadNumber as problem:
            raise Unclear(str(problem), element) from None

    def _evaluated(self, element: etree._Element) -> tuple[Value, list[list[etree._Element]]]:
        """Return what ``element`` says, and where to note each place that says it so oddly."""
        text = self.text(element)
        known = self._values.get(text)
        if known is None:
            odd: set[str] = set()
            try:
                value = self._parameters.evaluate(text, odd)
            except BadNumber as problem:
                raise Unclear(str(problem), element) from None
            odd &= self._odd_here
            odd |= {f"the name {name!r}" for name in self._parameters.by_name}
            self._parameters.by_name.clear()
            known = self._values[text] = value, [self._places_of(item) for item in sorted(odd)]
        for places in known[1]:
            places.append(element)
        return known

    def _places_of(self, spelling: str) -> list[etree._Element]:
        edition = self.edition.label
        if spelling.startswith("the name "):
            message = f"{spelling} stands for a parameter, which has another identifier"
        elif spelling == OCTAL:
            message = f"{spelling} as edition {edition} says; check that no decimal was meant"
        else:
            message = f"{spelling}: not how edition {edition} writes numbers; read as meant"
        return self.log.places_of("number-spelling", message)


_SIMPLE_HEX = {False: "'h", True: "0x"}


def _simple(text: str, edition: Edition) -> int | None:
    """Return the value of the commonest spellings of a number, or ``None``."""
    if text.isdecimal() and text.isascii() and len(text) < 20:
        leads = edition.plain_numbers and text[0] == "0" and len(text) > 1
        value = None if leads else int(text)
    else:
        digits = text.removeprefix(_SIMPLE_HEX[edition.plain_numbers])
        if digits is text or not digits.isalnum() or not digits.isascii() or len(digits) > 16:
            return None
        try:
            value = int(digits, 16)
        except ValueError:
            return None
    return value if value is not None and value < 1 << 64 else None
