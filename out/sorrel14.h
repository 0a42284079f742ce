/* sorrel14.h: registers of Sorrel 14, the small 8-bit chip of the greenhouse controller
 *
 * Made by regwright from sorrel14.xml; change that file and emit again, not this one.
 * Checked against: Sorrel 14 data sheet, revision C, 2026-02.
 * The Sorrel chips are invented: no such part is sold.
 *
 * Caution: a wrong register value can damage hardware or hurt people near what it drives. Before
 * use, compare these numbers with the datasheet and its errata for your revision of the part, and
 * follow local codes; where licensed practice is required, have it checked there.
 */
#ifndef SORREL14_H
#define SORREL14_H

#if defined(REGWRIGHT_CHIP)
#error "sorrel14.h: another chip's header came before this one; a program is built for one chip"
#endif
#define REGWRIGHT_CHIP 1U
#define REGWRIGHT_CHIP_SORREL14 1U

/* Plain numbers, for C and for the assembler, which reads 0x0U but not 0U. */

/* CPU_STATUS: CPU status; 8 bits, read-write, data 0x22 (given), io 0x02 (given), reset 0x00, page 11 */
#define CPU_STATUS_DATA_ADDR 0x22U
#define CPU_STATUS_IO_ADDR 0x02U
#define CPU_STATUS_SINGLE_BIT 1U
#define CPU_STATUS_RESET 0x00U
/* CARRY: bit 7, read-write, reset 0x00 */
#define CPU_STATUS_CARRY_BITPOS 7U
#define CPU_STATUS_CARRY_MASK 0x80U
/* ZERO: bit 6, read-write, reset 0x00 */
#define CPU_STATUS_ZERO_BITPOS 6U
#define CPU_STATUS_ZERO_MASK 0x40U
/* MINUS: bit 5, read-write, reset 0x00 */
#define CPU_STATUS_MINUS_BITPOS 5U
#define CPU_STATUS_MINUS_MASK 0x20U
/* TRACE: bit 3, read-write, reset 0x00 */
#define CPU_STATUS_TRACE_BITPOS 3U
#define CPU_STATUS_TRACE_MASK 0x08U
/* LOCK: bit 1, read-write, reset 0x00 */
#define CPU_STATUS_LOCK_BITPOS 1U
#define CPU_STATUS_LOCK_MASK 0x02U
/* IRQ: bit 0, read-write, reset 0x00 */
#define CPU_STATUS_IRQ_BITPOS 0x0U
#define CPU_STATUS_IRQ_MASK 0x01U

/* STACK: Stack pointer, counted from the start of SRAM; 8 bits, read-write, data 0x23 (given), io 0x03 (given), reset 0xFF, page 12 */
#define STACK_DATA_ADDR 0x23U
#define STACK_IO_ADDR 0x03U
#define STACK_SINGLE_BIT 1U
#define STACK_RESET 0xFFU

/* WATCHDOG: Watchdog control; 8 bits, read-write, data 0x24 (given), io 0x04 (given), reset 0b000000x0, page 15 */
/* Reserved bits 0x10: write 0. */
/* Reserved bits 0x04: write 0. */
/* &= of another field may clear FLAG; use CLEAR for one flag. */
#define WATCHDOG_DATA_ADDR 0x24U
#define WATCHDOG_IO_ADDR 0x04U
#define WATCHDOG_SINGLE_BIT 1U
#define WATCHDOG_RESET 0x00U
#define WATCHDOG_RESET_DEFINED 0xFDU
/* PERIOD: 12 ms, doubled for each step; bits 7:5, read-write, reset 0x00 */
#define WATCHDOG_PERIOD_BITPOS 5U
#define WATCHDOG_PERIOD_MASK 0xE0U
/* FLAG: the watchdog has run out; bit 3, read-write, writing 0 clears it, reset 0x00 */
#define WATCHDOG_FLAG_BITPOS 3U
#define WATCHDOG_FLAG_MASK 0x08U
/* ENABLE: switches the watchdog on; bit 1, read-write, reset 0bx */
#define WATCHDOG_ENABLE_BITPOS 1U
#define WATCHDOG_ENABLE_MASK 0x02U
/* UNLOCK: must be 1 in the write that comes before a change; bit 0, read-write, reset 0x00 */
#define WATCHDOG_UNLOCK_BITPOS 0x0U
#define WATCHDOG_UNLOCK_MASK 0x01U

/* TMR0_CTRL: Timer 0 control; 8 bits, read-write, data 0x2A (given), io 0x0A (given), reset 0x00, page 21 */
/* Reserved bits 0x80: write 0. */
/* Reserved bits 0x0F: write 0. */
#define TMR0_CTRL_DATA_ADDR 0x2AU
#define TMR0_CTRL_IO_ADDR 0x0AU
#define TMR0_CTRL_SINGLE_BIT 1U
#define TMR0_CTRL_RESET 0x00U
/* CLOCK: clock of the counter; bits 6:4, read-write, reset 0x00 */
#define TMR0_CTRL_CLOCK_BITPOS 4U
#define TMR0_CTRL_CLOCK_MASK 0x70U
#define TMR0_CTRL_CLOCK_STOPPED 0x00U
#define TMR0_CTRL_CLOCK_DIV1 0x10U
#define TMR0_CTRL_CLOCK_DIV4 0x20U
#define TMR0_CTRL_CLOCK_DIV16 0x30U
#define TMR0_CTRL_CLOCK_DIV64 0x40U
#define TMR0_CTRL_CLOCK_DIV256 0x50U

/* TMR0_COUNT: Timer 0 counter; 8 bits, read-write, data 0x2B (given), io 0x0B (given), reset 0x00, page 21 */
#define TMR0_COUNT_DATA_ADDR 0x2BU
#define TMR0_COUNT_IO_ADDR 0x0BU
#define TMR0_COUNT_SINGLE_BIT 1U
#define TMR0_COUNT_RESET 0x00U

/* TMR0_COMPARE: Timer 0 compare; 8 bits, read-write, data 0x2C (given), io 0x0C (given), reset 0xFF, page 22 */
#define TMR0_COMPARE_DATA_ADDR 0x2CU
#define TMR0_COMPARE_IO_ADDR 0x0CU
#define TMR0_COMPARE_SINGLE_BIT 1U
#define TMR0_COMPARE_RESET 0xFFU

/* TMR_IRQ: Timer interrupt enable; 8 bits, read-write, data 0x2D (given), io 0x0D (given), reset 0x00, page 23 */
#define TMR_IRQ_DATA_ADDR 0x2DU
#define TMR_IRQ_IO_ADDR 0x0DU
#define TMR_IRQ_SINGLE_BIT 1U
#define TMR_IRQ_RESET 0x00U
/* MATCH: bit 4, read-write, reset 0x00 */
#define TMR_IRQ_MATCH_BITPOS 4U
#define TMR_IRQ_MATCH_MASK 0x10U
/* OVERFLOW: bit 3, read-write, reset 0x00 */
#define TMR_IRQ_OVERFLOW_BITPOS 3U
#define TMR_IRQ_OVERFLOW_MASK 0x08U

/* TMR_FLAGS: Timer flags; 8 bits, read-write, data 0x2E (given), io 0x0E (given), reset 0x00, page 23 */
/* Reserved bits 0xE0: write 0. */
/* Reserved bits 0x07: write 0. */
/* |= and INSERT of a value read here clear MATCH, OVERFLOW; use CLEAR for one flag. */
#define TMR_FLAGS_DATA_ADDR 0x2EU
#define TMR_FLAGS_IO_ADDR 0x0EU
#define TMR_FLAGS_SINGLE_BIT 1U
#define TMR_FLAGS_RESET 0x00U
/* MATCH: timer 0 has reached its compare value; bit 4, read-write, writing 1 clears it, reset 0x00 */
#define TMR_FLAGS_MATCH_BITPOS 4U
#define TMR_FLAGS_MATCH_MASK 0x10U
/* OVERFLOW: timer 0 has overflowed; bit 3, read-write, writing 1 clears it, reset 0x00 */
#define TMR_FLAGS_OVERFLOW_BITPOS 3U
#define TMR_FLAGS_OVERFLOW_MASK 0x08U

/* DIR_A: Port A direction; 8 bits, read-write, data 0x34 (given), io 0x14 (given), reset 0x00, page 31 */
#define DIR_A_DATA_ADDR 0x34U
#define DIR_A_IO_ADDR 0x14U
#define DIR_A_SINGLE_BIT 1U
#define DIR_A_RESET 0x00U
/* PINS: 1 makes the pin an output; bits 7:0, read-write, reset 0x00 */
#define DIR_A_PINS_BITPOS 0x0U
#define DIR_A_PINS_MASK 0xFFU

/* OUT_A: Port A output latch; 8 bits, read-write, data 0x35 (given), io 0x15 (given), reset 0x00, page 31 */
#define OUT_A_DATA_ADDR 0x35U
#define OUT_A_IO_ADDR 0x15U
#define OUT_A_SINGLE_BIT 1U
#define OUT_A_RESET 0x00U
/* PINS: output level, or pull-up while the pin is an input; bits 7:0, read-write, reset 0x00 */
#define OUT_A_PINS_BITPOS 0x0U
#define OUT_A_PINS_MASK 0xFFU

/* IN_A: Port A input pins; 8 bits, read-only, data 0x36 (given), io 0x16 (given), reset 0bxxxxxxxx, page 31 */
#define IN_A_DATA_ADDR 0x36U
#define IN_A_IO_ADDR 0x16U
#define IN_A_SINGLE_BIT 1U
#define IN_A_RESET 0x00U
#define IN_A_RESET_DEFINED 0x00U
/* PINS: the level at each pin; bits 7:0, read-only, reset 0bxxxxxxxx */
#define IN_A_PINS_BITPOS 0x0U
#define IN_A_PINS_MASK 0xFFU

/* DIR_B: Port B direction; 8 bits, read-write, data 0x37 (given), io 0x17 (given), reset 0x00, page 32 */
/* Reserved bits 0xC0: write 0. */
#define DIR_B_DATA_ADDR 0x37U
#define DIR_B_IO_ADDR 0x17U
#define DIR_B_SINGLE_BIT 1U
#define DIR_B_RESET 0x00U
/* PINS: 1 makes the pin an output; bits 5:0, read-write, reset 0x00 */
#define DIR_B_PINS_BITPOS 0x0U
#define DIR_B_PINS_MASK 0x3FU

/* OUT_B: Port B output latch; 8 bits, read-write, data 0x38 (given), io 0x18 (given), reset 0x00, page 32 */
/* Reserved bits 0xC0: write 0. */
#define OUT_B_DATA_ADDR 0x38U
#define OUT_B_IO_ADDR 0x18U
#define OUT_B_SINGLE_BIT 1U
#define OUT_B_RESET 0x00U
/* PULLS: pull-up of pins 5 to 3 while they are inputs; bits 5:3, read-write, reset 0x00 */
#define OUT_B_PULLS_BITPOS 3U
#define OUT_B_PULLS_MASK 0x38U
/* LED: status lamp; bit 2, read-write, reset 0x00 */
#define OUT_B_LED_BITPOS 2U
#define OUT_B_LED_MASK 0x04U
/* VENT_CLOSE: runs the vent motor in the closing direction; bit 1, read-write, reset 0x00 */
#define OUT_B_VENT_CLOSE_BITPOS 1U
#define OUT_B_VENT_CLOSE_MASK 0x02U
/* VENT_OPEN: runs the vent motor in the opening direction; bit 0, read-write, reset 0x00 */
#define OUT_B_VENT_OPEN_BITPOS 0x0U
#define OUT_B_VENT_OPEN_MASK 0x01U

/* IN_B: Port B input pins; 8 bits, read-only, data 0x39 (given), io 0x19 (given), reset 0b00xxxxxx, page 32 */
#define IN_B_DATA_ADDR 0x39U
#define IN_B_IO_ADDR 0x19U
#define IN_B_SINGLE_BIT 1U
#define IN_B_RESET 0x00U
#define IN_B_RESET_DEFINED 0xC0U
/* PINS: the level at each pin; bits 5:0, read-only, reset 0bxxxxxx */
#define IN_B_PINS_BITPOS 0x0U
#define IN_B_PINS_MASK 0x3FU

/* NVM_ADDRESS: EEPROM address; 8 bits, read-write, data 0x4D (given), io 0x2D (given), reset 0x00, page 38 */
#define NVM_ADDRESS_DATA_ADDR 0x4DU
#define NVM_ADDRESS_IO_ADDR 0x2DU
#define NVM_ADDRESS_SINGLE_BIT 0x0U
#define NVM_ADDRESS_RESET 0x00U

/* NVM_DATA: EEPROM data; 8 bits, read-write, data 0x4E (given), io 0x2E (given), reset 0x00, page 38 */
#define NVM_DATA_DATA_ADDR 0x4EU
#define NVM_DATA_IO_ADDR 0x2EU
#define NVM_DATA_SINGLE_BIT 0x0U
#define NVM_DATA_RESET 0x00U

/* NVM_CTRL: EEPROM control; 8 bits, read-write, data 0x4F (given), io 0x2F (given), reset 0x00, page 39 */
#define NVM_CTRL_DATA_ADDR 0x4FU
#define NVM_CTRL_IO_ADDR 0x2FU
#define NVM_CTRL_SINGLE_BIT 0x0U
#define NVM_CTRL_RESET 0x00U
/* READ: bit 7, read-write, reset 0x00 */
#define NVM_CTRL_READ_BITPOS 7U
#define NVM_CTRL_READ_MASK 0x80U
/* WRITE: bit 6, read-write, reset 0x00 */
#define NVM_CTRL_WRITE_BITPOS 6U
#define NVM_CTRL_WRITE_MASK 0x40U
/* UNLOCK: bit 4, read-write, reset 0x00 */
#define NVM_CTRL_UNLOCK_BITPOS 4U
#define NVM_CTRL_UNLOCK_MASK 0x10U
/* IRQ: bit 1, read-write, reset 0x00 */
#define NVM_CTRL_IRQ_BITPOS 1U
#define NVM_CTRL_IRQ_MASK 0x02U

/* ADC_CTRL: Converter control; 8 bits, read-write, data 0x55 (given), io 0x35 (given), reset 0x00, page 44 */
/* Reserved bits 0x10: write 0. */
/* |= and INSERT of a value read here clear DONE; use CLEAR for one flag. */
#define ADC_CTRL_DATA_ADDR 0x55U
#define ADC_CTRL_IO_ADDR 0x35U
#define ADC_CTRL_SINGLE_BIT 0x0U
#define ADC_CTRL_RESET 0x00U
/* CLOCK: divides the CPU clock for the converter; bits 7:5, read-write, reset 0x00 */
#define ADC_CTRL_CLOCK_BITPOS 5U
#define ADC_CTRL_CLOCK_MASK 0xE0U
#define ADC_CTRL_CLOCK_DIV1 0x00U
#define ADC_CTRL_CLOCK_DIV2 0x20U
#define ADC_CTRL_CLOCK_DIV4 0x40U
#define ADC_CTRL_CLOCK_DIV8 0x60U
#define ADC_CTRL_CLOCK_DIV16 0x80U
#define ADC_CTRL_CLOCK_DIV32 0xA0U
#define ADC_CTRL_CLOCK_DIV64 0xC0U
#define ADC_CTRL_CLOCK_DIV128 0xE0U
/* DONE: a result is ready; bit 3, read-write, writing 1 clears it, reset 0x00 */
#define ADC_CTRL_DONE_BITPOS 3U
#define ADC_CTRL_DONE_MASK 0x08U
/* IRQ: asks for an interrupt when a result is ready; bit 2, read-write, reset 0x00 */
#define ADC_CTRL_IRQ_BITPOS 2U
#define ADC_CTRL_IRQ_MASK 0x04U
/* START: starts a conversion; 1 until it has ended; bit 1, read-write, reset 0x00 */
#define ADC_CTRL_START_BITPOS 1U
#define ADC_CTRL_START_MASK 0x02U
/* ENABLE: switches the converter on; bit 0, read-write, reset 0x00 */
#define ADC_CTRL_ENABLE_BITPOS 0x0U
#define ADC_CTRL_ENABLE_MASK 0x01U

/* ADC_MUX: Converter input; 8 bits, read-write, data 0x56 (given), io 0x36 (given), reset 0x00, page 45 */
/* Reserved bits 0x18: write 0. */
#define ADC_MUX_DATA_ADDR 0x56U
#define ADC_MUX_IO_ADDR 0x36U
#define ADC_MUX_SINGLE_BIT 0x0U
#define ADC_MUX_RESET 0x00U
/* REFERENCE: what counts as full scale; bits 7:6, read-write, reset 0x00 */
#define ADC_MUX_REFERENCE_BITPOS 6U
#define ADC_MUX_REFERENCE_MASK 0xC0U
#define ADC_MUX_REFERENCE_SUPPLY 0x00U
#define ADC_MUX_REFERENCE_PIN 0x40U
#define ADC_MUX_REFERENCE_INTERNAL 0x80U
/* CHANNEL: input; its high bit stands apart from the others; bits 5,2:0, read-write, reset 0x00, in pieces: EXTRACT and INSERT use an argument more than once */
#define ADC_MUX_CHANNEL_BITPOS 0x0U
#define ADC_MUX_CHANNEL_MASK 0x27U

/* ADC_RESULT: Converter result; 16 bits, read-only, data 0x57 (given), io 0x37 (given), reset 0x0000, page 46 */
/* Access the halves in order: read the low half first; they share ADC_TEMP. */
#define ADC_RESULT_DATA_ADDR 0x57U
#define ADC_RESULT_IO_ADDR 0x37U
#define ADC_RESULT_SINGLE_BIT 0x0U
#define ADC_RESULT_RESET 0x0000U
/* VALUE: the result, right-adjusted; bits 9:0, read-only, reset 0x000 */
#define ADC_RESULT_VALUE_BITPOS 0x0U
#define ADC_RESULT_VALUE_MASK 0x03FFU

/* ADC_RESULT_L: low half of Converter result; 8 bits, read-only, data 0x57 (given), io 0x37 (given), reset 0x00, page 46 */
#define ADC_RESULT_L_DATA_ADDR 0x57U
#define ADC_RESULT_L_IO_ADDR 0x37U
#define ADC_RESULT_L_SINGLE_BIT 0x0U
#define ADC_RESULT_L_RESET 0x00U

/* ADC_RESULT_H: high half of Converter result; 8 bits, read-only, data 0x58 (given), io 0x38 (given), reset 0x00, page 46 */
#define ADC_RESULT_H_DATA_ADDR 0x58U
#define ADC_RESULT_H_IO_ADDR 0x38U
#define ADC_RESULT_H_SINGLE_BIT 0x0U
#define ADC_RESULT_H_RESET 0x00U

/* Memories. UNITS counts addresses of its space, BYTES what they hold. */
/* FLASH: program memory; flash, in program space, 16 bits at each address, page 6 */
#define MEMORY_FLASH_PROGRAM_ADDR 0x00U
#define MEMORY_FLASH_UNITS 0x400U
#define MEMORY_FLASH_BYTES 2048U
#define MEMORY_FLASH_PAGE_UNITS 16U
#define MEMORY_FLASH_ERASE_UNITS 64U
/* SRAM: ram, in data space, page 6 */
#define MEMORY_SRAM_DATA_ADDR 0x60U
#define MEMORY_SRAM_UNITS 0x100U
#define MEMORY_SRAM_BYTES 256U
/* EEPROM: eeprom, in eeprom space, page 7 */
#define MEMORY_EEPROM_EEPROM_ADDR 0x00U
#define MEMORY_EEPROM_UNITS 0x40U
#define MEMORY_EEPROM_BYTES 64U
#define MEMORY_EEPROM_PAGE_UNITS 4U
#define MEMORY_EEPROM_ERASE_UNITS 4U
/* CONFIG: configuration bytes; configuration, in config space, page 51 */
#define MEMORY_CONFIG_CONFIG_ADDR 0x00U
#define MEMORY_CONFIG_UNITS 0x03U
#define MEMORY_CONFIG_BYTES 3U

/* Interrupt vectors. STEP: addresses that one takes; COUNT: the highest number plus 1. */
/* In program space, one address each. */
#define VECTORS_COUNT 5U
#define VECTORS_STEP 1U
/* RESET: power-on, reset pin, watchdog or supply watch; page 8 */
#define VECTOR_RESET_NUMBER 0x0U
#define VECTOR_RESET_PROGRAM_ADDR 0x00U
/* TMR0_MATCH: timer 0 has reached its compare value; page 8 */
#define VECTOR_TMR0_MATCH_NUMBER 1U
#define VECTOR_TMR0_MATCH_PROGRAM_ADDR 0x01U
/* TMR0_OVERFLOW: timer 0 has overflowed; page 8 */
#define VECTOR_TMR0_OVERFLOW_NUMBER 2U
#define VECTOR_TMR0_OVERFLOW_PROGRAM_ADDR 0x02U
/* NVM_READY: the EEPROM is ready; page 8 */
#define VECTOR_NVM_READY_NUMBER 3U
#define VECTOR_NVM_READY_PROGRAM_ADDR 0x03U
/* ADC_DONE: a conversion has ended; page 8 */
#define VECTOR_ADC_DONE_NUMBER 4U
#define VECTOR_ADC_DONE_PROGRAM_ADDR 0x04U

/* Configuration. DEFAULT is what a delivered chip has; values of settings are in place. */
/* VERIFY_MASK has a 1 for each bit that must read back as it was written. */
/* Caution: supply-watch = on and supply-watch-level = above-4v0 needs hardware that may not be there: at a supply below 4.0 V the chip stays in reset, whatever the programmer sends */
/* The word low: clock; 8 bits, page 52 */
#define SETTINGS_LOW_CONFIG_ADDR 0x00U
#define SETTINGS_LOW_DEFAULT 0x62U
#define SETTINGS_LOW_VERIFY_MASK 0xFFU
/* clock-divider: divides the clock of the CPU; bit 7 */
#define SETTING_CLOCK_DIVIDER_BITPOS 7U
#define SETTING_CLOCK_DIVIDER_MASK 0x80U
#define SETTING_CLOCK_DIVIDER_DIVIDE_BY_8 0x00U
#define SETTING_CLOCK_DIVIDER_OFF 0x80U
/* clock-source: where the clock comes from; bits 6:4 */
/* Caution: clock-source = external needs hardware that may not be there: without a clock signal at pin XIN the chip stands still, and the programmer cannot reach it either */
/* Caution: clock-source = watch-crystal needs hardware that may not be there: without a crystal and its capacitors at XIN and XOUT the chip stands still, and the programmer cannot reach it either */
/* Caution: clock-source = crystal needs hardware that may not be there: without a crystal and its capacitors at XIN and XOUT the chip stands still, and the programmer cannot reach it either */
#define SETTING_CLOCK_SOURCE_BITPOS 4U
#define SETTING_CLOCK_SOURCE_MASK 0x70U
#define SETTING_CLOCK_SOURCE_EXTERNAL 0x00U
#define SETTING_CLOCK_SOURCE_WATCH_CRYSTAL 0x20U
#define SETTING_CLOCK_SOURCE_CRYSTAL 0x30U
#define SETTING_CLOCK_SOURCE_INTERNAL_64KHZ 0x50U
#define SETTING_CLOCK_SOURCE_INTERNAL_8MHZ 0x60U
/* start-up-delay: how long the chip waits after power-on; bits 3:2 */
#define SETTING_START_UP_DELAY_BITPOS 2U
#define SETTING_START_UP_DELAY_MASK 0x0CU
#define SETTING_START_UP_DELAY_WAIT_60MS 0x00U
#define SETTING_START_UP_DELAY_WAIT_5MS 0x04U
#define SETTING_START_UP_DELAY_NONE 0x08U
/* supply-watch: resets the chip when the supply is too low; bit 0 */
#define SETTING_SUPPLY_WATCH_BITPOS 0x0U
#define SETTING_SUPPLY_WATCH_MASK 0x01U
#define SETTING_SUPPLY_WATCH_ON 0x00U
#define SETTING_SUPPLY_WATCH_OFF 0x01U
/* The word high: pins and programming; 8 bits, page 53 */
#define SETTINGS_HIGH_CONFIG_ADDR 0x01U
#define SETTINGS_HIGH_DEFAULT 0xBBU
#define SETTINGS_HIGH_VERIFY_MASK 0xFFU
/* reset-pin: what the reset pin does; bit 7 */
/* Caution: reset-pin = unconnected can keep the programmer or debugger out: a programmer in the circuit starts with the reset pin and cannot reach the chip any more */
#define SETTING_RESET_PIN_BITPOS 7U
#define SETTING_RESET_PIN_MASK 0x80U
#define SETTING_RESET_PIN_UNCONNECTED 0x00U
#define SETTING_RESET_PIN_RESET 0x80U
/* serial-programming: lets a programmer in the circuit reach the chip; bit 6 */
/* Caution: serial-programming = off can keep the programmer or debugger out: a programmer in the circuit cannot reach the chip any more; only the parallel programmer at 12 V can */
#define SETTING_SERIAL_PROGRAMMING_BITPOS 6U
#define SETTING_SERIAL_PROGRAMMING_MASK 0x40U
#define SETTING_SERIAL_PROGRAMMING_ON 0x00U
#define SETTING_SERIAL_PROGRAMMING_OFF 0x40U
/* watchdog: who switches the watchdog on; bit 5 */
/* Caution: watchdog = always-on can keep the programmer or debugger out: a program that does not tend the watchdog is reset again and again, and cannot switch it off */
#define SETTING_WATCHDOG_BITPOS 5U
#define SETTING_WATCHDOG_MASK 0x20U
#define SETTING_WATCHDOG_ALWAYS_ON 0x00U
#define SETTING_WATCHDOG_BY_PROGRAM 0x20U
/* eeprom-in-erase: what an erase of the whole chip does to the EEPROM; bit 4 */
#define SETTING_EEPROM_IN_ERASE_BITPOS 4U
#define SETTING_EEPROM_IN_ERASE_MASK 0x10U
#define SETTING_EEPROM_IN_ERASE_KEEP 0x00U
#define SETTING_EEPROM_IN_ERASE_ERASE 0x10U
/* supply-watch-level: where the supply watch acts; bits 3:2 */
#define SETTING_SUPPLY_WATCH_LEVEL_BITPOS 2U
#define SETTING_SUPPLY_WATCH_LEVEL_MASK 0x0CU
#define SETTING_SUPPLY_WATCH_LEVEL_ABOVE_4V0 0x00U
#define SETTING_SUPPLY_WATCH_LEVEL_ABOVE_2V6 0x04U
#define SETTING_SUPPLY_WATCH_LEVEL_ABOVE_1V8 0x08U
/* The word lock: lock bits; 8 bits, locks memories, page 54 */
#define SETTINGS_LOCK_CONFIG_ADDR 0x02U
#define SETTINGS_LOCK_DEFAULT 0xFFU
#define SETTINGS_LOCK_VERIFY_MASK 0xFFU
/* memory-lock: what a programmer may do; bits 1:0 */
/* Caution: memory-lock = no-read-no-write can keep the programmer or debugger out: only an erase of the whole chip takes the lock away, and the program and the EEPROM with it */
/* Caution: memory-lock = no-write can keep the programmer or debugger out: only an erase of the whole chip takes the lock away, and the program and the EEPROM with it */
#define SETTING_MEMORY_LOCK_BITPOS 0x0U
#define SETTING_MEMORY_LOCK_MASK 0x03U
#define SETTING_MEMORY_LOCK_NO_READ_NO_WRITE 0x00U
#define SETTING_MEMORY_LOCK_NO_WRITE 0x02U
#define SETTING_MEMORY_LOCK_NONE 0x03U

/* Clock. */
/* As delivered, the CPU has 1 MHz (900 kHz to 1.1 MHz). */
/* internal-8mhz: 8 MHz, 10 % off at most */
/* start-divider: divided by 8 (clock-divider = divide-by-8) */
#define CPU_DEFAULT_HZ 1000000U

/* Identity: the bytes by which a programmer knows the chip. */
/* Page 50. */
#define IDENTITY_BYTES 3U
#define IDENTITY_BYTE0 0x5AU
#define IDENTITY_BYTE1 0x14U
#define IDENTITY_BYTE2 0x01U

/* Ports: the bits that each has, and at which bit a function is. */
/* Port A: bits 7:0, in DIR_A, OUT_A, IN_A, page 30 */
#define PORT_A_MASK 0xFFU
#define FUNCTION_ADC7_BITPOS 7U
#define FUNCTION_ADC7_MASK 0x80U
#define FUNCTION_ADC6_BITPOS 6U
#define FUNCTION_ADC6_MASK 0x40U
#define FUNCTION_ADC5_BITPOS 5U
#define FUNCTION_ADC5_MASK 0x20U
#define FUNCTION_ADC4_BITPOS 4U
#define FUNCTION_ADC4_MASK 0x10U
#define FUNCTION_ADC3_BITPOS 3U
#define FUNCTION_ADC3_MASK 0x08U
#define FUNCTION_SER_CLOCK_BITPOS 3U
#define FUNCTION_SER_CLOCK_MASK 0x08U
#define FUNCTION_ADC2_BITPOS 2U
#define FUNCTION_ADC2_MASK 0x04U
#define FUNCTION_SER_OUT_BITPOS 2U
#define FUNCTION_SER_OUT_MASK 0x04U
#define FUNCTION_ADC1_BITPOS 1U
#define FUNCTION_ADC1_MASK 0x02U
#define FUNCTION_SER_IN_BITPOS 1U
#define FUNCTION_SER_IN_MASK 0x02U
#define FUNCTION_ADC0_BITPOS 0x0U
#define FUNCTION_ADC0_MASK 0x01U
/* Port B: bits 5:0, in DIR_B, OUT_B, IN_B, page 30 */
#define PORT_B_MASK 0x3FU
#define FUNCTION_VENT_OPEN_BITPOS 0x0U
#define FUNCTION_VENT_OPEN_MASK 0x01U
#define FUNCTION_VENT_CLOSE_BITPOS 1U
#define FUNCTION_VENT_CLOSE_MASK 0x02U
#define FUNCTION_LED_BITPOS 2U
#define FUNCTION_LED_MASK 0x04U
#define FUNCTION_TMR0_PIN_BITPOS 5U
#define FUNCTION_TMR0_PIN_MASK 0x20U

/* Packages: numbers of pins. A name that several pins have is left out. */
/* DUAL20: 20 pins in two rows; 20 pins, page 3 */
#define PIN_DUAL20_RESET 1U
#define PIN_DUAL20_B0 2U
#define PIN_DUAL20_B1 3U
#define PIN_DUAL20_B2 4U
#define PIN_DUAL20_GND 5U
#define PIN_DUAL20_XIN 6U
#define PIN_DUAL20_XOUT 7U
#define PIN_DUAL20_B3 8U
#define PIN_DUAL20_B4 9U
#define PIN_DUAL20_B5 10U
#define PIN_DUAL20_A7 11U
#define PIN_DUAL20_A6 12U
#define PIN_DUAL20_A5 13U
#define PIN_DUAL20_A4 14U
#define PIN_DUAL20_AREF 15U
#define PIN_DUAL20_VCC 16U
#define PIN_DUAL20_A3 17U
#define PIN_DUAL20_A2 18U
#define PIN_DUAL20_A1 19U
#define PIN_DUAL20_A0 20U

/* A program that names its clock CPU_CLOCK_HZ before this header is compared with the default. */
/* It must be an integer that #if can read: no cast, no decimal point. A program that sets another */
/* clock by itself, or is for a chip with other settings, defines REGWRIGHT_CLOCK_CHANGES. */
#if defined(CPU_CLOCK_HZ) && !defined(REGWRIGHT_CLOCK_CHANGES)
#if (CPU_CLOCK_HZ + 0) != CPU_DEFAULT_HZ
#if defined(__GNUC__)
#pragma GCC warning "CPU_CLOCK_HZ is not CPU_DEFAULT_HZ: as delivered, sorrel14 runs at 1 MHz (900 kHz to 1.1 MHz); correct it, or define REGWRIGHT_CLOCK_CHANGES"
#elif defined(__STDC_VERSION__) && __STDC_VERSION__ >= 202311L || defined(__cplusplus) && __cplusplus >= 202302L
#warning "CPU_CLOCK_HZ is not CPU_DEFAULT_HZ: as delivered, sorrel14 runs at 1 MHz (900 kHz to 1.1 MHz); correct it, or define REGWRIGHT_CLOCK_CHANGES"
#else
#pragma message("CPU_CLOCK_HZ is not CPU_DEFAULT_HZ: as delivered, sorrel14 runs at 1 MHz (900 kHz to 1.1 MHz); correct it, or define REGWRIGHT_CLOCK_CHANGES")
#endif
#endif
#endif

#ifndef __ASSEMBLER__
#include <stdint.h>

/* How C reaches a register. Define these beforehand to run the same code on another machine. */
#ifndef SORREL14_READ8
#define SORREL14_READ8(address) (*(const volatile uint8_t *)(address))
#endif
#ifndef SORREL14_READ16
#define SORREL14_READ16(address) (*(const volatile uint16_t *)(address))
#endif
#ifndef SORREL14_REG8
#define SORREL14_REG8(address) (*(volatile uint8_t *)(address))
#endif

#define CPU_STATUS SORREL14_REG8(CPU_STATUS_DATA_ADDR)
#define STACK SORREL14_REG8(STACK_DATA_ADDR)
#define WATCHDOG SORREL14_REG8(WATCHDOG_DATA_ADDR)
#define WATCHDOG_PERIOD_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0xE0U) >> 5)))
#define WATCHDOG_PERIOD_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x1FU) | (((uint8_t)(field) & 0x07U) << 5)))
#define WATCHDOG_FLAG_TO_CLEAR(value) ((uint8_t)(((uint8_t)(value) & 0xE3U) | 0x00U))
#define WATCHDOG_FLAG_CLEAR() (WATCHDOG = WATCHDOG_FLAG_TO_CLEAR(WATCHDOG))
#define TMR0_CTRL SORREL14_REG8(TMR0_CTRL_DATA_ADDR)
#define TMR0_CTRL_CLOCK_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0x70U) >> 4)))
#define TMR0_CTRL_CLOCK_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x8FU) | (((uint8_t)(field) & 0x07U) << 4)))
#define TMR0_COUNT SORREL14_REG8(TMR0_COUNT_DATA_ADDR)
#define TMR0_COMPARE SORREL14_REG8(TMR0_COMPARE_DATA_ADDR)
#define TMR_IRQ SORREL14_REG8(TMR_IRQ_DATA_ADDR)
#define TMR_FLAGS SORREL14_REG8(TMR_FLAGS_DATA_ADDR)
#define TMR_FLAGS_MATCH_TO_CLEAR(value) ((uint8_t)0x10U)
#define TMR_FLAGS_MATCH_CLEAR() (TMR_FLAGS = TMR_FLAGS_MATCH_TO_CLEAR(TMR_FLAGS))
#define TMR_FLAGS_OVERFLOW_TO_CLEAR(value) ((uint8_t)0x08U)
#define TMR_FLAGS_OVERFLOW_CLEAR() (TMR_FLAGS = TMR_FLAGS_OVERFLOW_TO_CLEAR(TMR_FLAGS))
#define DIR_A SORREL14_REG8(DIR_A_DATA_ADDR)
#define DIR_A_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define DIR_A_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define OUT_A SORREL14_REG8(OUT_A_DATA_ADDR)
#define OUT_A_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define OUT_A_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define IN_A SORREL14_READ8(IN_A_DATA_ADDR)
#define IN_A_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define IN_A_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define DIR_B SORREL14_REG8(DIR_B_DATA_ADDR)
#define DIR_B_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x3FU)))
#define DIR_B_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xC0U) | ((uint8_t)(field) & 0x3FU)))
#define OUT_B SORREL14_REG8(OUT_B_DATA_ADDR)
#define OUT_B_PULLS_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0x38U) >> 3)))
#define OUT_B_PULLS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xC7U) | (((uint8_t)(field) & 0x07U) << 3)))
#define IN_B SORREL14_READ8(IN_B_DATA_ADDR)
#define IN_B_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x3FU)))
#define IN_B_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xC0U) | ((uint8_t)(field) & 0x3FU)))
#define NVM_ADDRESS SORREL14_REG8(NVM_ADDRESS_DATA_ADDR)
#define NVM_DATA SORREL14_REG8(NVM_DATA_DATA_ADDR)
#define NVM_CTRL SORREL14_REG8(NVM_CTRL_DATA_ADDR)
#define ADC_CTRL SORREL14_REG8(ADC_CTRL_DATA_ADDR)
#define ADC_CTRL_CLOCK_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0xE0U) >> 5)))
#define ADC_CTRL_CLOCK_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x1FU) | (((uint8_t)(field) & 0x07U) << 5)))
#define ADC_CTRL_DONE_TO_CLEAR(value) ((uint8_t)(((uint8_t)(value) & 0xE7U) | 0x08U))
#define ADC_CTRL_DONE_CLEAR() (ADC_CTRL = ADC_CTRL_DONE_TO_CLEAR(ADC_CTRL))
#define ADC_MUX SORREL14_REG8(ADC_MUX_DATA_ADDR)
#define ADC_MUX_REFERENCE_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0xC0U) >> 6)))
#define ADC_MUX_REFERENCE_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x3FU) | (((uint8_t)(field) & 0x03U) << 6)))
#define ADC_MUX_CHANNEL_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x07U) | (((uint8_t)(value) & 0x20U) >> 2)))
#define ADC_MUX_CHANNEL_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xD8U) | ((uint8_t)(field) & 0x07U) | (((uint8_t)(field) & 0x08U) << 2)))
#define ADC_RESULT SORREL14_READ16(ADC_RESULT_DATA_ADDR)
#define ADC_RESULT_READ_INTO(variable) ((variable) = ((uint16_t)ADC_RESULT_L), (variable) = (uint16_t)((variable) | ((uint16_t)(((uint16_t)ADC_RESULT_H) << 8))))
#define ADC_RESULT_VALUE_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0x03FFU)))
#define ADC_RESULT_VALUE_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0xFC00U) | ((uint16_t)(field) & 0x03FFU)))
#define ADC_RESULT_L SORREL14_READ8(ADC_RESULT_L_DATA_ADDR)
#define ADC_RESULT_H SORREL14_READ8(ADC_RESULT_H_DATA_ADDR)

/* What tools call the chip. */
#define BUILD_TARGET "sorrel14"
#define BUILD_INSTRUCTION_SET "sorrel8"
#define BUILD_PROGRAMMER_PART "s14"

#endif /* __ASSEMBLER__ */
#endif /* SORREL14_H */
