"""The command line knows every report, without importing them."""

from __future__ import annotations

from regwright.cli.check import REPORT_NAMES
from regwright.reports import REPORTS


def test_the_command_line_offers_every_report() -> None:
    assert tuple(REPORTS) == REPORT_NAMES
