"""The catalogue: every rule, in the order in which they run."""

from __future__ import annotations

from regwright.rules.catalogue import Rule
from regwright.rules.of_registers import REGISTER_RULES
from regwright.rules.of_the_rest import REST_RULES
from regwright.rules.silences import silence_unused

RULES: tuple[Rule, ...] = (*REGISTER_RULES, *REST_RULES, silence_unused)
