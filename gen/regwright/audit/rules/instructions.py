"""Rules on the operands of instructions, in assembler and in calls of functions like them."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.audit.address_words import excerpt
from regwright.audit.names import MASK
from regwright.audit.operands import Fault, faults
from regwright.audit.problem import CodeEdit, CodeProblem
from regwright.audit.renumber import Renumber
from regwright.audit.subject import AuditSubject, Use
from regwright.code.seen import Where
from regwright.model.finding import ERROR
from regwright.rules.catalogue import rule


@rule("data-address-in-instruction", ERROR)
def data_address_in_instruction(subject: AuditSubject) -> Iterator[CodeProblem]:
    """An instruction that takes an I/O address is given a data address.

    ## What it catches
    Port and single-bit instructions of the description, in assembler files, inline assembly and
    calls, with a number that is a register's address in another space: by the name in the operand,
    or because no register has it in the space of the instruction.

    ## Why it matters
    The assembler takes any number that fits. `out 0x38` writes another register, and the pin stays
    as it was.

    ## Example
    `out 0x38, r16` for OUT_B, whose I/O address is 0x18.

    ## Instead
    `out 0x18, r16`, or `out OUT_B_IO_ADDR, r16` with the emitted header.

    ## When to silence it
    When the description lacks the register that is meant.
    """
    found = [item for item in faults(subject) if item.use.described.space != subject.space]
    yield from told(subject, found)


def told(subject: AuditSubject, found: list[Fault]) -> Iterator[CodeProblem]:
    """Yield the problems of instructions that are given the address of another space."""
    renumber = Renumber(subject)
    places: dict[Where | None, list[Where]] = {}
    for item in found:
        places.setdefault(_literal(item), []).append(item.operand.at)
    for item in found:
        if item.right is None:
            continue
        edit = None
        if item.is_sure:
            literal = _literal(item)
            edit = renumber.edit(
                *(literal, item.address, item.right, places[literal]),
                item.use.described.space,
            )
        edits: tuple[CodeEdit, ...] = () if edit is None else (edit,)
        repair = edit.text if edit else None
        branch = item.use.instruction.branch
        yield CodeProblem(item.message, item.operand.at, branch, edits, repair)


def _literal(item: Fault) -> Where | None:
    return item.operand.means.literal if item.operand.means is not None else None


@rule("instruction-out-of-reach", ERROR)
def instruction_out_of_reach(subject: AuditSubject) -> Iterator[CodeProblem]:
    """An instruction does not reach the address that it is given.

    ## What it catches
    An address past the end of the space of the instruction, and in a single-bit instruction one
    outside the part of the window that the description gives them; and a number of a bit that the
    register does not have.

    ## Why it matters
    The instruction has room for a short number only. The assembler refuses it, or, where it comes
    in through an operand, cuts it: another register is changed.

    ## Example
    `bset 0x22, 5` where single-bit instructions reach I/O 0x00 to 0x1F; `bset 0x18, 8`

    ## Instead
    Read, change and write: `in`, `or`, `out`; or `load` and `store` with the data address.

    ## When to silence it
    When the description is wrong about the reach; better, correct it.
    """
    for item in faults(subject):
        if item.right is None:
            yield CodeProblem(item.message, item.operand.at, item.use.instruction.branch)
    for use in subject.uses:
        wrong = _wrong_bit(subject, use)
        if wrong is not None:
            yield wrong


def _wrong_bit(subject: AuditSubject, use: Use) -> CodeProblem | None:
    """Return the problem of a bit that what an instruction reaches does not have.

    One by the name of a mask is another rule's.
    """
    space = subject.resolved.spaces.get(use.described.space)
    if use.bit is None or use.described.bit is None or space is None:
        return None
    registers = [] if use.address is None else subject.registers_at(space.name, use.address)
    widest = max((item.facts.width for item in registers), default=space.unit)
    highest = min(widest, space.unit) - 1
    if 0 <= use.bit <= highest:
        return None
    operand = use.instruction.operands[use.described.bit - 1]
    matches = [match for name in operand.names for match in subject.names.find(name)]
    if any(match.says == MASK for match in matches):
        return None
    shown = excerpt(operand.text) + (f" ({use.bit})" if operand.names else "")
    of = f" of {registers[0].name}" if registers else ""
    message = f"{use.instruction.mnemonic} takes a bit from 0 to {highest}{of}, not {shown}"
    bit = use.bit.bit_length() - 1
    if use.bit == 1 << max(bit, 0) and bit <= highest:
        message += f", which is the mask of bit {bit}"
    return CodeProblem(message, operand.at, use.instruction.branch)
