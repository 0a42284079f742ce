"""Write the tree that both spellings share as JSON, laid out as a person would."""

from __future__ import annotations

import json
from typing import Any

#: An object without inner lists stays on one line up to this width.
LINE = 100


def _flat(value: Any) -> str:
    if isinstance(value, dict):
        items = ", ".join(f"{json.dumps(key)}: {_flat(item)}" for key, item in value.items())
        return f"{{ {items} }}" if items else "{}"
    return json.dumps(value, ensure_ascii=False)


def _is_flat(value: Any) -> bool:
    if isinstance(value, dict):
        return all(not isinstance(item, (dict, list)) for item in value.values())
    return not isinstance(value, list)


def _write(value: Any, indent: str) -> str:
    deeper = indent + "  "
    if _is_flat(value):
        flat = _flat(value)
        if not isinstance(value, dict) or len(indent) + len(flat) <= LINE:
            return flat
    if isinstance(value, dict):
        items = [
            f"{deeper}{json.dumps(key)}: {_write(item, deeper)}" for key, item in value.items()
        ]
        return "{\n" + ",\n".join(items) + f"\n{indent}}}"
    items = [f"{deeper}{_write(item, deeper)}" for item in value]
    return "[\n" + ",\n".join(items) + f"\n{indent}]" if items else "[]"


def to_json(tree: dict[str, Any]) -> str:
    """Return ``tree`` as JSON text."""
    return _write(tree, "") + "\n"
