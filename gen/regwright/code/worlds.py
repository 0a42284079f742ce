"""Conditional compilation: what a question comes to for each choice of arms it depends on."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Generic, NamedTuple, TypeVar

from regwright.code.directives import Arm, negated
from regwright.code.scope import NONE_OF_THEM, Scope
from regwright.code.seen import Branch

#: How many choices of arms are looked at for one place.
_MOST = 8

Result = TypeVar("Result")


class Outcome(NamedTuple, Generic[Result]):
    """What came of one choice of arms, under the conditions ``branch``."""

    branch: Branch
    result: Result


class Worlds:
    """Asks a question once for each choice of arms that its answer depends on."""

    def __init__(self, scope: Scope) -> None:
        """Choose arms for the look-ups in ``scope``."""
        self._scope = scope
        #: The condition of each arm of all files.
        self.conditions: dict[Arm, str] = {}

    def branch(self, arms: tuple[Arm, ...]) -> Branch:
        """Return the conditions of ``arms``, as messages show them."""
        return tuple(dict.fromkeys(self.conditions[arm] for arm in arms)) if arms else ()

    def outcomes(
        self, arms: tuple[Arm, ...], ask: Callable[[], Result]
    ) -> Iterator[Outcome[Result]]:
        """Yield what ``ask`` returns for code in ``arms``, for each choice of other arms."""
        return self._outcomes(self.branch(arms), dict(arms), ask, _MOST)

    def _outcomes(
        self, branch: Branch, world: dict[int, int], ask: Callable[[], Result], most: int
    ) -> Iterator[Outcome[Result]]:
        """Yield no more than ``most`` outcomes of ``world``, whose conditions are ``branch``.

        The first question is asked without a world: what depends on none is remembered.
        """
        scope = self._scope
        scope.world, scope.open_groups = (world if most < _MOST else {}), {}
        result = ask()
        opened = {key: item for key, item in scope.open_groups.items() if key not in world}
        scope.world, scope.open_groups = {}, {}
        if not opened or most < 2:
            yield Outcome(branch, result)
            return
        group = min(opened)
        choices = self._choices(group, opened[group], branch)[:most]
        for number, condition in choices:
            inner = tuple(dict.fromkeys((*branch, condition)))
            following = min(most - 1, max(most // len(choices), 1))
            yield from self._outcomes(inner, {**world, group: number}, ask, following)

    def _choices(self, group: int, numbers: set[int], branch: Branch) -> list[tuple[int, str]]:
        """Return the arms of ``group`` that ``branch`` leaves open, with their conditions."""
        arms = sorted(number for number in numbers if number != NONE_OF_THEM)
        found = [(number, self.conditions[Arm(group, number)]) for number in arms]
        if NONE_OF_THEM in numbers:
            found.append((NONE_OF_THEM, negated(condition for _, condition in found)))
        against = {negated((condition,)) for condition in branch}
        left = []
        for item in found:
            if item[1] not in against:
                left.append(item)
            if item[1] in branch:  # this arm is taken, or one before it
                break
        is_else = bool(left) and left[-1][0] in (NONE_OF_THEM, self._scope.elses.get(group))
        return left[-1:] if is_else and left[-1][1] in branch else left or found
