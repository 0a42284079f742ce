"""The process in which a document is mapped: texts come in, a draft goes out."""

from __future__ import annotations

import gc
import json
import os
import signal
import sys

from regwright.importing.draft import Draft
from regwright.importing.mapped.mapping import map_document
from regwright.importing.own_process import limit_memory, limit_time
from regwright.model.origin import steps

#: Bytes of memory that mapping a document may take, where the system can limit it, and the name
#: of the variable that says another number.
MEMORY = 4 << 30
MEMORY_VARIABLE = "REGWRIGHT_MAPPING_MEMORY"
#: What the process ends with when that is not enough.
NO_MEMORY = 3
#: What it ends with when the system has ended it for taking too long.
TOO_LONG = -int(getattr(signal, "SIGXCPU", 4096))


def main() -> None:
    """Map what stands on standard input."""
    gc.disable()  # the process is short, and what it makes has no cycles
    limit_memory(int(os.environ.get(MEMORY_VARIABLE, MEMORY)))
    try:
        sent = _sent(_received())
    except MemoryError:
        sys.exit(NO_MEMORY)
    sys.stdout.buffer.write(sent)


def _received() -> Draft:
    head = json.loads(sys.stdin.buffer.readline())
    limit_time(head["seconds"])
    mapping = sys.stdin.buffer.read(head["length"])
    return map_document(head["name"], sys.stdin.buffer.read(), head["mapping"], mapping)


def _sent(draft: Draft) -> bytes:
    places = [[steps(origin), *place] for origin, place in draft.places.items()]
    sent = {"tree": draft.tree, "remarks": draft.remarks, "places": places}
    return json.dumps(sent).encode("ascii")


if __name__ == "__main__":
    main()
