"""Edits that put the right number in the place of a wrong one, where nothing else needs that."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from functools import cached_property

from regwright.audit.names import ADDRESS
from regwright.audit.problem import CodeEdit
from regwright.audit.restyle import restyled
from regwright.audit.subject import AuditSubject
from regwright.code import integers
from regwright.code.directives import directives
from regwright.code.seen import Definition, Number, Where
from regwright.code.words import names_in


class Renumber:
    """Makes such edits for the sources of one subject."""

    def __init__(self, subject: AuditSubject) -> None:
        """Edit the sources of ``subject``."""
        self._subject = subject

    def edit(
        self, literal: Where | None, value: int, right: int, places: Iterable[Where], space: str
    ) -> CodeEdit | None:
        """Return the edit that makes ``literal`` give ``right``; ``None`` when it is not certain.

        It is when the literal alone gives the wrong ``value``, and no name leads from it to
        anything but ``places``, the parts of the sources that want the address in ``space``.
        """
        if literal is None:
            return None
        owner = self.owner(literal)
        if owner is not None and not self._is_only_for(owner, set(places), space):
            return None
        return self.plain_edit(literal, value, right)

    def plain_edit(self, literal: Where, value: int, right: int) -> CodeEdit | None:
        """Return the edit that makes ``literal`` give ``right``, if it alone gives ``value``."""
        text = self._subject.text(literal)
        found = integers.literal(text, self._subject.model)
        new = restyled(text, right) if found is not None and found[0] == value else None
        return CodeEdit(literal, new) if new is not None else None

    def own_edit(self, item: Definition, value: int, right: int) -> CodeEdit | None:
        """Return the edit that makes the number ``item`` itself ``right`` instead of ``value``.

        None where the number stands elsewhere, or others count on from it.
        """
        literal = item.means.literal
        if literal is None or self.owner(literal) != item or self._leads_on(item):
            return None
        return self.plain_edit(literal, value, right)

    def shared(self, places: Iterable[Where]) -> Definition | None:
        """Return a number whose name stands in each of ``places``, if there is one."""
        names = [set(self._subject.names_in(place)) for place in places]
        common = set.intersection(*names) if names else set()
        numbers = (
            item
            for item in (self._subject.seen.definitions if common else ())
            if item.name in common and isinstance(item.means, Number)
        )
        return next(numbers, None)

    def owner(self, literal: Where) -> Definition | None:
        """Return the definition of a number in which ``literal`` stands, if it does in one."""
        return self._owners.get((literal.file, literal.start))

    @cached_property
    def _owners(self) -> dict[tuple[int, int], Definition]:
        found: dict[tuple[int, int], Definition] = {}
        for item in self._subject.seen.definitions:
            literal = item.means.literal
            if not isinstance(item.means, Number) or literal is None:
                continue
            if literal.file == item.body.file and item.body.start <= literal.start < item.body.end:
                found.setdefault((literal.file, literal.start), item)
        return found

    def _is_only_for(self, owner: Definition, places: set[Where], space: str) -> bool:
        """Tell whether the name of a number stands nowhere but in ``places``."""
        if self._leads_on(owner) or self._says_another(owner, space):
            return False
        within = sum(self._subject.names_in(place).count(owner.name) for place in places)
        return self._occurrences[owner.name] == within + self._definitions[owner.name]

    def _leads_on(self, owner: Definition) -> bool:
        """Tell whether other enumerators count on from this one."""
        return owner.form == "enum" and owner.name_at in self._counted_on

    def _says_another(self, owner: Definition, space: str) -> bool:
        """Tell whether the name of a number says that it is an address of another space."""
        return any(
            match.field is None and match.says == ADDRESS and match.space not in ("", space)
            for match in self._subject.names.find(owner.name)
        )

    @cached_property
    def _counted_on(self) -> set[Where]:
        """The names of enumerators behind which one follows that has no value of its own."""
        found = set()
        before: Definition | None = None
        for item in self._subject.seen.definitions:
            if item.form != "enum":
                continue
            if before is not None and item.body == item.name_at != before.name_at:
                found.add(before.name_at)
            before = item
        return found

    @cached_property
    def _definitions(self) -> Counter[str]:
        """At how many places each name is defined."""
        places = {(item.name, item.name_at) for item in self._subject.seen.definitions}
        return Counter(name for name, _ in places)

    @cached_property
    def _occurrences(self) -> Counter[str]:
        """How often each identifier stands in the sources, outside of comments."""
        found: Counter[str] = Counter()
        for text in self._subject.files:
            position = 0
            for start, end in directives(text.data).comments:
                found.update(names_in(text.data[position:start]))
                position = end
            found.update(names_in(text.data[position:]))
        return found
