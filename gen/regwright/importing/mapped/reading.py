"""Bring in any XML or JSON by a mapping, within a limit of time and memory.

A path of the mapping may take for ever, and nothing in a process can stop libxml2 or a regular
expression. So the work is done in a process of its own, which is ended when its time is over.
"""

from __future__ import annotations

import json
import subprocess
from typing import Any

from regwright.format.resources import folder
from regwright.importing.draft import Draft, Remark
from regwright.importing.mapped.process import NO_MEMORY, TOO_LONG
from regwright.importing.own_process import run
from regwright.model.origin import from_steps

#: Seconds of a processor that mapping a document may take. One of 5,000 registers with 40,000
#: fields takes about four.
TIME_LIMIT = 30.0
#: How much longer it may take by the clock, on a machine that has much else to do.
_PATIENCE = 4
_WORDS = "write narrower paths, without // and without conditions within conditions"


def import_mapped(
    name: str, data: bytes, mapping_name: str, mapping: bytes, seconds: float = TIME_LIMIT
) -> Draft:
    """Return what the mapping file ``mapping`` makes of the document ``data``.

    The names are for messages; the chip may also take its name from ``name``. Whatever is wrong
    with either becomes remarks; remarks on the mapping have its name as their file.
    """
    head = {"name": name, "mapping": mapping_name, "length": len(mapping), "seconds": seconds}
    sent = json.dumps(head).encode("ascii") + b"\n" + mapping + data
    try:
        done = run("regwright.importing.mapped.process", sent, _PATIENCE * seconds)
        code = done.returncode
    except subprocess.TimeoutExpired:
        code = TOO_LONG
    if code == TOO_LONG:
        message = f"this mapping takes longer than {seconds:g} s for this document; {_WORDS}"
        return _refused("took-too-long", message, mapping_name)
    if code == NO_MEMORY or code < 0:
        message = f"this mapping takes more memory than there is for it; {_WORDS}"
        return _refused("took-too-long", message, mapping_name)
    if code != 0:
        raise RuntimeError(done.stderr.decode("utf-8", "replace").strip())
    return _draft(json.loads(done.stdout))


def shipped_mapping(name: str) -> tuple[str, bytes] | None:
    """Return the file name and text of the mapping that is shipped as ``name``, if there is one."""
    path = folder("templates") / f"mapping_{name}.json"
    if not (name.isalnum() and path.is_file()):
        return None
    return path.name, path.read_bytes()


def shipped_mappings() -> list[str]:
    """Return the names of the mappings that are shipped."""
    files = sorted(folder("templates").glob("mapping_*.json"))
    return [file.stem.removeprefix("mapping_") for file in files]


def _refused(rule: str, message: str, file: str) -> Draft:
    return Draft(remarks=[Remark(rule, "error", message, file=file)])


def _draft(received: dict[str, Any]) -> Draft:
    draft = Draft(received["tree"], [Remark(*remark) for remark in received["remarks"]])
    draft.places = {from_steps(steps): (line, column) for steps, line, column in received["places"]}
    return draft
