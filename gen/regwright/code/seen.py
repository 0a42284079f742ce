"""What was seen in sources: definitions, accesses and instructions, each with its place.

Nothing here knows a chip. ``code`` makes these from text, ``audit`` holds them against a chip.
"""

from typing import NamedTuple


class IntType(NamedTuple):
    """A C integer type; ``rank`` orders types of one width: ``int`` before ``long``."""

    bits: int
    signed: bool
    rank: int


class Where(NamedTuple):
    """A part of a source: its file, counted from 0 as they were given, and bytes ``start:end``."""

    file: int
    start: int
    end: int


#: The conditions around a place, the outermost first, as C would test them: ``defined(X)``.
Branch = tuple[str, ...]


class CType(NamedTuple):
    """What a pointer points to, or an object is.

    ``bits`` is ``None`` for what has no width to compare: ``void``, a structure, an unknown type.
    ``name`` is the type as it is written, without qualifiers.
    """

    bits: int | None
    volatile: bool = False
    const: bool = False
    name: str = ""


class Number(NamedTuple):
    """An integer constant. ``literal`` is the one literal that gives it, if there is just one."""

    value: int
    type: IntType
    literal: Where | None = None


class Pointer(NamedTuple):
    """A constant address as a pointer. ``literal`` as in :class:`Number`."""

    address: int
    to: CType
    literal: Where | None = None
    #: Where ``volatile`` can be put, when the source has the type.
    qualifier: Where | None = None
    member: str = ""
    base: int | None = None


class Location(NamedTuple):
    """An object at a constant address: what dereferencing a :class:`Pointer` gives.

    ``member`` is the way to it through a structure laid over the address, as ``out`` or
    ``port[1].out``; ``base`` is the address of that structure.
    """

    address: int
    type: CType
    literal: Where | None = None
    qualifier: Where | None = None
    member: str = ""
    base: int | None = None


Meaning = Number | Pointer | Location


class Definition(NamedTuple):
    """A name that a source gives to a number, an address or an object at one.

    ``form`` is ``macro``, ``enum``, ``constant`` (a const integer), ``pointer`` (a pointer variable
    with a constant address), ``object`` (placed by an attribute or ``@``), ``member`` (of a
    structure laid over an address; its name is ``NAME.member``) or ``equate`` (assembler).
    ``name_at`` is where the name stands, ``body`` the text of its value, ``whole`` all of it: the
    line of a macro, the declaration. ``is_closed`` tells whether a macro's body stays one operand
    wherever it is put.
    """

    name: str
    form: str
    means: Meaning
    name_at: Where
    body: Where
    whole: Where
    branch: Branch
    is_closed: bool = True


class Bits(NamedTuple):
    """What is known of a value, bit by bit: 1, 0, or as it was in what is written to.

    Bits in none of the three masks are not known.
    """

    ones: int
    zeros: int
    kept: int


class Part(NamedTuple):
    """A name in the value of an access, and what it does there.

    ``role`` is ``operand`` (its bits count as they are: of ``|``, ``&``, ``~``, or alone),
    ``count`` (how far something is shifted) or ``other``. ``means`` is what it stands for where
    that is a constant.
    """

    name: str
    role: str
    means: Number | None
    at: Where


class Access(NamedTuple):
    """Something is read or written at a place.

    ``how`` is ``read``, ``write`` or ``modify`` (both); ``operator`` is that of the source: ``=``,
    ``|=``, ``++``, or empty for a read. ``name`` is the identifier through which the source
    reaches it, empty for a bare cast. ``value`` is what a write puts there; of a read that tests
    bits it has a 1 for each of them. ``steps`` tell where it happens, so that the order of two
    accesses can be compared: the file, where the function and the full expression start, how many
    sequence points are before it in that, and in which arm of a ``?:`` it stands, 0 for none. Of
    two accesses whose first four are equal C does not say which comes first.
    """

    name: str
    target: Location
    how: str
    operator: str
    value: Bits | None
    parts: tuple[Part, ...]
    at: Where
    target_at: Where
    branch: Branch
    steps: tuple[int, ...] = ()


class Operand(NamedTuple):
    """An operand of an instruction or of a call: its text, its value, the names in it."""

    text: str
    means: Meaning | None
    names: tuple[str, ...]
    at: Where


class Instruction(NamedTuple):
    """An assembler instruction, or a call of a function that stands for one.

    ``is_call`` tells which. ``mnemonic`` is in lower case for an instruction, as written for a
    call. ``at`` is the mnemonic.
    """

    mnemonic: str
    operands: tuple[Operand, ...]
    at: Where
    branch: Branch
    is_call: bool = False


class Assertion(NamedTuple):
    """A static assertion, and whether it holds; ``None`` where that is not known."""

    holds: bool | None
    text: str
    names: tuple[str, ...]
    at: Where
    branch: Branch


class Shift(NamedTuple):
    """A shift to the left of a constant by a constant, that does not fit its type."""

    bits: int
    signed: bool
    value: int
    by: int
    at: Where
    branch: Branch


class Mention(NamedTuple):
    """A name in code that means something on the chip, where no access or instruction has it."""

    name: str
    at: Where
    branch: Branch


class Quiet(NamedTuple):
    """A comment that silences a rule on its line and the next one."""

    rule: str
    reason: str
    file: int
    line: int
    at: Where


class Unread(NamedTuple):
    """A part of a source that could not be understood, and why."""

    reason: str
    at: Where


class Seen(NamedTuple):
    """All that was seen in the sources, in the order of files and places."""

    definitions: list[Definition]
    accesses: list[Access]
    instructions: list[Instruction]
    assertions: list[Assertion]
    shifts: list[Shift]
    mentions: list[Mention]
    quiets: list[Quiet]
    unread: list[Unread]
