"""What a project decides about rules: levels of its own, and what makes a check fail."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from regwright.model.finding import LEVELS, WARNING, Finding


class Settings(NamedTuple):
    """``levels`` by rule, ``off`` among them; findings below ``fail_on`` do not fail a check."""

    levels: Mapping[str, str] = MappingProxyType({})
    fail_on: str = WARNING

    def fails(self, finding: Finding) -> bool:
        """Tell whether ``finding`` makes the check fail."""
        return LEVELS.index(finding.level) <= LEVELS.index(self.fail_on)


DEFAULT = Settings()
