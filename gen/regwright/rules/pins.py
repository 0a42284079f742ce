"""Rules on ports, packages and pins."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.model.finding import ERROR, NOTE, WARNING
from regwright.model.packages import Package, Pin, Port, PortBit
from regwright.resolve.layout import layout
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.wording import bit_list


def _bits(port: Port) -> int:
    return layout(port.bits).mask


@rule("pin-repeats", ERROR)
def pin_repeats(subject: Subject) -> Iterator[Problem]:
    """Two pins of a package have one number, or a number that the package does not have.

    ## What it catches
    A pin number that an earlier pin has, one above the package's `pinCount`, a ball (`A1`) in a
    package of two rows or four sides, a plain number in a grid, and two packages or ports of one
    name.

    ## Why it matters
    Something gets soldered to that pin.

    ## Example
    `<pin number="7" name="XOUT"/>` and `<pin number="7" name="B3"/>`

    ## Instead
    `number="8"` for the second, if the data sheet says so.

    ## When to silence it
    Never.
    """
    for kind, items in (("package", subject.chip.packages), ("port", subject.chip.ports)):
        names: set[str] = set()
        for item in items:
            if item.name in names:
                message = f"{item.name} is a {kind} already; give this one another name"
                yield Problem(message, (item.origin, "name"))
            names.add(item.name)
    for package in subject.chip.packages:
        numbers: dict[str, str] = {}
        others = [pin for pin in package.pins if _is_of_another(package, pin)]
        if len(others) == len(package.pins) > 1:
            yield Problem(_other_number(package, others[0]), (package.origin, "arrangement"))
            others = []
        for pin in package.pins:
            where = (pin.origin, "number")
            if pin.number in numbers:
                message = f"pin {pin.number} is {pin.name}, but {numbers[pin.number]} already"
                yield Problem(f"{message}; look both up", where)
            elif pin in others:
                yield Problem(_other_number(package, pin), where)
            elif pin.number.isdigit() and int(pin.number) > package.pin_count:
                message = f"{package.name} has {package.pin_count} pins, so no pin {pin.number}"
                yield Problem(message, where)
            numbers.setdefault(pin.number, pin.name)


def _is_of_another(package: Package, pin: Pin) -> bool:
    """Tell whether ``pin`` has a number as packages of another arrangement have."""
    return pin.number.isdigit() == (package.arrangement == "grid")


def _other_number(package: Package, pin: Pin) -> str:
    wanted = "a row and a column, as A1" if package.arrangement == "grid" else "numbers"
    return f"{package.name} is a {package.arrangement} package: its pins have {wanted}, not " + (
        f"{pin.number}; look up the pin, or the arrangement"
    )


@rule("pin-missing", WARNING)
def pin_missing(subject: Subject) -> Iterator[Problem]:
    """A package has more pins than the description names.

    ## What it catches
    A package of which some pins are described, but not as many as its `pinCount` says.

    ## Why it matters
    A row of the data sheet's table was skipped; a supply pin perhaps.

    ## Example
    `pinCount="20"` and 19 pins.

    ## Instead
    Add the missing one; a pin without a use is `kind="unconnected"`.

    ## When to silence it
    Where the rest of the pins does not matter to anybody.
    """
    for package in subject.chip.packages:
        if not package.pins or len(package.pins) >= package.pin_count:
            continue
        message = f"{package.name} has {package.pin_count} pins, {len(package.pins)} are described"
        yield Problem(message + _which(package), (package.origin, "pinCount"))


def _which(package: Package) -> str:
    numbers = {pin.number for pin in package.pins}
    if package.arrangement == "grid":
        return "; add the others"
    missing = [str(n) for n in range(1, package.pin_count + 1) if str(n) not in numbers]
    shown = ", ".join(missing[:8]) + (", …" if len(missing) > 8 else "")
    return f"; {shown} missing"


@rule("port-bit-twice", ERROR)
def port_bit_twice(subject: Subject) -> Iterator[Problem]:
    """Two pins of a package are one bit of a port, or a bit that the port does not have.

    ## What it catches
    A port bit at two pins of one package, and a pin whose port or bit there is not.

    ## Why it matters
    A program drives one of the two, and the lamp hangs at the other.

    ## Example
    `<pin number="8" name="B3" port="B.2"/>`, where pin 4 is B.2 already.

    ## Instead
    `port="B.3"`

    ## When to silence it
    Where two pins are connected within the chip.
    """
    ports = {port.name: _bits(port) for port in subject.chip.ports}
    for package in subject.chip.packages:
        pins: dict[PortBit, str] = {}
        for pin in package.pins:
            if pin.port is None:
                continue
            name, bit = pin.port
            where = (pin.origin, "port")
            if name not in ports:
                message = f"{pin.name} is a bit of port {name}, which is not described"
                yield Problem(f"{message}; add the port, or correct its name", where)
            elif not ports[name] >> bit & 1:
                message = f"{pin.name} is {name}.{bit}, but port {name} has {bit_list(ports[name])}"
                yield Problem(message, where)
            elif pin.port in pins:
                message = f"pin {pin.number} is {name}.{bit}, as pin {pins[pin.port]} is"
                yield Problem(f"{message}; look both up", where)
            pins.setdefault(pin.port, pin.number)


@rule("port-bit-without-pin", NOTE)
def port_bit_without_pin(subject: Subject) -> Iterator[Problem]:
    """A bit of a port has no pin.

    ## What it catches
    Bits of a port that no pin of a package is, where the package's other pins are described.

    ## Why it matters
    A program that uses the bit drives nothing in this package. Often it is so on purpose: small
    packages leave some out.

    ## Example
    Port B with the bits 5:0, and pins for 4:0.

    ## Instead
    Add the pin, or leave it: this is a note.

    ## When to silence it
    Where the package has no pin for it.
    """
    for package in subject.chip.packages:
        there: dict[str, int] = {}
        for pin in package.pins:
            if pin.port is not None:
                there[pin.port.port] = there.get(pin.port.port, 0) | 1 << pin.port.bit
        for port in subject.chip.ports if package.pins else ():
            missing = _bits(port) & ~there.get(port.name, 0)
            if missing:
                has = "has" if missing.bit_count() == 1 else "have"
                message = f"{bit_list(missing)} of port {port.name} {has} no pin in {package.name}"
                yield Problem(message, port.origin)


@rule("port-register-unknown", ERROR)
def port_register_unknown(subject: Subject) -> Iterator[Problem]:
    """A port names a register that there is not, that is too narrow for its bits, or twice.

    ## What it catches
    An entry of a port's `registers` that is no register of the chip, or that is there already; a
    port with bits that one of its registers does not have.

    ## Why it matters
    The pin of a bit could not be found by the register that a program writes.

    ## Example
    `registers="DIR_B OUTB IN_B"`

    ## Instead
    `registers="DIR_B OUT_B IN_B"`

    ## When to silence it
    Never.
    """
    if not subject.chip.ports:
        return
    widths = {placed.register.name: placed.facts.width for placed in subject.described}
    widths.update({placed.name: placed.facts.width for placed in subject.resolved.registers})
    for port in subject.chip.ports:
        for index, name in enumerate(port.registers):
            where = (port.origin, "registers")
            if name in port.registers[:index]:
                message = f"port {port.name} names {name} twice; was another register meant?"
                yield Problem(message, where, name)
            elif name not in widths:
                message = f"port {port.name} stands in {name}, which is no register here"
                yield Problem(message, where, name)
            elif _bits(port) >> widths[name]:
                message = f"port {port.name} has {bit_list(_bits(port))}, but {name} is "
                yield Problem(f"{message}{widths[name]} bits wide", where, name)
