/* sorrel40.h: registers of Sorrel 40, the large 8-bit chip of the greenhouse controller
 *
 * Made by regwright from sorrel40.json; change that file and emit again, not this one.
 * Checked against: Sorrel 40 data sheet, revision B, 2026-05.
 * The Sorrel chips are invented: no such part is sold.
 *
 * Caution: a wrong register value can damage hardware or hurt people near what it drives. Before
 * use, compare these numbers with the datasheet and its errata for your revision of the part, and
 * follow local codes; where licensed practice is required, have it checked there.
 */
#ifndef SORREL40_H
#define SORREL40_H

#if defined(REGWRIGHT_CHIP)
#error "sorrel40.h: another chip's header came before this one; a program is built for one chip"
#endif
#define REGWRIGHT_CHIP 1U
#define REGWRIGHT_CHIP_SORREL40 1U

/* Plain numbers, for C and for the assembler, which reads 0x0U but not 0U. */

/* CPU_STATUS: CPU status; 8 bits, read-write, data 0x24 (given), io 0x04 (given), reset 0x00, page 13 */
#define CPU_STATUS_DATA_ADDR 0x24U
#define CPU_STATUS_IO_ADDR 0x04U
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
/* WRAP: bit 4, read-write, reset 0x00 */
#define CPU_STATUS_WRAP_BITPOS 4U
#define CPU_STATUS_WRAP_MASK 0x10U
/* TRACE: bit 3, read-write, reset 0x00 */
#define CPU_STATUS_TRACE_BITPOS 3U
#define CPU_STATUS_TRACE_MASK 0x08U
/* LOCK: bit 1, read-write, reset 0x00 */
#define CPU_STATUS_LOCK_BITPOS 1U
#define CPU_STATUS_LOCK_MASK 0x02U
/* IRQ: bit 0, read-write, reset 0x00 */
#define CPU_STATUS_IRQ_BITPOS 0x0U
#define CPU_STATUS_IRQ_MASK 0x01U

/* STACK: Stack pointer; 16 bits, read-write, data 0x25 (given), io 0x05 (given), reset 0x063F, page 14 */
/* Reserved bits 0xF800: write 0. */
#define STACK_DATA_ADDR 0x25U
#define STACK_IO_ADDR 0x05U
#define STACK_SINGLE_BIT 1U
#define STACK_RESET 0x063FU
/* VALUE: the next free byte of SRAM; bits 10:0, read-write, reset 0x63F */
#define STACK_VALUE_BITPOS 0x0U
#define STACK_VALUE_MASK 0x07FFU

/* CLOCK_ENABLE: Clock of each peripheral; 8 bits, read-write, data 0x27 (given), io 0x07 (given), reset 0x1F, page 17 */
#define CLOCK_ENABLE_DATA_ADDR 0x27U
#define CLOCK_ENABLE_IO_ADDR 0x07U
#define CLOCK_ENABLE_SINGLE_BIT 1U
#define CLOCK_ENABLE_RESET 0x1FU
/* TMR0: bit 4, read-write, reset 0x01 */
#define CLOCK_ENABLE_TMR0_BITPOS 4U
#define CLOCK_ENABLE_TMR0_MASK 0x10U
/* TMR1: bit 3, read-write, reset 0x01 */
#define CLOCK_ENABLE_TMR1_BITPOS 3U
#define CLOCK_ENABLE_TMR1_MASK 0x08U
/* ADC: bit 2, read-write, reset 0x01 */
#define CLOCK_ENABLE_ADC_BITPOS 2U
#define CLOCK_ENABLE_ADC_MASK 0x04U
/* UART0: bit 1, read-write, reset 0x01 */
#define CLOCK_ENABLE_UART0_BITPOS 1U
#define CLOCK_ENABLE_UART0_MASK 0x02U
/* UART1: bit 0, read-write, reset 0x01 */
#define CLOCK_ENABLE_UART1_BITPOS 0x0U
#define CLOCK_ENABLE_UART1_MASK 0x01U

/* DIR_A: Port A direction; 8 bits, read-write, data 0x2C (given), io 0x0C (given), reset 0x00, page 31 */
#define DIR_A_DATA_ADDR 0x2CU
#define DIR_A_IO_ADDR 0x0CU
#define DIR_A_SINGLE_BIT 1U
#define DIR_A_RESET 0x00U
/* PINS: 1 makes the pin an output; bits 7:0, read-write, reset 0x00 */
#define DIR_A_PINS_BITPOS 0x0U
#define DIR_A_PINS_MASK 0xFFU

/* OUT_A: Port A output latch; 8 bits, read-write, data 0x2D (given), io 0x0D (given), reset 0x00, page 31 */
#define OUT_A_DATA_ADDR 0x2DU
#define OUT_A_IO_ADDR 0x0DU
#define OUT_A_SINGLE_BIT 1U
#define OUT_A_RESET 0x00U
/* PINS: output level, or pull-up while the pin is an input; bits 7:0, read-write, reset 0x00 */
#define OUT_A_PINS_BITPOS 0x0U
#define OUT_A_PINS_MASK 0xFFU

/* IN_A: Port A input pins; 8 bits, read-only, data 0x2E (given), io 0x0E (given), reset 0bxxxxxxxx, page 31 */
#define IN_A_DATA_ADDR 0x2EU
#define IN_A_IO_ADDR 0x0EU
#define IN_A_SINGLE_BIT 1U
#define IN_A_RESET 0x00U
#define IN_A_RESET_DEFINED 0x00U
/* PINS: the level at each pin; bits 7:0, read-only, reset 0bxxxxxxxx */
#define IN_A_PINS_BITPOS 0x0U
#define IN_A_PINS_MASK 0xFFU

/* DIR_B: Port B direction; 8 bits, read-write, data 0x2F (given), io 0x0F (given), reset 0x00, page 32 */
#define DIR_B_DATA_ADDR 0x2FU
#define DIR_B_IO_ADDR 0x0FU
#define DIR_B_SINGLE_BIT 1U
#define DIR_B_RESET 0x00U
/* PINS: 1 makes the pin an output; bits 7:0, read-write, reset 0x00 */
#define DIR_B_PINS_BITPOS 0x0U
#define DIR_B_PINS_MASK 0xFFU

/* OUT_B: Port B output latch; 8 bits, read-write, data 0x30 (given), io 0x10 (given), reset 0x00, page 32 */
/* Reserved bits 0x40: write 0. */
#define OUT_B_DATA_ADDR 0x30U
#define OUT_B_IO_ADDR 0x10U
#define OUT_B_SINGLE_BIT 1U
#define OUT_B_RESET 0x00U
/* LED: status lamp; bit 7, read-write, reset 0x00 */
#define OUT_B_LED_BITPOS 7U
#define OUT_B_LED_MASK 0x80U
/* VENT_CLOSE: runs the vent motor in the closing direction; bit 5, read-write, reset 0x00 */
#define OUT_B_VENT_CLOSE_BITPOS 5U
#define OUT_B_VENT_CLOSE_MASK 0x20U
/* VENT_OPEN: runs the vent motor in the opening direction; bit 4, read-write, reset 0x00 */
#define OUT_B_VENT_OPEN_BITPOS 4U
#define OUT_B_VENT_OPEN_MASK 0x10U
/* PULLS: pull-up of pins 3 to 0 while they are inputs; bits 3:0, read-write, reset 0x00 */
#define OUT_B_PULLS_BITPOS 0x0U
#define OUT_B_PULLS_MASK 0x0FU

/* IN_B: Port B input pins; 8 bits, read-only, data 0x31 (given), io 0x11 (given), reset 0bxxxxxxxx, page 32 */
#define IN_B_DATA_ADDR 0x31U
#define IN_B_IO_ADDR 0x11U
#define IN_B_SINGLE_BIT 1U
#define IN_B_RESET 0x00U
#define IN_B_RESET_DEFINED 0x00U
/* PINS: the level at each pin; bits 7:0, read-only, reset 0bxxxxxxxx */
#define IN_B_PINS_BITPOS 0x0U
#define IN_B_PINS_MASK 0xFFU

/* DIR_C: Port C direction; 8 bits, read-write, data 0x32 (given), io 0x12 (given), reset 0x00, page 33 */
#define DIR_C_DATA_ADDR 0x32U
#define DIR_C_IO_ADDR 0x12U
#define DIR_C_SINGLE_BIT 1U
#define DIR_C_RESET 0x00U
/* PINS: 1 makes the pin an output; bits 7:0, read-write, reset 0x00 */
#define DIR_C_PINS_BITPOS 0x0U
#define DIR_C_PINS_MASK 0xFFU

/* OUT_C: Port C output latch; 8 bits, read-write, data 0x33 (given), io 0x13 (given), reset 0x00, page 33 */
#define OUT_C_DATA_ADDR 0x33U
#define OUT_C_IO_ADDR 0x13U
#define OUT_C_SINGLE_BIT 1U
#define OUT_C_RESET 0x00U
/* PINS: output level, or pull-up while the pin is an input; bits 7:0, read-write, reset 0x00 */
#define OUT_C_PINS_BITPOS 0x0U
#define OUT_C_PINS_MASK 0xFFU

/* IN_C: Port C input pins; 8 bits, read-only, data 0x34 (given), io 0x14 (given), reset 0bxxxxxxxx, page 33 */
#define IN_C_DATA_ADDR 0x34U
#define IN_C_IO_ADDR 0x14U
#define IN_C_SINGLE_BIT 1U
#define IN_C_RESET 0x00U
#define IN_C_RESET_DEFINED 0x00U
/* PINS: the level at each pin; bits 7:0, read-only, reset 0bxxxxxxxx */
#define IN_C_PINS_BITPOS 0x0U
#define IN_C_PINS_MASK 0xFFU

/* TMR_FLAGS: Timer flags; 8 bits, read-write, data 0x3A (given), io 0x1A (given), reset 0x00, page 40 */
/* Reserved bits 0x18: write 0. */
/* Reserved bits 0x01: write 0. */
/* |= and INSERT of a value read here clear CAPTURE, MATCH1, OVERFLOW1, MATCH, OVERFLOW; use CLEAR for one flag. */
#define TMR_FLAGS_DATA_ADDR 0x3AU
#define TMR_FLAGS_IO_ADDR 0x1AU
#define TMR_FLAGS_SINGLE_BIT 1U
#define TMR_FLAGS_RESET 0x00U
/* CAPTURE: timer 1 has captured its counter; bit 7, read-write, writing 1 clears it, reset 0x00 */
#define TMR_FLAGS_CAPTURE_BITPOS 7U
#define TMR_FLAGS_CAPTURE_MASK 0x80U
/* MATCH1: timer 1 has reached its compare value; bit 6, read-write, writing 1 clears it, reset 0x00 */
#define TMR_FLAGS_MATCH1_BITPOS 6U
#define TMR_FLAGS_MATCH1_MASK 0x40U
/* OVERFLOW1: timer 1 has overflowed; bit 5, read-write, writing 1 clears it, reset 0x00 */
#define TMR_FLAGS_OVERFLOW1_BITPOS 5U
#define TMR_FLAGS_OVERFLOW1_MASK 0x20U
/* MATCH: timer 0 has reached its compare value; bit 2, read-write, writing 1 clears it, reset 0x00 */
#define TMR_FLAGS_MATCH_BITPOS 2U
#define TMR_FLAGS_MATCH_MASK 0x04U
/* OVERFLOW: timer 0 has overflowed; bit 1, read-write, writing 1 clears it, reset 0x00 */
#define TMR_FLAGS_OVERFLOW_BITPOS 1U
#define TMR_FLAGS_OVERFLOW_MASK 0x02U

/* TMR0_CTRL: Timer 0 control; 8 bits, read-write, data 0x42 (given), io 0x22 (given), reset 0x00, page 41 */
/* Reserved bits 0x1F: write 0. */
#define TMR0_CTRL_DATA_ADDR 0x42U
#define TMR0_CTRL_IO_ADDR 0x22U
#define TMR0_CTRL_SINGLE_BIT 0x0U
#define TMR0_CTRL_RESET 0x00U
/* CLOCK: clock of the counter; bits 7:5, read-write, reset 0x00 */
#define TMR0_CTRL_CLOCK_BITPOS 5U
#define TMR0_CTRL_CLOCK_MASK 0xE0U
#define TMR0_CTRL_CLOCK_STOPPED 0x00U
#define TMR0_CTRL_CLOCK_DIV1 0x20U
#define TMR0_CTRL_CLOCK_DIV4 0x40U
#define TMR0_CTRL_CLOCK_DIV16 0x60U
#define TMR0_CTRL_CLOCK_DIV64 0x80U
#define TMR0_CTRL_CLOCK_DIV256 0xA0U
#define TMR0_CTRL_CLOCK_PIN_FALLS 0xC0U
#define TMR0_CTRL_CLOCK_PIN_RISES 0xE0U

/* TMR0_COUNT: Timer 0 counter; 8 bits, read-write, data 0x43 (given), io 0x23 (given), reset 0x00, page 41 */
#define TMR0_COUNT_DATA_ADDR 0x43U
#define TMR0_COUNT_IO_ADDR 0x23U
#define TMR0_COUNT_SINGLE_BIT 0x0U
#define TMR0_COUNT_RESET 0x00U

/* TMR0_COMPARE: Timer 0 compare; 8 bits, read-write, data 0x44 (given), io 0x24 (given), reset 0xFF, page 42 */
#define TMR0_COMPARE_DATA_ADDR 0x44U
#define TMR0_COMPARE_IO_ADDR 0x24U
#define TMR0_COMPARE_SINGLE_BIT 0x0U
#define TMR0_COMPARE_RESET 0xFFU

/* NVM_ADDRESS: EEPROM address; 16 bits, read-write, data 0x59 (given), io 0x39 (given), reset 0x0000, page 47 */
/* Reserved bits 0xFC00: write 0. */
#define NVM_ADDRESS_DATA_ADDR 0x59U
#define NVM_ADDRESS_IO_ADDR 0x39U
#define NVM_ADDRESS_SINGLE_BIT 0x0U
#define NVM_ADDRESS_RESET 0x0000U
/* VALUE: a byte of the EEPROM; bits 9:0, read-write, reset 0x000 */
#define NVM_ADDRESS_VALUE_BITPOS 0x0U
#define NVM_ADDRESS_VALUE_MASK 0x03FFU

/* NVM_DATA: EEPROM data; 8 bits, read-write, data 0x5B (given), io 0x3B (given), reset 0x00, page 47 */
#define NVM_DATA_DATA_ADDR 0x5BU
#define NVM_DATA_IO_ADDR 0x3BU
#define NVM_DATA_SINGLE_BIT 0x0U
#define NVM_DATA_RESET 0x00U

/* NVM_CTRL: EEPROM control; 8 bits, read-write, data 0x5C (given), io 0x3C (given), reset 0x00, page 48 */
#define NVM_CTRL_DATA_ADDR 0x5CU
#define NVM_CTRL_IO_ADDR 0x3CU
#define NVM_CTRL_SINGLE_BIT 0x0U
#define NVM_CTRL_RESET 0x00U
/* READ: bit 7, read-write, reset 0x00 */
#define NVM_CTRL_READ_BITPOS 7U
#define NVM_CTRL_READ_MASK 0x80U
/* WRITE: bit 6, read-write, reset 0x00 */
#define NVM_CTRL_WRITE_BITPOS 6U
#define NVM_CTRL_WRITE_MASK 0x40U
/* ERASE: bit 5, read-write, reset 0x00 */
#define NVM_CTRL_ERASE_BITPOS 5U
#define NVM_CTRL_ERASE_MASK 0x20U
/* UNLOCK: bit 4, read-write, reset 0x00 */
#define NVM_CTRL_UNLOCK_BITPOS 4U
#define NVM_CTRL_UNLOCK_MASK 0x10U
/* IRQ: bit 1, read-write, reset 0x00 */
#define NVM_CTRL_IRQ_BITPOS 1U
#define NVM_CTRL_IRQ_MASK 0x02U

/* ADC_CTRL: Converter control; 8 bits, read-write, data 0x9B (given), reset 0x00, page 54 */
/* |= and INSERT of a value read here clear DONE; use CLEAR for one flag. */
#define ADC_CTRL_DATA_ADDR 0x9BU
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
/* DONE: a result is ready; bit 4, read-write, writing 1 clears it, reset 0x00 */
#define ADC_CTRL_DONE_BITPOS 4U
#define ADC_CTRL_DONE_MASK 0x10U
/* IRQ: asks for an interrupt when a result is ready; bit 3, read-write, reset 0x00 */
#define ADC_CTRL_IRQ_BITPOS 3U
#define ADC_CTRL_IRQ_MASK 0x08U
/* AUTO: starts the next conversion by itself; bit 2, read-write, reset 0x00 */
#define ADC_CTRL_AUTO_BITPOS 2U
#define ADC_CTRL_AUTO_MASK 0x04U
/* START: starts a conversion; 1 until it has ended; bit 1, read-write, reset 0x00 */
#define ADC_CTRL_START_BITPOS 1U
#define ADC_CTRL_START_MASK 0x02U
/* ENABLE: switches the converter on; bit 0, read-write, reset 0x00 */
#define ADC_CTRL_ENABLE_BITPOS 0x0U
#define ADC_CTRL_ENABLE_MASK 0x01U

/* ADC_MUX: Converter input; 8 bits, read-write, data 0x9C (given), reset 0x00, page 55 */
/* Reserved bits 0x80: write 0. */
#define ADC_MUX_DATA_ADDR 0x9CU
#define ADC_MUX_SINGLE_BIT 0x0U
#define ADC_MUX_RESET 0x00U
/* CHANNEL: input; bits 6:2, read-write, reset 0x00 */
#define ADC_MUX_CHANNEL_BITPOS 2U
#define ADC_MUX_CHANNEL_MASK 0x7CU
/* REFERENCE: what counts as full scale; bits 1:0, read-write, reset 0x00 */
#define ADC_MUX_REFERENCE_BITPOS 0x0U
#define ADC_MUX_REFERENCE_MASK 0x03U
#define ADC_MUX_REFERENCE_SUPPLY 0x00U
#define ADC_MUX_REFERENCE_PIN 0x01U
#define ADC_MUX_REFERENCE_INTERNAL 0x02U
#define ADC_MUX_REFERENCE_INTERNAL_HALF 0x03U

/* ADC_RESULT: Converter result; 16 bits, read-only, data 0x9D (given), reset 0x0000, page 56 */
/* Access the halves in order: read the low half first; they share ADC_TEMP. */
#define ADC_RESULT_DATA_ADDR 0x9DU
#define ADC_RESULT_SINGLE_BIT 0x0U
#define ADC_RESULT_RESET 0x0000U
/* VALUE: the result, right-adjusted; bits 9:0, read-only, reset 0x000 */
#define ADC_RESULT_VALUE_BITPOS 0x0U
#define ADC_RESULT_VALUE_MASK 0x03FFU

/* ADC_RESULT_L: low half of Converter result; 8 bits, read-only, data 0x9D (given), reset 0x00, page 56 */
#define ADC_RESULT_L_DATA_ADDR 0x9DU
#define ADC_RESULT_L_SINGLE_BIT 0x0U
#define ADC_RESULT_L_RESET 0x00U

/* ADC_RESULT_H: high half of Converter result; 8 bits, read-only, data 0x9E (given), reset 0x00, page 56 */
#define ADC_RESULT_H_DATA_ADDR 0x9EU
#define ADC_RESULT_H_SINGLE_BIT 0x0U
#define ADC_RESULT_H_RESET 0x00U

/* WATCHDOG: Watchdog control; 8 bits, read-write, data 0x9F (given), reset 0x00, page 60 */
/* |= and INSERT of a value read here clear FLAG; use CLEAR for one flag. */
#define WATCHDOG_DATA_ADDR 0x9FU
#define WATCHDOG_SINGLE_BIT 0x0U
#define WATCHDOG_RESET 0x00U
/* PERIOD: 12 ms, doubled for each step; its high bit stands apart; bits 2,7:5, read-write, reset 0x00, in pieces: EXTRACT and INSERT use an argument more than once */
#define WATCHDOG_PERIOD_BITPOS 5U
#define WATCHDOG_PERIOD_MASK 0xE4U
/* IRQ: asks for an interrupt instead of a reset; bit 4, read-write, reset 0x00 */
#define WATCHDOG_IRQ_BITPOS 4U
#define WATCHDOG_IRQ_MASK 0x10U
/* FLAG: the watchdog has run out; bit 3, read-write, writing 1 clears it, reset 0x00 */
#define WATCHDOG_FLAG_BITPOS 3U
#define WATCHDOG_FLAG_MASK 0x08U
/* ENABLE: switches the watchdog on; bit 1, read-write, reset 0x00 */
#define WATCHDOG_ENABLE_BITPOS 1U
#define WATCHDOG_ENABLE_MASK 0x02U
/* UNLOCK: must be 1 in the write that comes before a change; bit 0, read-write, reset 0x00 */
#define WATCHDOG_UNLOCK_BITPOS 0x0U
#define WATCHDOG_UNLOCK_MASK 0x01U

/* TMR_IRQ: Timer interrupt enable; 8 bits, read-write, data 0xA0 (given), reset 0x00, page 63 */
#define TMR_IRQ_DATA_ADDR 0xA0U
#define TMR_IRQ_SINGLE_BIT 0x0U
#define TMR_IRQ_RESET 0x00U
/* CAPTURE: bit 7, read-write, reset 0x00 */
#define TMR_IRQ_CAPTURE_BITPOS 7U
#define TMR_IRQ_CAPTURE_MASK 0x80U
/* MATCH1: bit 6, read-write, reset 0x00 */
#define TMR_IRQ_MATCH1_BITPOS 6U
#define TMR_IRQ_MATCH1_MASK 0x40U
/* OVERFLOW1: bit 5, read-write, reset 0x00 */
#define TMR_IRQ_OVERFLOW1_BITPOS 5U
#define TMR_IRQ_OVERFLOW1_MASK 0x20U
/* MATCH: bit 2, read-write, reset 0x00 */
#define TMR_IRQ_MATCH_BITPOS 2U
#define TMR_IRQ_MATCH_MASK 0x04U
/* OVERFLOW: bit 1, read-write, reset 0x00 */
#define TMR_IRQ_OVERFLOW_BITPOS 1U
#define TMR_IRQ_OVERFLOW_MASK 0x02U

/* TMR1_CTRL: Timer 1 control; 8 bits, read-write, data 0xA1 (given), reset 0x00, page 64 */
/* Reserved bits 0x1C: write 0. */
#define TMR1_CTRL_DATA_ADDR 0xA1U
#define TMR1_CTRL_SINGLE_BIT 0x0U
#define TMR1_CTRL_RESET 0x00U
/* CLOCK: clock of the counter; bits 7:5, read-write, reset 0x00 */
#define TMR1_CTRL_CLOCK_BITPOS 5U
#define TMR1_CTRL_CLOCK_MASK 0xE0U
#define TMR1_CTRL_CLOCK_STOPPED 0x00U
#define TMR1_CTRL_CLOCK_DIV1 0x20U
#define TMR1_CTRL_CLOCK_DIV4 0x40U
#define TMR1_CTRL_CLOCK_DIV16 0x60U
#define TMR1_CTRL_CLOCK_DIV64 0x80U
#define TMR1_CTRL_CLOCK_DIV256 0xA0U
#define TMR1_CTRL_CLOCK_PIN_FALLS 0xC0U
#define TMR1_CTRL_CLOCK_PIN_RISES 0xE0U
/* CLEAR: starts again from 0 at the compare value; bit 1, read-write, reset 0x00 */
#define TMR1_CTRL_CLEAR_BITPOS 1U
#define TMR1_CTRL_CLEAR_MASK 0x02U
/* EDGE: 1 captures at a rising edge; bit 0, read-write, reset 0x00 */
#define TMR1_CTRL_EDGE_BITPOS 0x0U
#define TMR1_CTRL_EDGE_MASK 0x01U

/* TMR1_COMPARE: Timer 1 compare; 16 bits, read-write, data 0xA2 (given), reset 0xFFFF, page 65 */
/* Access the halves in order: read the low half first, write the high half first; they share TMR1_TEMP. */
/* WRITE uses its argument twice: give it a variable, not a register. */
#define TMR1_COMPARE_DATA_ADDR 0xA2U
#define TMR1_COMPARE_SINGLE_BIT 0x0U
#define TMR1_COMPARE_RESET 0xFFFFU

/* TMR1_COMPARE_L: low half of Timer 1 compare; 8 bits, read-write, data 0xA2 (given), reset 0xFF, page 65 */
#define TMR1_COMPARE_L_DATA_ADDR 0xA2U
#define TMR1_COMPARE_L_SINGLE_BIT 0x0U
#define TMR1_COMPARE_L_RESET 0xFFU

/* TMR1_COMPARE_H: high half of Timer 1 compare; 8 bits, read-write, data 0xA3 (given), reset 0xFF, page 65 */
#define TMR1_COMPARE_H_DATA_ADDR 0xA3U
#define TMR1_COMPARE_H_SINGLE_BIT 0x0U
#define TMR1_COMPARE_H_RESET 0xFFU

/* TMR1_COUNT: Timer 1 counter; 16 bits, read-write, data 0xA4 (given), reset 0x0000, page 65 */
/* Access the halves in order: read the low half first, write the high half first; they share TMR1_TEMP. */
/* WRITE uses its argument twice: give it a variable, not a register. */
#define TMR1_COUNT_DATA_ADDR 0xA4U
#define TMR1_COUNT_SINGLE_BIT 0x0U
#define TMR1_COUNT_RESET 0x0000U

/* TMR1_COUNT_L: low half of Timer 1 counter; 8 bits, read-write, data 0xA4 (given), reset 0x00, page 65 */
#define TMR1_COUNT_L_DATA_ADDR 0xA4U
#define TMR1_COUNT_L_SINGLE_BIT 0x0U
#define TMR1_COUNT_L_RESET 0x00U

/* TMR1_COUNT_H: high half of Timer 1 counter; 8 bits, read-write, data 0xA5 (given), reset 0x00, page 65 */
#define TMR1_COUNT_H_DATA_ADDR 0xA5U
#define TMR1_COUNT_H_SINGLE_BIT 0x0U
#define TMR1_COUNT_H_RESET 0x00U

/* TMR1_CAPTURE: Timer 1 capture; 16 bits, read-only, data 0xA6 (given), reset 0x0000, page 65 */
/* Access the halves in order: read the low half first; they share TMR1_TEMP. */
#define TMR1_CAPTURE_DATA_ADDR 0xA6U
#define TMR1_CAPTURE_SINGLE_BIT 0x0U
#define TMR1_CAPTURE_RESET 0x0000U

/* TMR1_CAPTURE_L: low half of Timer 1 capture; 8 bits, read-only, data 0xA6 (given), reset 0x00, page 65 */
#define TMR1_CAPTURE_L_DATA_ADDR 0xA6U
#define TMR1_CAPTURE_L_SINGLE_BIT 0x0U
#define TMR1_CAPTURE_L_RESET 0x00U

/* TMR1_CAPTURE_H: high half of Timer 1 capture; 8 bits, read-only, data 0xA7 (given), reset 0x00, page 65 */
#define TMR1_CAPTURE_H_DATA_ADDR 0xA7U
#define TMR1_CAPTURE_H_SINGLE_BIT 0x0U
#define TMR1_CAPTURE_H_RESET 0x00U

/* UART0_DIVISOR: Serial port rate; 16 bits, read-write, data 0x120 (base and offset), reset 0x0000, page 81 */
/* Reserved bits 0xF000: write 0. */
#define UART0_DIVISOR_DATA_ADDR 0x120U
#define UART0_DIVISOR_SINGLE_BIT 0x0U
#define UART0_DIVISOR_RESET 0x0000U
/* VALUE: CPU clock / (8 * rate) - 1; bits 11:0, read-write, reset 0x000 */
#define UART0_DIVISOR_VALUE_BITPOS 0x0U
#define UART0_DIVISOR_VALUE_MASK 0x0FFFU

/* UART0_CTRL: Serial port control; 8 bits, read-write, data 0x122 (base and offset), reset 0x00, page 82 */
#define UART0_CTRL_DATA_ADDR 0x122U
#define UART0_CTRL_SINGLE_BIT 0x0U
#define UART0_CTRL_RESET 0x00U
/* RX_ENABLE: bit 7, read-write, reset 0x00 */
#define UART0_CTRL_RX_ENABLE_BITPOS 7U
#define UART0_CTRL_RX_ENABLE_MASK 0x80U
/* TX_ENABLE: bit 6, read-write, reset 0x00 */
#define UART0_CTRL_TX_ENABLE_BITPOS 6U
#define UART0_CTRL_TX_ENABLE_MASK 0x40U
/* DOUBLE: bit 4, read-write, reset 0x00 */
#define UART0_CTRL_DOUBLE_BITPOS 4U
#define UART0_CTRL_DOUBLE_MASK 0x10U
/* EMPTY_IRQ: bit 2, read-write, reset 0x00 */
#define UART0_CTRL_EMPTY_IRQ_BITPOS 2U
#define UART0_CTRL_EMPTY_IRQ_MASK 0x04U
/* TX_IRQ: bit 1, read-write, reset 0x00 */
#define UART0_CTRL_TX_IRQ_BITPOS 1U
#define UART0_CTRL_TX_IRQ_MASK 0x02U
/* RX_IRQ: bit 0, read-write, reset 0x00 */
#define UART0_CTRL_RX_IRQ_BITPOS 0x0U
#define UART0_CTRL_RX_IRQ_MASK 0x01U

/* UART0_STATUS: Serial port status; 8 bits, read-write, data 0x123 (base and offset), reset 0x04, page 83 */
/* Reserved bits 0x80: write 0. */
/* Reserved bits 0x08: write 0. */
/* |= and INSERT of a value read here clear SENT; use CLEAR for one flag. */
#define UART0_STATUS_DATA_ADDR 0x123U
#define UART0_STATUS_SINGLE_BIT 0x0U
#define UART0_STATUS_RESET 0x04U
/* ERRORS: frame, overrun and parity error of the waiting byte; bits 6:4, read-only, reset 0x00 */
#define UART0_STATUS_ERRORS_BITPOS 4U
#define UART0_STATUS_ERRORS_MASK 0x70U
/* EMPTY: the next byte may be written; bit 2, read-only, reset 0x01 */
#define UART0_STATUS_EMPTY_BITPOS 2U
#define UART0_STATUS_EMPTY_MASK 0x04U
/* SENT: the last byte has left; bit 1, read-write, writing 1 clears it, reset 0x00 */
#define UART0_STATUS_SENT_BITPOS 1U
#define UART0_STATUS_SENT_MASK 0x02U
/* RECEIVED: a byte is waiting; bit 0, read-only, reset 0x00 */
#define UART0_STATUS_RECEIVED_BITPOS 0x0U
#define UART0_STATUS_RECEIVED_MASK 0x01U

/* UART0_RX: Received byte; 8 bits, read-only, data 0x124 (base and offset), reset 0x00, page 84 */
/* Reading has an effect: reading changes it. */
#define UART0_RX_DATA_ADDR 0x124U
#define UART0_RX_SINGLE_BIT 0x0U
#define UART0_RX_RESET 0x00U

/* UART0_TX: Byte to send; 8 bits, write-only, data 0x124 (base and offset), page 84 */
/* Write-only: |= and &= would read it first; write whole values. */
#define UART0_TX_DATA_ADDR 0x124U
#define UART0_TX_SINGLE_BIT 0x0U

/* UART1_DIVISOR: Serial port rate; 16 bits, read-write, data 0x128 (base and offset), reset 0x0000, page 81 */
/* Reserved bits 0xF000: write 0. */
#define UART1_DIVISOR_DATA_ADDR 0x128U
#define UART1_DIVISOR_SINGLE_BIT 0x0U
#define UART1_DIVISOR_RESET 0x0000U
/* VALUE: CPU clock / (8 * rate) - 1; bits 11:0, read-write, reset 0x000 */
#define UART1_DIVISOR_VALUE_BITPOS 0x0U
#define UART1_DIVISOR_VALUE_MASK 0x0FFFU

/* UART1_CTRL: Serial port control; 8 bits, read-write, data 0x12A (base and offset), reset 0x00, page 82 */
#define UART1_CTRL_DATA_ADDR 0x12AU
#define UART1_CTRL_SINGLE_BIT 0x0U
#define UART1_CTRL_RESET 0x00U
/* RX_ENABLE: bit 7, read-write, reset 0x00 */
#define UART1_CTRL_RX_ENABLE_BITPOS 7U
#define UART1_CTRL_RX_ENABLE_MASK 0x80U
/* TX_ENABLE: bit 6, read-write, reset 0x00 */
#define UART1_CTRL_TX_ENABLE_BITPOS 6U
#define UART1_CTRL_TX_ENABLE_MASK 0x40U
/* DOUBLE: bit 4, read-write, reset 0x00 */
#define UART1_CTRL_DOUBLE_BITPOS 4U
#define UART1_CTRL_DOUBLE_MASK 0x10U
/* EMPTY_IRQ: bit 2, read-write, reset 0x00 */
#define UART1_CTRL_EMPTY_IRQ_BITPOS 2U
#define UART1_CTRL_EMPTY_IRQ_MASK 0x04U
/* TX_IRQ: bit 1, read-write, reset 0x00 */
#define UART1_CTRL_TX_IRQ_BITPOS 1U
#define UART1_CTRL_TX_IRQ_MASK 0x02U
/* RX_IRQ: bit 0, read-write, reset 0x00 */
#define UART1_CTRL_RX_IRQ_BITPOS 0x0U
#define UART1_CTRL_RX_IRQ_MASK 0x01U

/* UART1_STATUS: Serial port status; 8 bits, read-write, data 0x12B (base and offset), reset 0x04, page 83 */
/* Reserved bits 0x80: write 0. */
/* Reserved bits 0x08: write 0. */
/* |= and INSERT of a value read here clear SENT; use CLEAR for one flag. */
#define UART1_STATUS_DATA_ADDR 0x12BU
#define UART1_STATUS_SINGLE_BIT 0x0U
#define UART1_STATUS_RESET 0x04U
/* ERRORS: frame, overrun and parity error of the waiting byte; bits 6:4, read-only, reset 0x00 */
#define UART1_STATUS_ERRORS_BITPOS 4U
#define UART1_STATUS_ERRORS_MASK 0x70U
/* EMPTY: the next byte may be written; bit 2, read-only, reset 0x01 */
#define UART1_STATUS_EMPTY_BITPOS 2U
#define UART1_STATUS_EMPTY_MASK 0x04U
/* SENT: the last byte has left; bit 1, read-write, writing 1 clears it, reset 0x00 */
#define UART1_STATUS_SENT_BITPOS 1U
#define UART1_STATUS_SENT_MASK 0x02U
/* RECEIVED: a byte is waiting; bit 0, read-only, reset 0x00 */
#define UART1_STATUS_RECEIVED_BITPOS 0x0U
#define UART1_STATUS_RECEIVED_MASK 0x01U

/* UART1_RX: Received byte; 8 bits, read-only, data 0x12C (base and offset), reset 0x00, page 84 */
/* Reading has an effect: reading changes it. */
#define UART1_RX_DATA_ADDR 0x12CU
#define UART1_RX_SINGLE_BIT 0x0U
#define UART1_RX_RESET 0x00U

/* UART1_TX: Byte to send; 8 bits, write-only, data 0x12C (base and offset), page 84 */
/* Write-only: |= and &= would read it first; write whole values. */
#define UART1_TX_DATA_ADDR 0x12CU
#define UART1_TX_SINGLE_BIT 0x0U

/* Memories. UNITS counts addresses of its space, BYTES what they hold. */
/* FLASH: program memory; flash, in program space, 16 bits at each address, page 7 */
#define MEMORY_FLASH_PROGRAM_ADDR 0x00U
#define MEMORY_FLASH_UNITS 0x2000U
#define MEMORY_FLASH_BYTES 16384U
#define MEMORY_FLASH_PAGE_UNITS 64U
#define MEMORY_FLASH_ERASE_UNITS 256U
/* SRAM: ram, in data space, page 7 */
#define MEMORY_SRAM_DATA_ADDR 0x140U
#define MEMORY_SRAM_UNITS 0x500U
#define MEMORY_SRAM_BYTES 1280U
/* EEPROM: eeprom, in eeprom space, page 8 */
#define MEMORY_EEPROM_EEPROM_ADDR 0x00U
#define MEMORY_EEPROM_UNITS 0x200U
#define MEMORY_EEPROM_BYTES 512U
#define MEMORY_EEPROM_PAGE_UNITS 8U
#define MEMORY_EEPROM_ERASE_UNITS 8U
/* CONFIG: configuration bytes; configuration, in config space, page 90 */
#define MEMORY_CONFIG_CONFIG_ADDR 0x00U
#define MEMORY_CONFIG_UNITS 0x04U
#define MEMORY_CONFIG_BYTES 4U

/* Interrupt vectors. STEP: addresses that one takes; COUNT: the highest number plus 1. */
/* In program space, 2 addresses each. */
#define VECTORS_COUNT 12U
#define VECTORS_STEP 2U
/* RESET: power-on, reset pin, watchdog or supply watch; page 10 */
#define VECTOR_RESET_NUMBER 0x0U
#define VECTOR_RESET_PROGRAM_ADDR 0x00U
/* TMR1_CAPTURE: timer 1 has captured its counter; page 10 */
#define VECTOR_TMR1_CAPTURE_NUMBER 1U
#define VECTOR_TMR1_CAPTURE_PROGRAM_ADDR 0x02U
/* TMR1_MATCH: timer 1 has reached its compare value; page 10 */
#define VECTOR_TMR1_MATCH_NUMBER 2U
#define VECTOR_TMR1_MATCH_PROGRAM_ADDR 0x04U
/* TMR1_OVERFLOW: timer 1 has overflowed; page 10 */
#define VECTOR_TMR1_OVERFLOW_NUMBER 3U
#define VECTOR_TMR1_OVERFLOW_PROGRAM_ADDR 0x06U
/* TMR0_MATCH: timer 0 has reached its compare value; page 10 */
#define VECTOR_TMR0_MATCH_NUMBER 4U
#define VECTOR_TMR0_MATCH_PROGRAM_ADDR 0x08U
/* TMR0_OVERFLOW: timer 0 has overflowed; page 10 */
#define VECTOR_TMR0_OVERFLOW_NUMBER 5U
#define VECTOR_TMR0_OVERFLOW_PROGRAM_ADDR 0x0AU
/* ADC_DONE: a conversion has ended; page 10 */
#define VECTOR_ADC_DONE_NUMBER 6U
#define VECTOR_ADC_DONE_PROGRAM_ADDR 0x0CU
/* NVM_READY: the EEPROM is ready; page 10 */
#define VECTOR_NVM_READY_NUMBER 7U
#define VECTOR_NVM_READY_PROGRAM_ADDR 0x0EU
/* UART0_RX: a byte from the sensors is waiting; page 10 */
#define VECTOR_UART0_RX_NUMBER 8U
#define VECTOR_UART0_RX_PROGRAM_ADDR 0x10U
/* UART0_EMPTY: the next byte to the sensors may be written; page 10 */
#define VECTOR_UART0_EMPTY_NUMBER 9U
#define VECTOR_UART0_EMPTY_PROGRAM_ADDR 0x12U
/* UART1_RX: a byte from the display is waiting; page 10 */
#define VECTOR_UART1_RX_NUMBER 10U
#define VECTOR_UART1_RX_PROGRAM_ADDR 0x14U
/* UART1_EMPTY: the next byte to the display may be written; page 10 */
#define VECTOR_UART1_EMPTY_NUMBER 11U
#define VECTOR_UART1_EMPTY_PROGRAM_ADDR 0x16U

/* Configuration. DEFAULT is what a delivered chip has; values of settings are in place. */
/* VERIFY_MASK has a 1 for each bit that must read back as it was written. */
/* Caution: start-program = skip and debug-port = off can keep the programmer or debugger out: nothing is left by which the chip could be programmed in the circuit */
/* The word clock: clock; 8 bits, page 91 */
#define SETTINGS_CLOCK_CONFIG_ADDR 0x00U
#define SETTINGS_CLOCK_DEFAULT 0xF7U
#define SETTINGS_CLOCK_VERIFY_MASK 0xFFU
/* clock-source: where the clock comes from; bits 7:6 */
/* Caution: clock-source = external needs hardware that may not be there: without a clock signal at pin XIN the chip stands still, and the programmer cannot reach it either */
/* Caution: clock-source = crystal needs hardware that may not be there: without a crystal and its capacitors at XIN and XOUT the chip stands still, and the programmer cannot reach it either */
#define SETTING_CLOCK_SOURCE_BITPOS 6U
#define SETTING_CLOCK_SOURCE_MASK 0xC0U
#define SETTING_CLOCK_SOURCE_EXTERNAL 0x00U
#define SETTING_CLOCK_SOURCE_CRYSTAL 0x40U
#define SETTING_CLOCK_SOURCE_INTERNAL_16MHZ 0xC0U
/* clock-divider: divides the clock of the CPU; bits 5:4 */
#define SETTING_CLOCK_DIVIDER_BITPOS 4U
#define SETTING_CLOCK_DIVIDER_MASK 0x30U
#define SETTING_CLOCK_DIVIDER_OFF 0x00U
#define SETTING_CLOCK_DIVIDER_DIVIDE_BY_2 0x10U
#define SETTING_CLOCK_DIVIDER_DIVIDE_BY_4 0x20U
#define SETTING_CLOCK_DIVIDER_DIVIDE_BY_16 0x30U
/* start-up-delay: how long the chip waits after power-on; bits 2:1 */
#define SETTING_START_UP_DELAY_BITPOS 1U
#define SETTING_START_UP_DELAY_MASK 0x06U
#define SETTING_START_UP_DELAY_NONE 0x00U
#define SETTING_START_UP_DELAY_WAIT_5MS 0x02U
#define SETTING_START_UP_DELAY_WAIT_60MS 0x06U
/* clock-output: shows the clock of the CPU at pin C7; bit 0 */
#define SETTING_CLOCK_OUTPUT_BITPOS 0x0U
#define SETTING_CLOCK_OUTPUT_MASK 0x01U
#define SETTING_CLOCK_OUTPUT_PROGRAMMED 0x00U
#define SETTING_CLOCK_OUTPUT_UNPROGRAMMED 0x01U
/* The word start: start and programming; 8 bits, page 92 */
#define SETTINGS_START_CONFIG_ADDR 0x01U
#define SETTINGS_START_DEFAULT 0x7DU
#define SETTINGS_START_VERIFY_MASK 0xFFU
/* debug-port: lets a debugger reach the chip; bit 7 */
/* Caution: debug-port = off can keep the programmer or debugger out: debugger and programmer in the circuit cannot reach the chip any more; only the start program over UART0 can */
#define SETTING_DEBUG_PORT_BITPOS 7U
#define SETTING_DEBUG_PORT_MASK 0x80U
#define SETTING_DEBUG_PORT_ON 0x00U
#define SETTING_DEBUG_PORT_OFF 0x80U
/* start-program: what runs first after a reset; bit 6 */
#define SETTING_START_PROGRAM_BITPOS 6U
#define SETTING_START_PROGRAM_MASK 0x40U
#define SETTING_START_PROGRAM_SKIP 0x00U
#define SETTING_START_PROGRAM_RUN 0x40U
/* watchdog: who switches the watchdog on; bit 5 */
/* Caution: watchdog = always-on can keep the programmer or debugger out: a program that does not tend the watchdog is reset again and again, and cannot switch it off */
#define SETTING_WATCHDOG_BITPOS 5U
#define SETTING_WATCHDOG_MASK 0x20U
#define SETTING_WATCHDOG_ALWAYS_ON 0x00U
#define SETTING_WATCHDOG_BY_PROGRAM 0x20U
/* supply-watch: where the supply watch resets the chip; bits 1:0 */
#define SETTING_SUPPLY_WATCH_BITPOS 0x0U
#define SETTING_SUPPLY_WATCH_MASK 0x03U
#define SETTING_SUPPLY_WATCH_BELOW_2V8 0x00U
#define SETTING_SUPPLY_WATCH_BELOW_1V9 0x01U
#define SETTING_SUPPLY_WATCH_OFF 0x03U
/* The word lock: lock bits; 8 bits, locks memories, page 93 */
#define SETTINGS_LOCK_CONFIG_ADDR 0x03U
#define SETTINGS_LOCK_DEFAULT 0xFFU
#define SETTINGS_LOCK_VERIFY_MASK 0xFFU
/* program-lock: keeps programmers from reading and writing the program; bit 7 */
/* Caution: program-lock = locked can keep the programmer or debugger out: only an erase of the whole chip takes the lock away, and the program and the EEPROM with it */
#define SETTING_PROGRAM_LOCK_BITPOS 7U
#define SETTING_PROGRAM_LOCK_MASK 0x80U
#define SETTING_PROGRAM_LOCK_LOCKED 0x00U
#define SETTING_PROGRAM_LOCK_OPEN 0x80U
/* eeprom-lock: keeps programmers from reading and writing the EEPROM; bit 6 */
/* Caution: eeprom-lock = locked can keep the programmer or debugger out: only an erase of the whole chip takes the lock away, and the program and the EEPROM with it */
#define SETTING_EEPROM_LOCK_BITPOS 6U
#define SETTING_EEPROM_LOCK_MASK 0x40U
#define SETTING_EEPROM_LOCK_LOCKED 0x00U
#define SETTING_EEPROM_LOCK_OPEN 0x40U

/* Clock. */
/* As delivered, the CPU has 1 MHz (980 kHz to 1.02 MHz). */
/* internal-16mhz: 16 MHz, 2 % off at most */
/* start-divider: divided by 16 (clock-divider = divide-by-16) */
#define CPU_DEFAULT_HZ 1000000U

/* Identity: the bytes by which a programmer knows the chip. */
/* Page 89. */
#define IDENTITY_BYTES 3U
#define IDENTITY_BYTE0 0x5AU
#define IDENTITY_BYTE1 0x40U
#define IDENTITY_BYTE2 0x02U

/* Ports: the bits that each has, and at which bit a function is. */
/* Port A: bits 7:0, in DIR_A, OUT_A, IN_A, page 30 */
#define PORT_A_MASK 0xFFU
#define FUNCTION_ADC0_BITPOS 0x0U
#define FUNCTION_ADC0_MASK 0x01U
#define FUNCTION_ADC1_BITPOS 1U
#define FUNCTION_ADC1_MASK 0x02U
#define FUNCTION_ADC2_BITPOS 2U
#define FUNCTION_ADC2_MASK 0x04U
#define FUNCTION_ADC3_BITPOS 3U
#define FUNCTION_ADC3_MASK 0x08U
#define FUNCTION_ADC4_BITPOS 4U
#define FUNCTION_ADC4_MASK 0x10U
#define FUNCTION_ADC5_BITPOS 5U
#define FUNCTION_ADC5_MASK 0x20U
#define FUNCTION_ADC6_BITPOS 6U
#define FUNCTION_ADC6_MASK 0x40U
#define FUNCTION_ADC7_BITPOS 7U
#define FUNCTION_ADC7_MASK 0x80U
/* Port B: bits 7,5:0, in DIR_B, OUT_B, IN_B, page 30 */
#define PORT_B_MASK 0xBFU
#define FUNCTION_VENT_OPEN_BITPOS 4U
#define FUNCTION_VENT_OPEN_MASK 0x10U
#define FUNCTION_VENT_CLOSE_BITPOS 5U
#define FUNCTION_VENT_CLOSE_MASK 0x20U
#define FUNCTION_LED_BITPOS 7U
#define FUNCTION_LED_MASK 0x80U
/* Port C: bits 7:0, in DIR_C, OUT_C, IN_C, page 30 */
#define PORT_C_MASK 0xFFU
#define FUNCTION_UART0_RXD_BITPOS 0x0U
#define FUNCTION_UART0_RXD_MASK 0x01U
#define FUNCTION_UART0_TXD_BITPOS 1U
#define FUNCTION_UART0_TXD_MASK 0x02U
#define FUNCTION_UART1_RXD_BITPOS 2U
#define FUNCTION_UART1_RXD_MASK 0x04U
#define FUNCTION_UART1_TXD_BITPOS 3U
#define FUNCTION_UART1_TXD_MASK 0x08U
#define FUNCTION_TMR1_CAPTURE_BITPOS 4U
#define FUNCTION_TMR1_CAPTURE_MASK 0x10U
#define FUNCTION_TMR0_PIN_BITPOS 5U
#define FUNCTION_TMR0_PIN_MASK 0x20U
#define FUNCTION_DEBUG_BITPOS 6U
#define FUNCTION_DEBUG_MASK 0x40U
#define FUNCTION_CLOCK_OUT_BITPOS 7U
#define FUNCTION_CLOCK_OUT_MASK 0x80U

/* Packages: numbers of pins. A name that several pins have is left out. */
/* QUAD32: 32 pins on four sides; 32 pins, page 4 */
#define PIN_QUAD32_RESET 3U
#define PIN_QUAD32_A0 4U
#define PIN_QUAD32_A1 5U
#define PIN_QUAD32_A2 6U
#define PIN_QUAD32_A3 7U
#define PIN_QUAD32_A4 8U
#define PIN_QUAD32_A5 9U
#define PIN_QUAD32_A6 10U
#define PIN_QUAD32_A7 11U
#define PIN_QUAD32_XIN 12U
#define PIN_QUAD32_XOUT 13U
#define PIN_QUAD32_B0 14U
#define PIN_QUAD32_B1 15U
#define PIN_QUAD32_B2 16U
#define PIN_QUAD32_AREF 18U
#define PIN_QUAD32_B3 19U
#define PIN_QUAD32_B4 20U
#define PIN_QUAD32_B5 21U
#define PIN_QUAD32_B7 22U
#define PIN_QUAD32_C0 23U
#define PIN_QUAD32_C1 24U
#define PIN_QUAD32_C2 25U
#define PIN_QUAD32_C3 26U
#define PIN_QUAD32_C4 27U
#define PIN_QUAD32_C5 28U
#define PIN_QUAD32_C6 29U
#define PIN_QUAD32_C7 30U
#define PIN_QUAD32_NC 31U

/* A program that names its clock CPU_CLOCK_HZ before this header is compared with the default. */
/* It must be an integer that #if can read: no cast, no decimal point. A program that sets another */
/* clock by itself, or is for a chip with other settings, defines REGWRIGHT_CLOCK_CHANGES. */
#if defined(CPU_CLOCK_HZ) && !defined(REGWRIGHT_CLOCK_CHANGES)
#if (CPU_CLOCK_HZ + 0) != CPU_DEFAULT_HZ
#if defined(__GNUC__)
#pragma GCC warning "CPU_CLOCK_HZ is not CPU_DEFAULT_HZ: as delivered, sorrel40 runs at 1 MHz (980 kHz to 1.02 MHz); correct it, or define REGWRIGHT_CLOCK_CHANGES"
#elif defined(__STDC_VERSION__) && __STDC_VERSION__ >= 202311L || defined(__cplusplus) && __cplusplus >= 202302L
#warning "CPU_CLOCK_HZ is not CPU_DEFAULT_HZ: as delivered, sorrel40 runs at 1 MHz (980 kHz to 1.02 MHz); correct it, or define REGWRIGHT_CLOCK_CHANGES"
#else
#pragma message("CPU_CLOCK_HZ is not CPU_DEFAULT_HZ: as delivered, sorrel40 runs at 1 MHz (980 kHz to 1.02 MHz); correct it, or define REGWRIGHT_CLOCK_CHANGES")
#endif
#endif
#endif

#ifndef __ASSEMBLER__
#include <stdint.h>

/* How C reaches a register. Define these beforehand to run the same code on another machine. */
#ifndef SORREL40_READ8
#define SORREL40_READ8(address) (*(const volatile uint8_t *)(address))
#endif
#ifndef SORREL40_READ16
#define SORREL40_READ16(address) (*(const volatile uint16_t *)(address))
#endif
#ifndef SORREL40_REG8
#define SORREL40_REG8(address) (*(volatile uint8_t *)(address))
#endif
#ifndef SORREL40_REG16
#define SORREL40_REG16(address) (*(volatile uint16_t *)(address))
#endif

#define CPU_STATUS SORREL40_REG8(CPU_STATUS_DATA_ADDR)
#define STACK SORREL40_REG16(STACK_DATA_ADDR)
#define STACK_VALUE_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0x07FFU)))
#define STACK_VALUE_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0xF800U) | ((uint16_t)(field) & 0x07FFU)))
#define CLOCK_ENABLE SORREL40_REG8(CLOCK_ENABLE_DATA_ADDR)
#define DIR_A SORREL40_REG8(DIR_A_DATA_ADDR)
#define DIR_A_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define DIR_A_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define OUT_A SORREL40_REG8(OUT_A_DATA_ADDR)
#define OUT_A_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define OUT_A_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define IN_A SORREL40_READ8(IN_A_DATA_ADDR)
#define IN_A_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define IN_A_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define DIR_B SORREL40_REG8(DIR_B_DATA_ADDR)
#define DIR_B_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define DIR_B_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define OUT_B SORREL40_REG8(OUT_B_DATA_ADDR)
#define OUT_B_PULLS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x0FU)))
#define OUT_B_PULLS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xF0U) | ((uint8_t)(field) & 0x0FU)))
#define IN_B SORREL40_READ8(IN_B_DATA_ADDR)
#define IN_B_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define IN_B_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define DIR_C SORREL40_REG8(DIR_C_DATA_ADDR)
#define DIR_C_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define DIR_C_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define OUT_C SORREL40_REG8(OUT_C_DATA_ADDR)
#define OUT_C_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define OUT_C_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define IN_C SORREL40_READ8(IN_C_DATA_ADDR)
#define IN_C_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define IN_C_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define TMR_FLAGS SORREL40_REG8(TMR_FLAGS_DATA_ADDR)
#define TMR_FLAGS_CAPTURE_TO_CLEAR(value) ((uint8_t)0x80U)
#define TMR_FLAGS_CAPTURE_CLEAR() (TMR_FLAGS = TMR_FLAGS_CAPTURE_TO_CLEAR(TMR_FLAGS))
#define TMR_FLAGS_MATCH1_TO_CLEAR(value) ((uint8_t)0x40U)
#define TMR_FLAGS_MATCH1_CLEAR() (TMR_FLAGS = TMR_FLAGS_MATCH1_TO_CLEAR(TMR_FLAGS))
#define TMR_FLAGS_OVERFLOW1_TO_CLEAR(value) ((uint8_t)0x20U)
#define TMR_FLAGS_OVERFLOW1_CLEAR() (TMR_FLAGS = TMR_FLAGS_OVERFLOW1_TO_CLEAR(TMR_FLAGS))
#define TMR_FLAGS_MATCH_TO_CLEAR(value) ((uint8_t)0x04U)
#define TMR_FLAGS_MATCH_CLEAR() (TMR_FLAGS = TMR_FLAGS_MATCH_TO_CLEAR(TMR_FLAGS))
#define TMR_FLAGS_OVERFLOW_TO_CLEAR(value) ((uint8_t)0x02U)
#define TMR_FLAGS_OVERFLOW_CLEAR() (TMR_FLAGS = TMR_FLAGS_OVERFLOW_TO_CLEAR(TMR_FLAGS))
#define TMR0_CTRL SORREL40_REG8(TMR0_CTRL_DATA_ADDR)
#define TMR0_CTRL_CLOCK_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0xE0U) >> 5)))
#define TMR0_CTRL_CLOCK_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x1FU) | (((uint8_t)(field) & 0x07U) << 5)))
#define TMR0_COUNT SORREL40_REG8(TMR0_COUNT_DATA_ADDR)
#define TMR0_COMPARE SORREL40_REG8(TMR0_COMPARE_DATA_ADDR)
#define NVM_ADDRESS SORREL40_REG16(NVM_ADDRESS_DATA_ADDR)
#define NVM_ADDRESS_VALUE_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0x03FFU)))
#define NVM_ADDRESS_VALUE_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0xFC00U) | ((uint16_t)(field) & 0x03FFU)))
#define NVM_DATA SORREL40_REG8(NVM_DATA_DATA_ADDR)
#define NVM_CTRL SORREL40_REG8(NVM_CTRL_DATA_ADDR)
#define ADC_CTRL SORREL40_REG8(ADC_CTRL_DATA_ADDR)
#define ADC_CTRL_CLOCK_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0xE0U) >> 5)))
#define ADC_CTRL_CLOCK_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x1FU) | (((uint8_t)(field) & 0x07U) << 5)))
#define ADC_CTRL_DONE_TO_CLEAR(value) ((uint8_t)(((uint8_t)(value) & 0xEFU) | 0x10U))
#define ADC_CTRL_DONE_CLEAR() (ADC_CTRL = ADC_CTRL_DONE_TO_CLEAR(ADC_CTRL))
#define ADC_MUX SORREL40_REG8(ADC_MUX_DATA_ADDR)
#define ADC_MUX_CHANNEL_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0x7CU) >> 2)))
#define ADC_MUX_CHANNEL_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x83U) | (((uint8_t)(field) & 0x1FU) << 2)))
#define ADC_MUX_REFERENCE_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x03U)))
#define ADC_MUX_REFERENCE_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xFCU) | ((uint8_t)(field) & 0x03U)))
#define ADC_RESULT SORREL40_READ16(ADC_RESULT_DATA_ADDR)
#define ADC_RESULT_READ_INTO(variable) ((variable) = ((uint16_t)ADC_RESULT_L), (variable) = (uint16_t)((variable) | ((uint16_t)(((uint16_t)ADC_RESULT_H) << 8))))
#define ADC_RESULT_VALUE_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0x03FFU)))
#define ADC_RESULT_VALUE_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0xFC00U) | ((uint16_t)(field) & 0x03FFU)))
#define ADC_RESULT_L SORREL40_READ8(ADC_RESULT_L_DATA_ADDR)
#define ADC_RESULT_H SORREL40_READ8(ADC_RESULT_H_DATA_ADDR)
#define WATCHDOG SORREL40_REG8(WATCHDOG_DATA_ADDR)
#define WATCHDOG_PERIOD_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0xE0U) >> 5) | (((uint8_t)(value) & 0x04U) << 1)))
#define WATCHDOG_PERIOD_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x1BU) | (((uint8_t)(field) & 0x07U) << 5) | (((uint8_t)(field) & 0x08U) >> 1)))
#define WATCHDOG_FLAG_TO_CLEAR(value) ((uint8_t)(((uint8_t)(value) & 0xF7U) | 0x08U))
#define WATCHDOG_FLAG_CLEAR() (WATCHDOG = WATCHDOG_FLAG_TO_CLEAR(WATCHDOG))
#define TMR_IRQ SORREL40_REG8(TMR_IRQ_DATA_ADDR)
#define TMR1_CTRL SORREL40_REG8(TMR1_CTRL_DATA_ADDR)
#define TMR1_CTRL_CLOCK_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0xE0U) >> 5)))
#define TMR1_CTRL_CLOCK_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x1FU) | (((uint8_t)(field) & 0x07U) << 5)))
#define TMR1_COMPARE SORREL40_REG16(TMR1_COMPARE_DATA_ADDR)
#define TMR1_COMPARE_READ_INTO(variable) ((variable) = ((uint16_t)TMR1_COMPARE_L), (variable) = (uint16_t)((variable) | ((uint16_t)(((uint16_t)TMR1_COMPARE_H) << 8))))
#define TMR1_COMPARE_WRITE(value) (TMR1_COMPARE_H = (uint8_t)((uint16_t)(value) >> 8), TMR1_COMPARE_L = (uint8_t)((uint16_t)(value) & 0xFFU))
#define TMR1_COMPARE_L SORREL40_REG8(TMR1_COMPARE_L_DATA_ADDR)
#define TMR1_COMPARE_H SORREL40_REG8(TMR1_COMPARE_H_DATA_ADDR)
#define TMR1_COUNT SORREL40_REG16(TMR1_COUNT_DATA_ADDR)
#define TMR1_COUNT_READ_INTO(variable) ((variable) = ((uint16_t)TMR1_COUNT_L), (variable) = (uint16_t)((variable) | ((uint16_t)(((uint16_t)TMR1_COUNT_H) << 8))))
#define TMR1_COUNT_WRITE(value) (TMR1_COUNT_H = (uint8_t)((uint16_t)(value) >> 8), TMR1_COUNT_L = (uint8_t)((uint16_t)(value) & 0xFFU))
#define TMR1_COUNT_L SORREL40_REG8(TMR1_COUNT_L_DATA_ADDR)
#define TMR1_COUNT_H SORREL40_REG8(TMR1_COUNT_H_DATA_ADDR)
#define TMR1_CAPTURE SORREL40_READ16(TMR1_CAPTURE_DATA_ADDR)
#define TMR1_CAPTURE_READ_INTO(variable) ((variable) = ((uint16_t)TMR1_CAPTURE_L), (variable) = (uint16_t)((variable) | ((uint16_t)(((uint16_t)TMR1_CAPTURE_H) << 8))))
#define TMR1_CAPTURE_L SORREL40_READ8(TMR1_CAPTURE_L_DATA_ADDR)
#define TMR1_CAPTURE_H SORREL40_READ8(TMR1_CAPTURE_H_DATA_ADDR)
#define UART0_DIVISOR SORREL40_REG16(UART0_DIVISOR_DATA_ADDR)
#define UART0_DIVISOR_VALUE_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0x0FFFU)))
#define UART0_DIVISOR_VALUE_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0xF000U) | ((uint16_t)(field) & 0x0FFFU)))
#define UART0_CTRL SORREL40_REG8(UART0_CTRL_DATA_ADDR)
#define UART0_STATUS SORREL40_REG8(UART0_STATUS_DATA_ADDR)
#define UART0_STATUS_ERRORS_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0x70U) >> 4)))
#define UART0_STATUS_ERRORS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x8FU) | (((uint8_t)(field) & 0x07U) << 4)))
#define UART0_STATUS_SENT_TO_CLEAR(value) ((uint8_t)0x02U)
#define UART0_STATUS_SENT_CLEAR() (UART0_STATUS = UART0_STATUS_SENT_TO_CLEAR(UART0_STATUS))
#define UART0_RX SORREL40_READ8(UART0_RX_DATA_ADDR)
#define UART0_TX SORREL40_REG8(UART0_TX_DATA_ADDR)
#define UART1_DIVISOR SORREL40_REG16(UART1_DIVISOR_DATA_ADDR)
#define UART1_DIVISOR_VALUE_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0x0FFFU)))
#define UART1_DIVISOR_VALUE_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0xF000U) | ((uint16_t)(field) & 0x0FFFU)))
#define UART1_CTRL SORREL40_REG8(UART1_CTRL_DATA_ADDR)
#define UART1_STATUS SORREL40_REG8(UART1_STATUS_DATA_ADDR)
#define UART1_STATUS_ERRORS_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0x70U) >> 4)))
#define UART1_STATUS_ERRORS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x8FU) | (((uint8_t)(field) & 0x07U) << 4)))
#define UART1_STATUS_SENT_TO_CLEAR(value) ((uint8_t)0x02U)
#define UART1_STATUS_SENT_CLEAR() (UART1_STATUS = UART1_STATUS_SENT_TO_CLEAR(UART1_STATUS))
#define UART1_RX SORREL40_READ8(UART1_RX_DATA_ADDR)
#define UART1_TX SORREL40_REG8(UART1_TX_DATA_ADDR)

/* What tools call the chip. */
#define BUILD_TARGET "sorrel40"
#define BUILD_INSTRUCTION_SET "sorrel8x"
#define BUILD_PROGRAMMER_PART "s40"

#endif /* __ASSEMBLER__ */
#endif /* SORREL40_H */
