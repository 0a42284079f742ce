"""Rules on configuration bytes and words: their bits, values and defaults."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.configuration.decode import problems
from regwright.configuration.words import every_bit, hexadecimal, undescribed_bits
from regwright.macros.literals import shown
from regwright.model.configuration import ConfigurationField, ConfigurationWord
from regwright.model.finding import ERROR, NOTE
from regwright.model.origin import Origin
from regwright.resolve.layout import layout
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.wording import bit_list


def _words(subject: Subject) -> tuple[ConfigurationWord, ...]:
    configuration = subject.chip.configuration
    return configuration.words if configuration else ()


@rule("configuration-repeats", ERROR)
def configuration_repeats(subject: Subject) -> Iterator[Problem]:
    """Two things of a configuration cannot be told apart.

    ## What it catches
    Words of one name, words that share an address (a word may take several units of its space),
    settings of one name, and choices of one setting that have the same name or the same value.

    ## Why it matters
    What was asked for would be one of the two, and nobody knows which.

    ## Example
    `<choice name="off" value="1"/>` and `<choice name="on" value="1"/>`

    ## Instead
    `value="0"` for one of them.

    ## When to silence it
    Never.
    """
    names: set[str] = set()
    addresses: dict[int, str] = {}
    settings: set[str] = set()
    for word in _words(subject):
        yield from _again("word", word.name, names, (word.origin, "name"))
        yield from _on_another(word, _units(subject, word), addresses)
        for field in word.fields:
            yield from _again("setting", field.setting, settings, (field.origin, "setting"))
            yield from _repeated_choices(field)


def _units(subject: Subject, word: ConfigurationWord) -> range:
    """Return the addresses of the configuration's space that ``word`` takes."""
    configuration = subject.chip.configuration
    space = subject.resolved.spaces.get(configuration.space) if configuration else None
    count = -(-word.width // space.unit) if space else 1
    return range(word.address, word.address + count)


def _on_another(
    word: ConfigurationWord, units: range, addresses: dict[int, str]
) -> Iterator[Problem]:
    shared = next((unit for unit in units if addresses.get(unit, word.name) != word.name), None)
    if shared is not None:
        what = "has the address" if shared == word.address else "goes on to"
        message = f"{word.name} {what} {shown(shared)}, which {addresses[shared]} takes"
        yield Problem(f"{message}; look up addresses and widths", (word.origin, "address"))
    for unit in units:
        addresses.setdefault(unit, word.name)


def _again(what: str, name: str, taken: set[str], origin: Origin) -> Iterator[Problem]:
    if name in taken:
        yield Problem(f"{name} is a {what} already; give this one another name", origin)
    taken.add(name)


def _repeated_choices(field: ConfigurationField) -> Iterator[Problem]:
    names: set[str] = set()
    values: dict[int, str] = {}
    for choice in field.choices:
        yield from _again(f"choice of {field.setting}", choice.name, names, (choice.origin, "name"))
        other = values.setdefault(choice.value, choice.name)
        if other != choice.name:
            message = f"{choice.name} has the value {choice.value}, as {other} has; look both up"
            yield Problem(message, (choice.origin, "value"))


def _beyond(word: ConfigurationWord) -> int:
    """Return a 1 for each bit that a field or unused part has beyond ``word``."""
    mask = 0
    for bits in (*(item.bits for item in word.fields), *(item.bits for item in word.unused)):
        mask |= layout(bits).mask
    return mask & ~every_bit(word)


@rule("configuration-bits", ERROR)
def configuration_bits(subject: Subject) -> Iterator[Problem]:
    """The bits of a configuration word do not fit together.

    ## What it catches
    Fields and unused bits that lie outside their word or on each other, and a choice whose value
    its field cannot hold.

    ## Why it matters
    One setting would change another. In a configuration byte that can cost the chip.

    ## Example
    `bits="6:4"` and `bits="4"` in one word.

    ## Instead
    `bits="3"` for the second, if the data sheet says so.

    ## When to silence it
    Never.
    """
    for word in _words(subject):
        taken: dict[str, int] = {}
        pieces = [(field.setting, field.bits, field.origin) for field in word.fields]
        pieces += [("unused", item.bits, item.origin) for item in word.unused]
        for name, bits, origin in pieces:
            own = layout(bits)
            where = (origin, "bits")
            beyond = own.mask & ~every_bit(word)
            if beyond:
                lies = "lies" if beyond.bit_count() == 1 else "lie"
                message = f"{bit_list(beyond)} of {name} {lies} outside {word.name}"
                yield Problem(f"{message}, which has {word.width} bits", where)
            for other, mask in taken.items():
                if mask & own.mask:
                    message = f"{name} takes {bit_list(mask & own.mask)} of {word.name}"
                    yield Problem(f"{message}, as {other} does; look both up", where)
                    break
            taken[name] = taken.get(name, 0) | own.mask
        for field in word.fields:
            yield from _too_large(field)


def _too_large(field: ConfigurationField) -> Iterator[Problem]:
    width = layout(field.bits).width
    for choice in field.choices:
        if choice.value >> width:
            message = (
                f"{choice.name} of {field.setting} is {shown(choice.value)}, more than its "
                f"{width} bits hold"
            )
            yield Problem(message, (choice.origin, "value"))


@rule("configuration-default", ERROR)
def configuration_default(subject: Subject) -> Iterator[Problem]:
    """The default of a configuration word contradicts its fields.

    ## What it catches
    A default that is wider than the word, that gives a setting a value which is none of its
    choices, or that gives unused bits another value than the required one.

    ## Why it matters
    The chip is delivered with this value, so it must make sense: a bit, a choice or the default
    itself was mistyped. Every byte that is computed starts from here.

    ## Example
    `default="0x60"` where the unused bit 1 must be 1.

    ## Instead
    `default="0x62"`

    ## When to silence it
    Never.
    """
    configuration = subject.chip.configuration
    if configuration is None:
        return
    origins = {word.name: word.origin for word in configuration.words}
    for problem in problems(configuration, {}):
        message = problem.message.removeprefix(f"{problem.word}: ")
        value = next(word for word in configuration.words if word.name == problem.word)
        shown_default = hexadecimal(value.default, value.width)
        text = f"{problem.word} is delivered as {shown_default}, but {message}"
        yield Problem(text, (origins[problem.word], "default"))


@rule("configuration-outside-space", ERROR)
def configuration_outside_space(subject: Subject) -> Iterator[Problem]:
    """A configuration word lies where its space, or its memory, has nothing.

    ## What it catches
    A word that ends behind the last address of its space; where the description has memories of
    the kind `configuration` in that space, a word that lies in none of them.

    ## Why it matters
    A programmer would be told to write where nothing is, or to something else. The address or the
    width was mistyped.

    ## Example
    `<word address="8">` in a space of 8 bytes.

    ## Instead
    `address="7"`, if the data sheet says so.

    ## When to silence it
    Never.
    """
    configuration = subject.chip.configuration
    space = subject.resolved.spaces.get(configuration.space) if configuration else None
    if configuration is None or space is None:
        return
    memories = [
        range(memory.first, memory.first + memory.size)
        for memory in subject.chip.memories
        if memory.kind == "configuration" and memory.space == space.name
    ]
    for word in configuration.words:
        units = _units(subject, word)
        where = (word.origin, "address")
        what = f"{word.name} takes {shown(units[0])}"
        if len(units) > 1:
            what += f" to {shown(units[-1])}"
        if units[-1] >= space.size:
            message = (
                f"{what}, but the last address of the space {space.name} is "
                f"{shown(max(space.size - 1, 0))}; look up address and width"
            )
            yield Problem(message, where)
        elif memories and not all(any(unit in one for one in memories) for unit in units):
            message = f"{what}, outside the memories for configuration in {space.name}"
            yield Problem(f"{message}; look up the address, and the memory's size", where)


@rule("configuration-bits-without-meaning", NOTE)
def configuration_bits_without_meaning(subject: Subject) -> Iterator[Problem]:
    """Nothing is said of some bits of a configuration word.

    ## What it catches
    Bits of a configuration word that are in no field, and not unused either.

    ## Why it matters
    Every byte that is computed depends on what must be written there; without it, such a bit stays
    as it is delivered, and reading it back proves nothing.

    ## Example
    `<word width="8">` whose fields and unused bits are 7:3 and 1:0.

    ## Instead
    Add `<unused bits="2" value="1"/>`, or leave out `value` where any value will do.

    ## When to silence it
    Where the data sheet does not say either what the bit is.
    """
    for word in _words(subject):
        left = undescribed_bits(word)
        if left and not _beyond(word):  # a bit beyond the word may be the one that is left
            message = (
                f"nothing is said of {bit_list(left)} of {word.name}; add a field, or unused bits "
                "that say what must be written there"
            )
            yield Problem(message, word.origin)
