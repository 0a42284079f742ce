"""The drawings of a chip's packages, a file for each."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.model.chip import Chip
from regwright.model.packages import Package
from regwright.render.package_svg import package_svg


def drawing_name(chip: Chip, package: Package) -> str:
    """Return the name of the file with the drawing of ``package``."""
    return f"{chip.name}_{package.name}.svg"


def drawings(chip: Chip) -> Iterator[tuple[str, str]]:
    """Yield the name and the text of each drawing."""
    for package in chip.packages:
        yield drawing_name(chip, package), package_svg(chip.name, package)
