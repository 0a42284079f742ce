"""What every importer ends in: a description as a tree, and remarks on how it came about."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, NamedTuple

from regwright.model.finding import ERROR, NOTE, WARNING
from regwright.model.origin import Origin

Tree = dict[str, Any]


class Remark(NamedTuple):
    """Something to tell about one place of what is brought in; line and column count from 1.

    ``rule`` is a name in :data:`regwright.importing.oddities.ODDITIES`. ``file`` is empty for the
    file that was asked for; another document that it refers to is named.
    """

    rule: str
    level: str
    message: str
    line: int = 1
    column: int = 1
    file: str = ""


@dataclass
class Draft:
    """What an importer makes: ``tree`` as the JSON spelling has it, ``None`` if there is nothing.

    ``places`` says for the nodes of the tree, by their steps from the root, where they stand in the
    imported file (line and column), so that what is found later can be said there. An importer
    fills them, or gives ``locate``, which works them out when they are first asked for.
    """

    tree: Tree | None = None
    remarks: list[Remark] = field(default_factory=list)
    locate: Callable[[], dict[Origin, tuple[int, int]]] = dict

    @cached_property
    def places(self) -> dict[Origin, tuple[int, int]]:
        """Where nodes stand in the imported file."""
        return self.locate()

    def refuse(self, rule: str, message: str, line: int = 1, column: int = 1) -> None:
        """Note that something makes no sense: nothing can be made of it."""
        self.remarks.append(Remark(rule, ERROR, message, line, column))

    def assume(self, rule: str, message: str, line: int = 1, column: int = 1) -> None:
        """Note an oddity and what was assumed instead; with ``--strict`` an error."""
        self.remarks.append(Remark(rule, WARNING, message, line, column))

    def lose(self, message: str, line: int = 1, column: int = 1) -> None:
        """Note something that a description has no place for: one line of the loss report."""
        self.remarks.append(Remark("not-carried-over", NOTE, message, line, column))

    def tell(self, rule: str, message: str, line: int = 1, column: int = 1) -> None:
        """Note something that is worth knowing and needs no decision."""
        self.remarks.append(Remark(rule, NOTE, message, line, column))
