"""How fast the CPU runs, how fast it may run, and what timers and serial ports make of it."""
