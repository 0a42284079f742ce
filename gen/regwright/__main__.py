"""Run the command line as ``python -m regwright``."""

from regwright.cli import main

if __name__ == "__main__":
    main()
