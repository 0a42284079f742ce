"""Find the register or field that a clock's divider or a rate names."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from regwright.configuration.words import hexadecimal
from regwright.resolve.chip import Placed, ResolvedChip
from regwright.resolve.facts import FieldFacts
from regwright.resolve.layout import bits_in_words


class RegisterPart(NamedTuple):
    """A register, or one ``field`` of it, that holds a number."""

    placed: Placed
    field: FieldFacts | None = None

    @property
    def name(self) -> str:
        """Its name, as ``REGISTER`` or ``REGISTER.FIELD``."""
        return f"{self.placed.name}.{self.field.field.name}" if self.field else self.placed.name

    @property
    def width(self) -> int:
        """How many bits it has."""
        return self.field.layout.width if self.field else self.placed.facts.width

    @property
    def mask(self) -> int:
        """A 1 for each bit of the register that it is."""
        return self.field.layout.mask if self.field else (1 << self.width) - 1

    def insert(self, value: int) -> int:
        """Return the register with ``value`` in this part, and 0 elsewhere."""
        return self.field.layout.insert(value) if self.field else value

    @property
    def reset(self) -> int | None:
        """Its value after reset, if the description gives all of it."""
        reset = self.field.reset if self.field else self.placed.facts.reset
        return reset.value if reset and not reset.undefined else None


def find(resolved: ResolvedChip, name: str) -> RegisterPart | None:
    """Return what ``name``, ``REGISTER`` or ``REGISTER.FIELD``, stands for, if there is one.

    A register is named as the header names it, without the prefix of the whole chip, or as the
    description does within its block; the first one counts.
    """
    for wanted, field in ((name, ""), tuple(name.rpartition(".")[::2])):
        placed = _register(resolved, wanted)
        if placed is None:
            continue
        if not field:
            return RegisterPart(placed)
        for item in placed.facts.fields:
            if item.field.name == field:
                return RegisterPart(placed, item)
    return None


def _register(resolved: ResolvedChip, name: str) -> Placed | None:
    whole = {name, resolved.prefix + name}
    found = (placed for placed in resolved.registers if placed.name in whole)
    within = (placed for placed in resolved.registers if placed.register.name == name)
    return next(found, None) or next(within, None)


def names(resolved: ResolvedChip) -> Iterator[str]:
    """Yield the name of every register and field."""
    for placed in resolved.registers:
        yield placed.name
        for item in placed.facts.fields:
            yield f"{placed.name}.{item.field.name}"


def value_given(resolved: ResolvedChip, part: RegisterPart, given: Mapping[str, int]) -> int | None:
    """Return the value that ``given`` says ``part`` has, by itself or within its register."""
    found = None
    for name, value in given.items():
        other = find(resolved, name)
        if other is None or other.placed.name != part.placed.name:
            continue
        if other.name == part.name:
            return value
        if other.field is None and part.field is not None:
            found = part.field.layout.extract(value)
    return found


def reserved_remarks(resolved: ResolvedChip, given: Mapping[str, int]) -> Iterator[str]:
    """Yield which reserved bits of the registers in ``given`` have another value than they must."""
    for name, value in given.items():
        part = find(resolved, name)
        if part is None or part.field is not None:
            continue
        for reserved, mask in part.placed.facts.reserved:
            if reserved.write == "preserve":
                continue
            must = mask if reserved.write == "1" else 0
            wrong = (value ^ must) & mask
            if wrong:
                verb = "clears" if must else "sets"
                said = f"write {reserved.write} there" if reserved.write else "leave them alone"
                shown = hexadecimal(value, part.width)
                bits = bits_in_words(wrong)
                they = "which is" if wrong.bit_count() == 1 else "which are"
                yield f"{part.name} = {shown} {verb} {bits}, {they} reserved: {said}"
