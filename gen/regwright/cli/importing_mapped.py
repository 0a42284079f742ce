"""Find the mapping that an import goes by: a file, or one that comes along."""

from __future__ import annotations

import os

from regwright.cli.inputs import CannotRead, Kind, load_bytes
from regwright.importing.mapped.reading import shipped_mapping, shipped_mappings

_MAPPING = Kind("mapping", "", lambda _name: True)


def read_mapping(name: str) -> tuple[str, bytes]:
    """Return the name and text of the mapping file ``name``, or of the shipped one of that name.

    Raises ``CannotRead``.
    """
    if not os.path.lexists(name):
        shipped = shipped_mapping(name)
        if shipped is not None:
            return shipped
        known = ", ".join(shipped_mappings())
        raise CannotRead(f"{name}: no such file, and no mapping that comes along ({known})")
    return name, load_bytes(name, _MAPPING)
