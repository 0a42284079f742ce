"""Rules on pins, functions and port bits that programs could not tell apart, or not use."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.macros.parts import word_of
from regwright.model.finding import NOTE, WARNING
from regwright.model.origin import Origin
from regwright.model.packages import Pin, PortBit
from regwright.resolve.layout import layout
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.wording import bit_list


def _spelled(bit: PortBit | None) -> str:
    return f"{bit.port}.{bit.bit}" if bit else "no bit of a port"


@rule("pin-name-repeats", WARNING)
def pin_name_repeats(subject: Subject) -> Iterator[Problem]:
    """Two pins of a package have one name, but are different bits.

    ## What it catches
    A pin whose name an earlier pin of its package has, where the two are not the same bit of a
    port. Supply pins, which are no bits of ports, may share a name.

    ## Why it matters
    One of the names was mistyped. The header leaves both out: `PIN_` and the name would not say
    which is meant.

    ## Example
    `<pin number="12" name="B1" port="B.1"/>` and `<pin number="13" name="B1" port="B.2"/>`

    ## Instead
    `name="B2"` for the second.

    ## When to silence it
    Where the data sheet has one name for both.
    """
    ports = {port.name: layout(port.bits).mask for port in subject.chip.ports}
    for package in subject.chip.packages:
        first: dict[str, Pin] = {}
        for pin in package.pins:
            if pin.port and not ports.get(pin.port.port, 0) >> pin.port.bit & 1:
                continue  # port-bit-twice reports it
            other = first.setdefault(word_of(pin.name), pin)
            if other.port != pin.port:
                message = (
                    f"{pin.name} is pin {other.number} ({_spelled(other.port)}) and pin "
                    f"{pin.number} ({_spelled(pin.port)}); look both up"
                )
                yield Problem(message, (pin.origin, "name"))


@rule("function-repeats", NOTE)
def function_repeats(subject: Subject) -> Iterator[Problem]:
    """A function is at two different bits of one package.

    ## What it catches
    A function of a pin that an earlier pin of the package has, at another bit of a port.

    ## Why it matters
    The header leaves `FUNCTION_` and its name out, for it would not say which bit is meant. Often
    it is so on purpose: a register chooses the pin.

    ## Example
    `functions="RXD"` at A.0, and `functions="RXD"` at B.1.

    ## Instead
    `functions="TXD"` for the second, or two names if a register chooses.

    ## When to silence it
    Where a register chooses the pin.
    """
    for package in subject.chip.packages:
        first: dict[str, PortBit | None] = {}
        for pin in package.pins:
            for name in pin.functions:
                other = first.setdefault(word_of(name), pin.port)
                if other != pin.port:
                    message = (
                        f"{name} is at {_spelled(other)} and at {_spelled(pin.port)} in "
                        f"{package.name}, so the header has no FUNCTION_ macro for it; look both up"
                    )
                    yield Problem(message, (pin.origin, "functions"), name)


@rule("port-bit-reserved", NOTE)
def port_bit_reserved(subject: Subject) -> Iterator[Problem]:
    """A bit of a port is reserved in one of the port's registers.

    ## What it catches
    Bits of a port that one of its `registers` gives as reserved.

    ## Why it matters
    The bits of the port or those of the register were mistyped, or the bit has no such function:
    a pin that is input only has no bit for its direction.

    ## Example
    Port B with the bits 5:0, and `<reserved bits="7:4"/>` in its direction register.

    ## Instead
    `bits="3:0"` for the port.

    ## When to silence it
    Where the data sheet has the bit reserved in this register alone.
    """
    reserved: dict[str, int] = {}
    for placed in (*subject.described, *subject.resolved.registers) if subject.chip.ports else ():
        mask = 0
        for item in placed.facts.reserved:
            mask |= item.mask
        reserved[placed.register.name] = reserved[placed.name] = mask
    for port in subject.chip.ports:
        bits = layout(port.bits).mask
        found: dict[int, list[str]] = {}
        for name in dict.fromkeys(port.registers):
            found.setdefault(bits & reserved.get(name, 0), []).append(name)
        for both, names in found.items():
            if both:
                where: Origin = (port.origin, "registers")
                verb = "is" if both.bit_count() == 1 else "are"
                message = f"{bit_list(both)} of port {port.name} {verb} reserved in "
                yield Problem(f"{message}{', '.join(names)}; look both up", where, names[0])
