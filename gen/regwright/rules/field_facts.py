"""Rules on what is said of fields: their values, resets and access against each other."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.macros.literals import digits_of, shown
from regwright.macros.operations import clearing, leaving_alone
from regwright.model.chip import NamedValue
from regwright.model.finding import ERROR, NOTE, WARNING
from regwright.resolve.facts import FieldFacts, RegisterFacts
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.wording import bit_list

_NO_READ = frozenset({"write-only", "writeOnce", "no-access"})
_NO_WRITE = frozenset({"read-only", "no-access"})


@rule("bits-without-name", NOTE)
def bits_without_name(subject: Subject) -> Iterator[Problem]:
    """Some bits of a register are neither a field nor reserved.

    ## What it catches
    A register with fields that do not cover it, unless a row of flags has a hyphen there.

    ## Why it matters
    A field may have been skipped, and nobody knows what to write to those bits.

    ## Example
    `<field name="MODE" bits="2:0"/>` alone in a register of 8 bits.

    ## Instead
    Add `<reserved bits="7:3" write="0"/>`, or the field that is missing.

    ## When to silence it
    When the document says nothing about those bits.
    """
    for placed in subject.described:
        facts = placed.facts
        if not facts.fields and not facts.reserved:
            continue
        missing = ((1 << facts.width) - 1) & ~facts.mask
        if missing and placed.register.flags is None:
            message = f"{placed.name} says nothing about {bit_list(missing)}; reserved perhaps?"
            yield Problem(message, placed.register.origin)


@rule("value-repeats", WARNING)
def value_repeats(subject: Subject) -> Iterator[Problem]:
    """Two names of a field stand for the same value.

    ## What it catches
    Values of one field with the same number, unless one is for reading and the other for writing.

    ## Why it matters
    A copied line whose number was not changed.

    ## Example
    `<value name="DIV8" value="2"/> <value name="DIV64" value="2"/>`

    ## Instead
    Look up the second one's number.

    ## When to silence it
    When the document has two names for it.
    """
    for placed in subject.described:
        for item in placed.facts.fields:
            seen: dict[tuple[int, str], int] = {}
            for index, value in enumerate(item.field.values):
                usages = ("read", "write") if value.usage == "read-write" else (value.usage,)
                earlier = next(
                    (seen[value.value, u] for u in usages if (value.value, u) in seen), None
                )
                if earlier is not None:
                    wrong, right = value, item.field.values[earlier]
                    if _first_is_wrong(item.field.values, earlier, index):
                        wrong, right = right, wrong
                    message = (
                        f"{placed.name}.{item.field.name}: {wrong.name} is "
                        f"{shown(value.value, 1)}, and so is {right.name}"
                    )
                    yield Problem(message, (wrong.origin, "value"))
                seen.update({(value.value, usage): index for usage in usages})


def _first_is_wrong(values: tuple[NamedValue, ...], first: int, second: int) -> bool:
    """Tell whether of two equal values the first is the wrong one.

    It is when they are neighbours in a table that counts up, which has a gap before the first
    and none behind the second.
    """
    number = values[first].value
    has_gap = number > (values[first - 1].value + 1 if first else 0)
    behind = values[second + 1].value if second + 1 < len(values) else number + 1
    return second == first + 1 and has_gap and behind == number + 1


@rule("values-incomplete", WARNING)
def values_incomplete(subject: Subject) -> Iterator[Problem]:
    """A field's values claim to be all there are, and are not.

    ## What it catches
    `valuesComplete="true"` on a field of up to 12 bits some of whose values have no name.

    ## Why it matters
    A row of the table was skipped, or the claim is wrong; a program that trusts it has no case
    for the missing value.

    ## Example
    Three values on a field of two bits, with `valuesComplete="true"`.

    ## Instead
    Add the fourth, or leave the claim out.

    ## When to silence it
    Never.
    """
    for placed in subject.described:
        for item in placed.facts.fields:
            if not item.field.values_complete or item.layout.width > 12:
                continue
            named = {value.value for value in item.field.values}
            if len(named) < len(item.field.values) == 1 << item.layout.width:
                continue  # value-repeats says it
            missing = [code for code in range(1 << item.layout.width) if code not in named]
            if missing:
                codes = ", ".join(shown(code, 1) for code in missing[:4])
                more = " and more" if len(missing) > 4 else ""
                message = f"{placed.name}.{item.field.name} has no name for {codes}{more}"
                yield Problem(message, (item.field.origin, "valuesComplete"))


@rule("reset-contradicts", ERROR)
def reset_contradicts(subject: Subject) -> Iterator[Problem]:
    """A field's reset value is not what the register's reset value has there.

    ## What it catches
    A field and its register that both give a reset value, and differ in a defined bit.

    ## Why it matters
    One of the two was copied wrongly; the program starts from another state than it thinks.

    ## Example
    `<register reset="0x00"><field name="MODE" bits="5:4" reset="0b01"/></register>`

    ## Instead
    Look both up; one is enough.

    ## When to silence it
    Never.
    """
    for placed in subject.described:
        given = placed.register.reset
        for item in placed.facts.fields if given else ():
            own = item.field.reset
            if own is None or given is None or (own.value | own.undefined) >> item.layout.width:
                continue
            ours = item.layout.extract(given.value)
            undefined = item.layout.extract(given.undefined) | own.undefined
            if (ours ^ own.value) & ~undefined:
                message = (
                    f"{placed.name}.{item.field.name} resets to {shown(own.value, 1)}, but the "
                    f"register's reset value {shown(given.value, digits_of(placed.facts.width))} "
                    f"has {shown(ours, 1)} there"
                )
                yield Problem(message, (item.field.origin, "reset"))


@rule("reset-sets-reserved", WARNING)
def reset_sets_reserved(subject: Subject) -> Iterator[Problem]:
    """A reset value has the wrong level in reserved bits.

    ## What it catches
    A 1 in bits that must be written as 0, or a 0 in bits that must be written as 1.

    ## Why it matters
    Either the reset value or the bits were copied wrongly.

    ## Example
    `<register reset="0x80"><reserved bits="7" write="0"/></register>`

    ## Instead
    Look both up.

    ## When to silence it
    When the document really asks to write something else than what the bits are after reset.
    """
    for placed in subject.described:
        reset = placed.register.reset
        for reserved in placed.facts.reserved if reset else ():
            if reset is None or reserved.reserved.write not in ("0", "1"):
                continue
            wanted = reserved.mask if reserved.reserved.write == "1" else 0
            wrong = (reset.value ^ wanted) & reserved.mask & ~reset.undefined
            if wrong:
                message = (
                    f"{placed.name} resets to {shown(reset.value, digits_of(placed.facts.width))}, "
                    f"but its reserved {bit_list(wrong)} must be written as "
                    f"{reserved.reserved.write}"
                )
                yield Problem(message, (placed.register.origin, "reset"))


@rule("reset-without-name", WARNING)
def reset_without_name(subject: Subject) -> Iterator[Problem]:
    """A field resets to a value that it does not have.

    ## What it catches
    A field whose values are complete, or whose values cover more than half of its codes, and
    whose reset value is none of them.

    ## Why it matters
    The reset value or one of the values was copied wrongly.

    ## Example
    Values 1 to 7 on a field of three bits that resets to 0.

    ## Instead
    Look them up; add the value that is missing.

    ## When to silence it
    When the document has no name for it.
    """
    for placed in subject.described:
        for item in placed.facts.fields:
            if not item.field.values:
                continue
            named = {value.value for value in item.field.values if value.usage != "write"}
            many = item.field.values_complete or 2 * len(named) > 1 << min(item.layout.width, 12)
            if not named or not many or item.reset is None or item.reset.undefined:
                continue
            if item.reset.value not in named:
                message = (
                    f"{placed.name}.{item.field.name} resets to {shown(item.reset.value, 1)}, "
                    "which is none of its values"
                )
                owner = item.field if item.field.reset else placed.register
                yield Problem(message, (owner.origin, "reset"))


def _contradiction(facts: RegisterFacts, item: FieldFacts) -> tuple[str, str] | None:
    """Return what contradicts what in a field's access, and the property that says it."""
    field, register = item.field, facts.access
    if field.access is not None:
        if register in _NO_WRITE and field.access not in _NO_WRITE:
            return f"is {field.access}, but its register is {register}", "access"
        if register in _NO_READ and field.access not in _NO_READ:
            return f"is {field.access}, but its register is {register}", "access"
    if field.modified_write_value and item.access in _NO_WRITE:
        return f"is {item.access}, but a write has an effect", "modifiedWriteValue"
    if field.read_action and item.access in _NO_READ:
        return f"is {item.access}, but a read has an effect", "readAction"
    return None


@rule("access-contradicts", ERROR)
def access_contradicts(subject: Subject) -> Iterator[Problem]:
    """A field's access does not fit its register's, or its side effect.

    ## What it catches
    A field that can be written in a register that cannot, or read in one that cannot; an effect
    of writing on a field that cannot be written, an effect of reading on one that cannot be read.

    ## Why it matters
    One of the two is wrong, and code that believes it does nothing.

    ## Example
    `<field name="DONE" access="read-only" modifiedWriteValue="oneToClear"/>`

    ## Instead
    `access="read-write"`, for a flag that writing 1 clears can be written.

    ## When to silence it
    Never.
    """
    for placed in subject.described:
        for item in placed.facts.fields:
            found = _contradiction(placed.facts, item)
            if found is not None:
                message = f"{placed.name}.{item.field.name} {found[0]}"
                yield Problem(message, (item.field.origin, found[1]))
        register = placed.register
        if register.read_action and placed.facts.access in _NO_READ:
            message = f"{placed.name} is {placed.facts.access}, but a read has an effect"
            yield Problem(message, (register.origin, "readAction"))


@rule("flag-cleared-by-or", NOTE)
def flag_cleared_by_or(subject: Subject) -> Iterator[Problem]:
    """A register has flags that `|=` would clear by the way.

    ## What it catches
    A register that is read and written and has a flag cleared by writing 1, with other bits
    beside it that can be written.

    ## Why it matters
    `STATUS |= OTHER` reads the flag as 1 and writes it back as 1, which clears it: an event is
    lost, rarely and never while one looks.

    ## Example
    `TMR_FLAGS |= TMR_FLAGS_MATCH_MASK;` clears every flag that is set.

    ## Instead
    `TMR_FLAGS_MATCH_CLEAR();` of the emitted header, which clears that flag and no other.

    ## When to silence it
    When whoever uses the register knows.
    """
    for placed in subject.described:
        written = [item for item in placed.facts.fields if item.access not in _NO_WRITE]
        flags = [item for item in written if item.field.modified_write_value == "oneToClear"]
        if not flags or placed.facts.access != "read-write" or len(written) < 2:
            continue
        first = flags[0]
        ones = shown(
            clearing(leaving_alone(placed.facts), first).ones, digits_of(placed.facts.width)
        )
        names = ", ".join(item.field.name for item in flags)
        message = (
            f"{placed.name}: |= clears {names}; to clear {first.field.name} alone write {ones} "
            f"with the plain bits as they are, or use {placed.name}_{first.field.name}_CLEAR()"
        )
        yield Problem(message, placed.register.origin)
