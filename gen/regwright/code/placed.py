"""Objects that a declaration places at an address: by an attribute, or by ``@``.

No grammar knows the second form, and attributes behind a name confuse the one that is used here, so
both are found by their text, where all of a declaration stands as expected.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from regwright.code.directives import Directives
from regwright.code.scope import Constant
from regwright.code.seen import Where
from regwright.code.syntax import TypeName

_WORDS = rb"((?:[A-Za-z_]\w*+\s++){1,6})"
_NAME = rb"([A-Za-z_]\w*+)\s*+"
_GIVEN = rb"((?:[^();]++|\((?:[^();]++|\([^();]*+\))*+\))*+)"
_ATTRIBUTE = rb"(?:__attribute__|__attribute)\s*+\(\(" + _GIVEN + rb"\)\)\s*+"
_PLACED = re.compile(
    rb"(?<![\w*])" + _WORDS + _NAME
    + rb"(?:@\s*+((?:0[xX][0-9A-Fa-f]++|\d++)[uUlL]*+)\s*+|" + _ATTRIBUTE + rb");"
)  # fmt: skip
_BEFORE = re.compile(_ATTRIBUTE + _WORDS + _NAME + rb";")
_AMID = re.compile(rb"(?<![\w*])" + _WORDS + _ATTRIBUTE + _NAME + rb";")
_ADDRESS = re.compile(
    rb"\"(?:\\.|[^\"\\])*+\"|\b(?:address|at|absolute)\s*+\(\s*+((?:[^()]++|\([^()]*+\))++)\)",
    re.DOTALL,
)
_QUALIFIERS = frozenset({"volatile", "const", "extern", "static", "register"})
_NO_TYPES = frozenset({"return", "typedef", "goto", "else", "struct", "union", "enum"})


def placed(data: bytes, file: int, found: Directives) -> Iterator[Constant]:
    """Yield the objects that the declarations in ``data`` place."""
    if b"@" not in data and b"__attribute" not in data:
        return
    for pattern, groups in ((_PLACED, (1, 2)), (_BEFORE, (2, 3)), (_AMID, (1, 3))):
        for match in pattern.finditer(data):
            if found.in_text(match.start(groups[1])):
                continue
            made = _made(match, groups, file, found)
            if made is not None:
                yield made


def _made(
    match: re.Match[bytes], groups: tuple[int, int], file: int, found: Directives
) -> Constant | None:
    words = tuple(match[groups[0]].decode("ascii").split())
    value = _address(match, groups)
    if value is None or _NO_TYPES & set(words):
        return None
    kind = TypeName(
        tuple(word for word in words if word not in _QUALIFIERS),
        volatile="volatile" in words,
        const="const" in words,
        start=match.start(groups[0]),
    )
    start = match.start(groups[1])
    text = match.string[value[0] : value[1]]
    return Constant(
        *(match[groups[1]].decode("ascii"), file, found.arms_at(start), start, text),
        *(Where(file, *value), Where(file, *match.span()), "object", kind),
    )


def _address(match: re.Match[bytes], groups: tuple[int, int]) -> tuple[int, int] | None:
    """Return where the address stands: behind ``@``, or in an attribute."""
    for number in range(1, (match.lastindex or 0) + 1):
        if number in groups or match[number] is None:
            continue
        if match.string[match.start(number) - 1 : match.start(number)] != b"(":
            return match.span(number)
        inside = _ADDRESS.finditer(match.string, *match.span(number))
        return next((item.span(1) for item in inside if item[1] is not None), None)
    return None
