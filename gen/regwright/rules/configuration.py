"""Rules on configuration bytes and words: their bits, values and defaults."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.configuration.decode import problems
from regwright.configuration.words import every_bit, hexadecimal
from regwright.macros.literals import shown
from regwright.model.configuration import ConfigurationField, ConfigurationWord
from regwright.model.finding import ERROR
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
    Words of one name or one address, settings of one name, and choices of one setting that have
    the same name or the same value.

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
        other = addresses.setdefault(word.address, word.name)
        if other != word.name:
            message = f"{word.name} has the address {shown(word.address)}, as {other} has"
            yield Problem(f"{message}; look both up", (word.origin, "address"))
        for field in word.fields:
            yield from _again("setting", field.setting, settings, (field.origin, "setting"))
            yield from _repeated_choices(field)


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
                message = f"{bit_list(beyond)} of {name} lie outside {word.name}"
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
