"""The macros of ports and pins: which bits a port has, where a function is, numbers of pins."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from regwright.macros.literals import WIDEST, decimal, digits_of, hexadecimal
from regwright.macros.parts import PACKAGE, PORT, Part, word_of
from regwright.macros.registers import Macro
from regwright.model.chip import Chip
from regwright.model.packages import Package, Pin, PortBit
from regwright.resolve.layout import layout


def pin_parts(chip: Chip, stem: str) -> Iterator[Part]:
    """Yield the macros of each port with the functions at its pins, then of each package."""
    functions = function_bits(chip)
    for port in chip.ports:
        word = word_of(port.name)
        mask, own = layout(port.bits).mask, f"{stem}PORT_{word}"
        numbers = _mask(f"{own}_MASK", mask)
        for name, place in functions.items():
            if place.port == port.name:
                numbers.append((f"{stem}FUNCTION_{name}_BITPOS", decimal(place.bit)))
                numbers += _mask(f"{stem}FUNCTION_{name}_MASK", 1 << place.bit)
        yield Part(PORT, f"the port {port.name}", port, numbers, [])
    counted = Counter(_pin_word(package, pin) for package in chip.packages for pin in package.pins)
    for package in chip.packages:
        numbers, code = [], []
        for pin in package.pins:
            word = _pin_word(package, pin)
            if counted[word] > 1:
                continue
            if pin.number.isdigit():
                numbers.append((f"{stem}PIN_{word}", decimal(int(pin.number))))
            else:
                code.append((f"{stem}PIN_{word}", f'"{pin.number}"'))
        yield Part(PACKAGE, f"the package {package.name}", package, numbers, code)


def function_bits(chip: Chip) -> dict[str, PortBit]:
    """Return the bit at which each function is, by the function's word in a macro.

    One that is at several bits, or in no port that is described, is left out.
    """
    single: dict[str, PortBit] = {}
    for word, (bit, *others) in _function_places(chip).items():
        if bit is not None and not others:
            single[word] = bit
    return single


def functions_left_out(chip: Chip) -> dict[str, list[PortBit | None]]:
    """Return the functions for which there are no macros, by word, and where each of them is.

    ``None`` is a pin that is no bit of a port that is described.
    """
    known = function_bits(chip)
    return {word: bits for word, bits in _function_places(chip).items() if word not in known}


def _function_places(chip: Chip) -> dict[str, list[PortBit | None]]:
    """Return each function's word in a macro, and each bit where it is in any package, once."""
    ports = {port.name for port in chip.ports}
    found: dict[str, dict[PortBit | None, None]] = {}
    for package in chip.packages:
        for pin in package.pins:
            bit = pin.port if pin.port and pin.port.port in ports else None
            for name in pin.functions:
                found.setdefault(word_of(name), {})[bit] = None
    return {word: list(bits) for word, bits in found.items()}


def _mask(name: str, mask: int) -> list[Macro]:
    width = mask.bit_length()
    return [] if width > WIDEST else [(name, hexadecimal(mask, digits_of(width)))]


def _pin_word(package: Package, pin: Pin) -> str:
    return f"{word_of(package.name)}_{word_of(pin.name)}"
