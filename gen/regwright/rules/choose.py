"""Choose the rules that a chip needs: those on what it does not have are not loaded."""

from __future__ import annotations

from regwright.model.chip import Chip
from regwright.rules.catalogue import Rule
from regwright.rules.of_registers import REGISTER_RULES
from regwright.rules.silences import silence_unused


def rules_for(chip: Chip) -> tuple[Rule, ...]:
    """Return the rules that can find something in ``chip``, in the order in which they run."""
    rest = (chip.memories, chip.vector_table, chip.configuration, chip.clock, chip.ports)
    if not any(rest) and not chip.packages and not chip.identity:
        return (*REGISTER_RULES, silence_unused)
    from regwright.rules.of_the_rest import REST_RULES

    return (*REGISTER_RULES, *REST_RULES, silence_unused)
