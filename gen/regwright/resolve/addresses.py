"""From the addresses a document gives to the address in each space that reaches a register."""

from typing import NamedTuple

from regwright.model.chip import Chip, GivenAddress, Window


class Address(NamedTuple):
    """An address in units of ``space``.

    ``given`` tells whether the document prints it; otherwise it follows through the window
    ``via``, or from a base and an offset when there is none.
    """

    space: str
    value: int
    given: bool
    via: Window | None = None


def units_of(width: int, unit: int) -> int:
    """Return how many units of a space ``width`` bits take."""
    return -(-width // unit)


def into_window(window: Window, value: int) -> int | None:
    """Return where the address ``value`` of the window's space is seen, if it is."""
    return value + window.offset if window.first <= value <= window.last else None


def out_of_window(window: Window, value: int) -> int | None:
    """Return which address of the window's space is seen at ``value``, if any."""
    source = value - window.offset
    return source if window.first <= source <= window.last else None


def derive(chip: Chip, known: tuple[Address, ...]) -> tuple[Address, ...]:
    """Return ``known`` and the addresses that follow from it through the chip's windows.

    The order is that of the chip's spaces.
    """
    if not chip.windows:
        return known
    found = {address.space: address for address in known}
    changed = True
    while changed:
        changed = False
        for window in chip.windows:
            inside, outside = found.get(window.source), found.get(window.into)
            if inside and not outside:
                value = into_window(window, inside.value)
                space = window.into
            elif outside and not inside:
                value = out_of_window(window, outside.value)
                space = window.source
            else:
                continue
            if value is not None:
                found[space] = Address(space, value, given=False, via=window)
                changed = True
    if len(found) == 1:
        return known
    order = {space.name: index for index, space in enumerate(chip.spaces)}
    return tuple(sorted(found.values(), key=lambda address: order.get(address.space, len(order))))


def given(addresses: tuple[GivenAddress, ...], add: int, *, printed: bool) -> tuple[Address, ...]:
    """Return ``addresses``, each ``add`` units further on."""
    return tuple(Address(space, value + add, printed) for space, value in addresses)
