"""The command ``regwright``, and ``python -m regwright``."""

import atexit
import gc

# Before anything else is imported: the process is short and the model has no cycles to collect.
gc.disable()
# The interpreter collects once more when it ends; what ends with the process is left to it.
atexit.register(gc.freeze)

try:
    from regwright.cli import main
except KeyboardInterrupt:
    raise SystemExit(130) from None

if __name__ == "__main__":
    main()
