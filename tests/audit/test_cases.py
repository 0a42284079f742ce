"""The audit against sources that were judged by hand: what it must find, and nothing else.

The sources are in ``tests/cases/audit``, whose README tells the form. What is expected was written
from the descriptions and the trade before the rules were there.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from corpus import CASES, found, paths, read

from regwright.audit.all import AUDIT_RULES

PATHS = paths()
#: These run only when they are asked for, with ``--use-header``: no case of a plain audit has them.
ONLY_WHEN_ASKED = {"hand-made-definition", "name-of-the-header"}


def _name(path: Path) -> str:
    return path.relative_to(CASES).as_posix()


@pytest.mark.parametrize("path", PATHS, ids=_name)
def test_case_finds_what_it_says(path: Path) -> None:
    case = read(path)
    messages = found(case)
    assert set(messages) == case.expected, messages


def test_cases_use_names_of_rules() -> None:
    used = {rule for path in PATHS for _, rule in read(path).expected}
    known = {rule.name for rule in AUDIT_RULES}
    assert used - known == set()
    assert known - used == ONLY_WHEN_ASKED


def test_there_are_enough_of_both_kinds() -> None:
    clean = [path for path in PATHS if not read(path).expected]
    assert len(clean) >= 60
    assert len(PATHS) - len(clean) >= 90


def test_the_branch_is_told() -> None:
    messages = found(read(CASES / "branches" / "one_arm.h"))
    assert "(under #if defined(BOARD_OLD))" in messages[5, "io-address-behind-pointer"]
    messages = found(read(CASES / "branches" / "base.h"))
    assert "(under #if !defined(MEMORY_MAPPED))" in messages[9, "io-address-behind-pointer"]


def test_a_file_off_by_a_constant_has_the_list() -> None:
    (message,) = found(read(CASES / "offset" / "all_io.h")).values()
    # Ten registers with their addresses in data space, as the description has them.
    for right in ("0x34 for DIR_A", "0x35 for OUT_A", "0x36 for IN_A", "0x37 for DIR_B"):
        assert right in message
    assert "all 10" in message
    assert "0x20" in message
