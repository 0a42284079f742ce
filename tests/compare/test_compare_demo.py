"""What differs between the two Sorrel chips besides registers, read off their descriptions by hand.

Someone who knows both chips has gone through the list: each row is there, and nothing else.
"""

from __future__ import annotations

from compare_runs import examples

from regwright.compare.rest_kinds import REST

#: What it is about, what of it, and both sides; empty for what a chip does not have.
ROWS = [
    # Eight times the program memory, in larger pages.
    ("memory FLASH", "size", "0x400 units (2048 bytes)", "0x2000 units (16384 bytes)"),
    ("memory FLASH", "written at once", "0x10 units (32 bytes)", "0x40 units (128 bytes)"),
    ("memory FLASH", "erased at once", "0x40 units (128 bytes)", "0x100 units (512 bytes)"),
    ("memory SRAM", "start", "data 0x60", "data 0x140"),
    ("memory SRAM", "size", "0x100 units (256 bytes)", "0x500 units (1280 bytes)"),
    ("memory EEPROM", "size", "0x40 units (64 bytes)", "0x200 units (512 bytes)"),
    ("memory EEPROM", "written at once", "0x4 units (4 bytes)", "0x8 units (8 bytes)"),
    ("memory EEPROM", "erased at once", "0x4 units (4 bytes)", "0x8 units (8 bytes)"),
    ("memory CONFIG", "size", "0x3 units (3 bytes)", "0x4 units (4 bytes)"),
    # Each vector takes two units; those of timer 1 come first. RESET stays at 0.
    (
        *("vectors", "table", "1 unit each, program from 0x00 on"),
        "2 units each, program from 0x00 on",
    ),
    ("vector TMR0_MATCH", "vector number", "1", "4"),
    ("vector TMR0_MATCH", "vector address", "program 0x01", "program 0x08"),
    ("vector TMR0_OVERFLOW", "vector number", "2", "5"),
    ("vector TMR0_OVERFLOW", "vector address", "program 0x02", "program 0x0A"),
    ("vector NVM_READY", "vector number", "3", "7"),
    ("vector NVM_READY", "vector address", "program 0x03", "program 0x0E"),
    ("vector ADC_DONE", "vector number", "4", "6"),
    ("vector ADC_DONE", "vector address", "program 0x04", "program 0x0C"),
    ("vector TMR1_CAPTURE", "vector", "", "number 1, program 0x02"),
    ("vector TMR1_MATCH", "vector", "", "number 2, program 0x04"),
    ("vector TMR1_OVERFLOW", "vector", "", "number 3, program 0x06"),
    ("vector UART0_RX", "vector", "", "number 8, program 0x10"),
    ("vector UART0_EMPTY", "vector", "", "number 9, program 0x12"),
    ("vector UART1_RX", "vector", "", "number 10, program 0x14"),
    ("vector UART1_EMPTY", "vector", "", "number 11, program 0x16"),
    # Two of three bytes have other names; the lock byte is one further.
    ("word low", "name", "low", "clock"),
    ("word low", "as delivered", "0x62", "0xF7"),
    ("word low", "unused bits", "0x02: 1", "0x08: 0"),
    ("word high", "name", "high", "start"),
    ("word high", "as delivered", "0xBB", "0x7D"),
    ("word high", "unused bits", "0x03: 1", "0x1C: 1"),
    ("word lock", "address", "0x2", "0x3"),
    ("word lock", "unused bits", "0xFC: 1", "0x3F: 1"),
    # The watchdog alone is where it was; it is bit 5 of the second byte in both.
    ("setting clock-divider", "stands in", "low bit 7", "clock bits 5:4"),
    ("setting clock-divider", "as delivered", "divide-by-8", "divide-by-16"),
    ("setting clock-divider = divide-by-8", "choice", "0b0", ""),
    ("setting clock-divider = off", "value", "0b1", "0b00"),
    ("setting clock-divider = divide-by-2", "choice", "", "0b01"),
    ("setting clock-divider = divide-by-4", "choice", "", "0b10"),
    ("setting clock-divider = divide-by-16", "choice", "", "0b11"),
    ("setting clock-source", "stands in", "low bits 6:4", "clock bits 7:6"),
    ("setting clock-source", "as delivered", "internal-8mhz", "internal-16mhz"),
    ("setting clock-source = watch-crystal", "choice", "0b010", ""),
    ("setting clock-source = crystal", "value", "0b011", "0b01"),
    ("setting clock-source = internal-64khz", "choice", "0b101", ""),
    ("setting clock-source = internal-8mhz", "choice", "0b110", ""),
    ("setting clock-source = internal-16mhz", "choice", "", "0b11"),
    ("setting start-up-delay", "stands in", "low bits 3:2", "clock bits 2:1"),
    ("setting start-up-delay = wait-60ms", "value", "0b00", "0b11"),
    ("setting start-up-delay = none", "value", "0b10", "0b00"),
    ("setting supply-watch", "name of its bits", "WATCH", "LEVEL"),
    ("setting supply-watch", "stands in", "low bit 0", "start bits 1:0"),
    ("setting supply-watch", "as delivered", "on", "below-1v9"),
    ("setting supply-watch = on", "choice", "0b0", ""),
    ("setting supply-watch = off", "value", "0b1", "0b11"),
    ("setting supply-watch = below-2v8", "choice", "", "0b00"),
    ("setting supply-watch = below-1v9", "choice", "", "0b01"),
    ("setting reset-pin", "setting", "high bit 7, reset as delivered", ""),
    ("setting serial-programming", "setting", "high bit 6, on as delivered", ""),
    ("setting eeprom-in-erase", "setting", "high bit 4, erase as delivered", ""),
    ("setting supply-watch-level", "setting", "high bits 3:2, above-1v8 as delivered", ""),
    ("setting memory-lock", "setting", "lock bits 1:0, none as delivered", ""),
    ("setting clock-output", "setting", "", "clock bit 0, unprogrammed as delivered"),
    ("setting debug-port", "setting", "", "start bit 7, on as delivered"),
    ("setting start-program", "setting", "", "start bit 6, run as delivered"),
    ("setting program-lock", "setting", "", "lock bit 7, open as delivered"),
    ("setting eeprom-lock", "setting", "", "lock bit 6, open as delivered"),
    (
        *("hazard no-serial-programming", "hazard"),
        "locks-out: a programmer in the circuit cannot reach the chip any more; only the parallel "
        "programmer at 12 V can",
        "",
    ),
    (
        *("hazard no-reset-pin", "hazard"),
        "locks-out: a programmer in the circuit starts with the reset pin and cannot reach the "
        "chip any more",
        "",
    ),
    (
        *("hazard held-in-reset", "hazard"),
        "needs-hardware: at a supply below 4.0 V the chip stays in reset, whatever the programmer "
        "sends",
        "",
    ),
    (
        *("hazard no-debug-port", "hazard", ""),
        "locks-out: debugger and programmer in the circuit cannot reach the chip any more; only "
        "the start program over UART0 can",
    ),
    (
        *("hazard no-start-program", "hazard", ""),
        "locks-out: nothing is left by which the chip could be programmed in the circuit",
    ),
    # As they are delivered both run at 1 MHz: 8 MHz over 8, 16 MHz over 16. No row for that.
    ("clock", "supply", "1.7 V to 5.5 V", "1.8 V to 3.6 V"),
    (
        *("clock", "fastest"),
        "3 MHz from 1.7 V on, 9 MHz from 2.5 V on, 18 MHz from 4.2 V on",
        "6 MHz from 1.8 V on, 24 MHz from 3 V on, on a line between",
    ),
    (
        *("clock source internal-8mhz", "source"),
        *("internal, 8 MHz, when clock-source = internal-8mhz", ""),
    ),
    (
        *("clock source internal-64khz", "source"),
        *("internal, 64 kHz, when clock-source = internal-64khz", ""),
    ),
    (
        *("clock source watch-crystal", "source"),
        *("crystal, 32.768 kHz, when clock-source = watch-crystal", ""),
    ),
    ("clock source crystal", "frequency", "400 kHz to 18 MHz", "1 MHz to 24 MHz"),
    ("clock source external", "frequency", "0 Hz to 18 MHz", "0 Hz to 24 MHz"),
    (
        *("clock source internal-16mhz", "source", ""),
        "internal, 16 MHz, when clock-source = internal-16mhz",
    ),
    (
        *("clock divider start-divider", "divides", "divide-by-8: ÷ 8, off: ÷ 1"),
        "divide-by-16: ÷ 16, divide-by-2: ÷ 2, divide-by-4: ÷ 4, off: ÷ 1",
    ),
    # The rate of timer 0 is made alike: its prescaler's values are the same numbers in both.
    ("rate timer-1", "rate", "", "timer: CPU clock / TMR1_CTRL.CLOCK / (TMR1_COMPARE + 1)"),
    ("rate sensor-line", "rate", "", "serial: CPU clock / 8 / (UART0_DIVISOR.VALUE + 1)"),
    ("rate display-line", "rate", "", "serial: CPU clock / 8 / (UART1_DIVISOR.VALUE + 1)"),
    # The converter's inputs are where they were; the motor and the lamp are not.
    ("port B", "bits", "bits 5:0", "bits 7,5:0"),
    ("port C", "port", "", "bits 7:0, DIR_C OUT_C IN_C"),
    ("function VENT_OPEN", "pin", "B.0", "B.4"),
    ("function VENT_CLOSE", "pin", "B.1", "B.5"),
    ("function LED", "pin", "B.2", "B.7"),
    ("function TMR0_PIN", "pin", "B.5", "C.5"),
    ("function SER_CLOCK", "function", "A.3", ""),
    ("function SER_OUT", "function", "A.2", ""),
    ("function SER_IN", "function", "A.1", ""),
    ("function UART0_RXD", "function", "", "C.0"),
    ("function UART0_TXD", "function", "", "C.1"),
    ("function UART1_RXD", "function", "", "C.2"),
    ("function UART1_TXD", "function", "", "C.3"),
    ("function TMR1_CAPTURE", "function", "", "C.4"),
    ("function DEBUG", "function", "", "C.6"),
    ("function CLOCK_OUT", "function", "", "C.7"),
    ("package DUAL20", "package", "dual, 20 pins", ""),
    ("package QUAD32", "package", "", "quad, 32 pins"),
    ("identity", "signature", "0x5A 0x14 0x01", "0x5A 0x40 0x02"),
    ("build", "compiler's name", "sorrel14", "sorrel40"),
    ("build", "instruction set", "sorrel8", "sorrel8x"),
    ("build", "programmer's name", "s14", "s40"),
]


def test_all_that_differs_and_nothing_else() -> None:
    run = examples()
    found = [
        (run.words.name(item), run.words.what(item), item.before, item.after)
        for item in run.changes
        if item.kind in REST
    ]
    assert found == ROWS


def test_parts_stand_under_their_headings() -> None:
    run = examples()
    assert [(heading, len(changes)) for heading, changes in run.outline.parts] == [
        ("Memories", 9),
        ("Interrupt vectors", 16),
        ("Configuration", 47),
        ("Clock", 12),
        ("Ports and pins", 18),
    ]


def test_only_the_words_are_not_certain() -> None:
    """They have no name in common, only a place."""
    run = examples()
    doubts = {
        run.words.name(item): run.words.doubt(item)
        for item in run.changes
        if item.kind in REST and run.words.doubt(item)
    }
    assert doubts == dict.fromkeys(("word low", "word high"), "perhaps: same place")
