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

/* Plain numbers, for C and for the assembler. */

/* IN_A: Port A input pins; 8 bits, read-only, data 0x20 (given), io 0x00 (given), reset 0bxxxxxxxx, page 71 */
#define IN_A_DATA_ADDR 0x20U
#define IN_A_IO_ADDR 0x00U
#define IN_A_SINGLE_BIT 1U
#define IN_A_RESET 0x00U
#define IN_A_RESET_DEFINED 0x00U
/* PINS: the level at each pin; bits 7:0, read-only, reset 0bxxxxxxxx */
#define IN_A_PINS_BITPOS 0x0U
#define IN_A_PINS_MASK 0xFFU

/* DIR_A: Port A direction; 8 bits, read-write, data 0x21 (given), io 0x01 (given), reset 0x00, page 71 */
#define DIR_A_DATA_ADDR 0x21U
#define DIR_A_IO_ADDR 0x01U
#define DIR_A_SINGLE_BIT 1U
#define DIR_A_RESET 0x00U
/* PINS: 1 makes the pin an output; bits 7:0, read-write, reset 0x00 */
#define DIR_A_PINS_BITPOS 0x0U
#define DIR_A_PINS_MASK 0xFFU

/* OUT_A: Port A output latch; 8 bits, read-write, data 0x22 (given), io 0x02 (given), reset 0x00, page 71 */
#define OUT_A_DATA_ADDR 0x22U
#define OUT_A_IO_ADDR 0x02U
#define OUT_A_SINGLE_BIT 1U
#define OUT_A_RESET 0x00U
/* PINS: output level, or pull-up while the pin is an input; bits 7:0, read-write, reset 0x00 */
#define OUT_A_PINS_BITPOS 0x0U
#define OUT_A_PINS_MASK 0xFFU

/* IN_B: Port B input pins; 8 bits, read-only, data 0x23 (given), io 0x03 (given), reset 0bxxxxxxxx, page 72 */
#define IN_B_DATA_ADDR 0x23U
#define IN_B_IO_ADDR 0x03U
#define IN_B_SINGLE_BIT 1U
#define IN_B_RESET 0x00U
#define IN_B_RESET_DEFINED 0x00U
/* PINS: the level at each pin; bits 7:0, read-only, reset 0bxxxxxxxx */
#define IN_B_PINS_BITPOS 0x0U
#define IN_B_PINS_MASK 0xFFU

/* DIR_B: Port B direction; 8 bits, read-write, data 0x24 (given), io 0x04 (given), reset 0x00, page 72 */
#define DIR_B_DATA_ADDR 0x24U
#define DIR_B_IO_ADDR 0x04U
#define DIR_B_SINGLE_BIT 1U
#define DIR_B_RESET 0x00U
/* PINS: 1 makes the pin an output; bits 7:0, read-write, reset 0x00 */
#define DIR_B_PINS_BITPOS 0x0U
#define DIR_B_PINS_MASK 0xFFU

/* OUT_B: Port B output latch; 8 bits, read-write, data 0x25 (given), io 0x05 (given), reset 0x00, page 72 */
/* Reserved bits 0x40: write 0. */
#define OUT_B_DATA_ADDR 0x25U
#define OUT_B_IO_ADDR 0x05U
#define OUT_B_SINGLE_BIT 1U
#define OUT_B_RESET 0x00U
/* VENT_OPEN: runs the vent motor in the opening direction; bit 4, read-write, reset 0x00 */
#define OUT_B_VENT_OPEN_BITPOS 4U
#define OUT_B_VENT_OPEN_MASK 0x10U
/* VENT_CLOSE: runs the vent motor in the closing direction; bit 5, read-write, reset 0x00 */
#define OUT_B_VENT_CLOSE_BITPOS 5U
#define OUT_B_VENT_CLOSE_MASK 0x20U
/* LED: status lamp; bit 7, read-write, reset 0x00 */
#define OUT_B_LED_BITPOS 7U
#define OUT_B_LED_MASK 0x80U
/* PULLS: pull-up of pins 3 to 0 while they are inputs; bits 3:0, read-write, reset 0x00 */
#define OUT_B_PULLS_BITPOS 0x0U
#define OUT_B_PULLS_MASK 0x0FU

/* IN_C: Port C input pins; 8 bits, read-only, data 0x26 (given), io 0x06 (given), reset 0bxxxxxxxx, page 73 */
#define IN_C_DATA_ADDR 0x26U
#define IN_C_IO_ADDR 0x06U
#define IN_C_SINGLE_BIT 1U
#define IN_C_RESET 0x00U
#define IN_C_RESET_DEFINED 0x00U
/* PINS: the level at each pin; bits 7:0, read-only, reset 0bxxxxxxxx */
#define IN_C_PINS_BITPOS 0x0U
#define IN_C_PINS_MASK 0xFFU

/* DIR_C: Port C direction; 8 bits, read-write, data 0x27 (given), io 0x07 (given), reset 0x00, page 73 */
#define DIR_C_DATA_ADDR 0x27U
#define DIR_C_IO_ADDR 0x07U
#define DIR_C_SINGLE_BIT 1U
#define DIR_C_RESET 0x00U
/* PINS: 1 makes the pin an output; bits 7:0, read-write, reset 0x00 */
#define DIR_C_PINS_BITPOS 0x0U
#define DIR_C_PINS_MASK 0xFFU

/* OUT_C: Port C output latch; 8 bits, read-write, data 0x28 (given), io 0x08 (given), reset 0x00, page 73 */
#define OUT_C_DATA_ADDR 0x28U
#define OUT_C_IO_ADDR 0x08U
#define OUT_C_SINGLE_BIT 1U
#define OUT_C_RESET 0x00U
/* PINS: output level, or pull-up while the pin is an input; bits 7:0, read-write, reset 0x00 */
#define OUT_C_PINS_BITPOS 0x0U
#define OUT_C_PINS_MASK 0xFFU

/* TMR_FLAGS: Timer flags; 8 bits, read-write, data 0x35 (given), io 0x15 (given), reset 0x00, page 94 */
/* Reserved bits 0xC0: write 0. */
/* Reserved bits 0x10: write 0. */
#define TMR_FLAGS_DATA_ADDR 0x35U
#define TMR_FLAGS_IO_ADDR 0x15U
#define TMR_FLAGS_SINGLE_BIT 1U
#define TMR_FLAGS_RESET 0x00U
/* CAPTURE: timer 1 has captured its counter; bit 5, read-write, writing 1 clears it, reset 0x00 */
#define TMR_FLAGS_CAPTURE_BITPOS 5U
#define TMR_FLAGS_CAPTURE_MASK 0x20U
/* MATCH1: timer 1 has reached its compare value; bit 3, read-write, writing 1 clears it, reset 0x00 */
#define TMR_FLAGS_MATCH1_BITPOS 3U
#define TMR_FLAGS_MATCH1_MASK 0x08U
/* OVERFLOW1: timer 1 has overflowed; bit 2, read-write, writing 1 clears it, reset 0x00 */
#define TMR_FLAGS_OVERFLOW1_BITPOS 2U
#define TMR_FLAGS_OVERFLOW1_MASK 0x04U
/* MATCH: timer 0 has reached its compare value; bit 1, read-write, writing 1 clears it, reset 0x00 */
#define TMR_FLAGS_MATCH_BITPOS 1U
#define TMR_FLAGS_MATCH_MASK 0x02U
/* OVERFLOW: timer 0 has overflowed; bit 0, read-write, writing 1 clears it, reset 0x00 */
#define TMR_FLAGS_OVERFLOW_BITPOS 0x0U
#define TMR_FLAGS_OVERFLOW_MASK 0x01U

/* EE_CTRL: EEPROM control; 8 bits, read-write, data 0x3F (given), io 0x1F (given), reset 0x00, page 41 */
#define EE_CTRL_DATA_ADDR 0x3FU
#define EE_CTRL_IO_ADDR 0x1FU
#define EE_CTRL_SINGLE_BIT 1U
#define EE_CTRL_RESET 0x00U
/* IRQ: bit 3, read-write, reset 0x00 */
#define EE_CTRL_IRQ_BITPOS 3U
#define EE_CTRL_IRQ_MASK 0x08U
/* MASTER: bit 2, read-write, reset 0x00 */
#define EE_CTRL_MASTER_BITPOS 2U
#define EE_CTRL_MASTER_MASK 0x04U
/* WRITE: bit 1, read-write, reset 0x00 */
#define EE_CTRL_WRITE_BITPOS 1U
#define EE_CTRL_WRITE_MASK 0x02U
/* READ: bit 0, read-write, reset 0x00 */
#define EE_CTRL_READ_BITPOS 0x0U
#define EE_CTRL_READ_MASK 0x01U

/* EE_DATA: EEPROM data; 8 bits, read-write, data 0x40 (given), io 0x20 (given), reset 0x00, page 41 */
#define EE_DATA_DATA_ADDR 0x40U
#define EE_DATA_IO_ADDR 0x20U
#define EE_DATA_SINGLE_BIT 0x0U
#define EE_DATA_RESET 0x00U

/* EE_ADDRESS: EEPROM address; 16 bits, read-write, data 0x41 (given), io 0x21 (given), reset 0x0000, page 41 */
/* Reserved bits 0xFC00: write 0. */
#define EE_ADDRESS_DATA_ADDR 0x41U
#define EE_ADDRESS_IO_ADDR 0x21U
#define EE_ADDRESS_SINGLE_BIT 0x0U
#define EE_ADDRESS_RESET 0x0000U
/* VALUE: a byte of the EEPROM; bits 9:0, read-write, reset 0x000 */
#define EE_ADDRESS_VALUE_BITPOS 0x0U
#define EE_ADDRESS_VALUE_MASK 0x03FFU

/* TMR0_CTRL: Timer 0 control; 8 bits, read-write, data 0x45 (given), io 0x25 (given), reset 0x00, page 92 */
/* Reserved bits 0xF8: write 0. */
#define TMR0_CTRL_DATA_ADDR 0x45U
#define TMR0_CTRL_IO_ADDR 0x25U
#define TMR0_CTRL_SINGLE_BIT 0x0U
#define TMR0_CTRL_RESET 0x00U
/* CLOCK: clock of the counter; bits 2:0, read-write, reset 0x00 */
#define TMR0_CTRL_CLOCK_BITPOS 0x0U
#define TMR0_CTRL_CLOCK_MASK 0x07U
#define TMR0_CTRL_CLOCK_STOPPED 0x00U
#define TMR0_CTRL_CLOCK_DIV1 0x01U
#define TMR0_CTRL_CLOCK_DIV8 0x02U
#define TMR0_CTRL_CLOCK_DIV64 0x03U
#define TMR0_CTRL_CLOCK_DIV256 0x04U
#define TMR0_CTRL_CLOCK_DIV1024 0x05U

/* TMR0_COUNT: Timer 0 counter; 8 bits, read-write, data 0x46 (given), io 0x26 (given), reset 0x00, page 92 */
#define TMR0_COUNT_DATA_ADDR 0x46U
#define TMR0_COUNT_IO_ADDR 0x26U
#define TMR0_COUNT_SINGLE_BIT 0x0U
#define TMR0_COUNT_RESET 0x00U

/* CLOCK_ENABLE: Clock of each peripheral; 8 bits, read-write, data 0x47 (given), io 0x27 (given), reset 0xFF, page 37 */
#define CLOCK_ENABLE_DATA_ADDR 0x47U
#define CLOCK_ENABLE_IO_ADDR 0x27U
#define CLOCK_ENABLE_SINGLE_BIT 0x0U
#define CLOCK_ENABLE_RESET 0xFFU
/* WIRE: bit 7, read-write, reset 0x01 */
#define CLOCK_ENABLE_WIRE_BITPOS 7U
#define CLOCK_ENABLE_WIRE_MASK 0x80U
/* SPI: bit 6, read-write, reset 0x01 */
#define CLOCK_ENABLE_SPI_BITPOS 6U
#define CLOCK_ENABLE_SPI_MASK 0x40U
/* UART1: bit 5, read-write, reset 0x01 */
#define CLOCK_ENABLE_UART1_BITPOS 5U
#define CLOCK_ENABLE_UART1_MASK 0x20U
/* UART0: bit 4, read-write, reset 0x01 */
#define CLOCK_ENABLE_UART0_BITPOS 4U
#define CLOCK_ENABLE_UART0_MASK 0x10U
/* ADC: bit 3, read-write, reset 0x01 */
#define CLOCK_ENABLE_ADC_BITPOS 3U
#define CLOCK_ENABLE_ADC_MASK 0x08U
/* TMR2: bit 2, read-write, reset 0x01 */
#define CLOCK_ENABLE_TMR2_BITPOS 2U
#define CLOCK_ENABLE_TMR2_MASK 0x04U
/* TMR1: bit 1, read-write, reset 0x01 */
#define CLOCK_ENABLE_TMR1_BITPOS 1U
#define CLOCK_ENABLE_TMR1_MASK 0x02U
/* TMR0: bit 0, read-write, reset 0x01 */
#define CLOCK_ENABLE_TMR0_BITPOS 0x0U
#define CLOCK_ENABLE_TMR0_MASK 0x01U

/* STACK: Stack pointer; 16 bits, read-write, data 0x5D (given), io 0x3D (given), reset 0x04FF, page 14 */
#define STACK_DATA_ADDR 0x5DU
#define STACK_IO_ADDR 0x3DU
#define STACK_SINGLE_BIT 0x0U
#define STACK_RESET 0x04FFU

/* CPU_STATUS: CPU status; 8 bits, read-write, data 0x5F (given), io 0x3F (given), reset 0x00, page 13 */
#define CPU_STATUS_DATA_ADDR 0x5FU
#define CPU_STATUS_IO_ADDR 0x3FU
#define CPU_STATUS_SINGLE_BIT 0x0U
#define CPU_STATUS_RESET 0x00U
/* I: bit 7, read-write, reset 0x00 */
#define CPU_STATUS_I_BITPOS 7U
#define CPU_STATUS_I_MASK 0x80U
/* T: bit 6, read-write, reset 0x00 */
#define CPU_STATUS_T_BITPOS 6U
#define CPU_STATUS_T_MASK 0x40U
/* H: bit 5, read-write, reset 0x00 */
#define CPU_STATUS_H_BITPOS 5U
#define CPU_STATUS_H_MASK 0x20U
/* S: bit 4, read-write, reset 0x00 */
#define CPU_STATUS_S_BITPOS 4U
#define CPU_STATUS_S_MASK 0x10U
/* V: bit 3, read-write, reset 0x00 */
#define CPU_STATUS_V_BITPOS 3U
#define CPU_STATUS_V_MASK 0x08U
/* N: bit 2, read-write, reset 0x00 */
#define CPU_STATUS_N_BITPOS 2U
#define CPU_STATUS_N_MASK 0x04U
/* Z: bit 1, read-write, reset 0x00 */
#define CPU_STATUS_Z_BITPOS 1U
#define CPU_STATUS_Z_MASK 0x02U
/* C: bit 0, read-write, reset 0x00 */
#define CPU_STATUS_C_BITPOS 0x0U
#define CPU_STATUS_C_MASK 0x01U

/* WATCHDOG: Watchdog control; 8 bits, read-write, data 0x60 (given), reset 0x00, page 55 */
#define WATCHDOG_DATA_ADDR 0x60U
#define WATCHDOG_SINGLE_BIT 0x0U
#define WATCHDOG_RESET 0x00U
/* FLAG: the watchdog has run out; bit 7, read-write, writing 1 clears it, reset 0x00 */
#define WATCHDOG_FLAG_BITPOS 7U
#define WATCHDOG_FLAG_MASK 0x80U
/* IRQ: asks for an interrupt instead of a reset; bit 6, read-write, reset 0x00 */
#define WATCHDOG_IRQ_BITPOS 6U
#define WATCHDOG_IRQ_MASK 0x40U
/* PERIOD: 16 ms, doubled for each step; its high bit stands apart; bits 5,2:0, read-write, reset 0x00, in pieces: EXTRACT and INSERT use an argument more than once */
#define WATCHDOG_PERIOD_BITPOS 0x0U
#define WATCHDOG_PERIOD_MASK 0x27U
/* UNLOCK: must be 1 in the write that comes before a change; bit 4, read-write, reset 0x00 */
#define WATCHDOG_UNLOCK_BITPOS 4U
#define WATCHDOG_UNLOCK_MASK 0x10U
/* ENABLE: switches the watchdog on; bit 3, read-write, reset 0x00 */
#define WATCHDOG_ENABLE_BITPOS 3U
#define WATCHDOG_ENABLE_MASK 0x08U

/* TMR_IRQ: Timer interrupt enable; 8 bits, read-write, data 0x6F (given), reset 0x00, page 94 */
#define TMR_IRQ_DATA_ADDR 0x6FU
#define TMR_IRQ_SINGLE_BIT 0x0U
#define TMR_IRQ_RESET 0x00U
/* CAPTURE: bit 5, read-write, reset 0x00 */
#define TMR_IRQ_CAPTURE_BITPOS 5U
#define TMR_IRQ_CAPTURE_MASK 0x20U
/* MATCH1: bit 3, read-write, reset 0x00 */
#define TMR_IRQ_MATCH1_BITPOS 3U
#define TMR_IRQ_MATCH1_MASK 0x08U
/* OVERFLOW1: bit 2, read-write, reset 0x00 */
#define TMR_IRQ_OVERFLOW1_BITPOS 2U
#define TMR_IRQ_OVERFLOW1_MASK 0x04U
/* MATCH: bit 1, read-write, reset 0x00 */
#define TMR_IRQ_MATCH_BITPOS 1U
#define TMR_IRQ_MATCH_MASK 0x02U
/* OVERFLOW: bit 0, read-write, reset 0x00 */
#define TMR_IRQ_OVERFLOW_BITPOS 0x0U
#define TMR_IRQ_OVERFLOW_MASK 0x01U

/* ADC_RESULT: Converter result; 16 bits, read-only, data 0x78 (given), reset 0x0000, page 106 */
/* Access the halves in order: read low half first, write either half first, both through ADC_TEMP. */
#define ADC_RESULT_DATA_ADDR 0x78U
#define ADC_RESULT_SINGLE_BIT 0x0U
#define ADC_RESULT_RESET 0x0000U
/* VALUE: the result, right-adjusted; bits 9:0, read-only, reset 0x000 */
#define ADC_RESULT_VALUE_BITPOS 0x0U
#define ADC_RESULT_VALUE_MASK 0x03FFU

/* ADC_RESULT_L: low half of Converter result; 8 bits, read-only, data 0x78 (given), reset 0x00, page 106 */
#define ADC_RESULT_L_DATA_ADDR 0x78U
#define ADC_RESULT_L_SINGLE_BIT 0x0U
#define ADC_RESULT_L_RESET 0x00U

/* ADC_RESULT_H: high half of Converter result; 8 bits, read-only, data 0x79 (given), reset 0x00, page 106 */
#define ADC_RESULT_H_DATA_ADDR 0x79U
#define ADC_RESULT_H_SINGLE_BIT 0x0U
#define ADC_RESULT_H_RESET 0x00U

/* ADC_CTRL: Converter control; 8 bits, read-write, data 0x7A (given), reset 0x00, page 104 */
#define ADC_CTRL_DATA_ADDR 0x7AU
#define ADC_CTRL_SINGLE_BIT 0x0U
#define ADC_CTRL_RESET 0x00U
/* ENABLE: switches the converter on; bit 7, read-write, reset 0x00 */
#define ADC_CTRL_ENABLE_BITPOS 7U
#define ADC_CTRL_ENABLE_MASK 0x80U
/* START: starts a conversion; 1 until it has ended; bit 6, read-write, reset 0x00 */
#define ADC_CTRL_START_BITPOS 6U
#define ADC_CTRL_START_MASK 0x40U
/* AUTO: starts the next conversion by itself; bit 5, read-write, reset 0x00 */
#define ADC_CTRL_AUTO_BITPOS 5U
#define ADC_CTRL_AUTO_MASK 0x20U
/* DONE: a result is ready; bit 4, read-write, writing 1 clears it, reset 0x00 */
#define ADC_CTRL_DONE_BITPOS 4U
#define ADC_CTRL_DONE_MASK 0x10U
/* IRQ: asks for an interrupt when a result is ready; bit 3, read-write, reset 0x00 */
#define ADC_CTRL_IRQ_BITPOS 3U
#define ADC_CTRL_IRQ_MASK 0x08U
/* CLOCK: divides the CPU clock for the converter; bits 2:0, read-write, reset 0x00 */
#define ADC_CTRL_CLOCK_BITPOS 0x0U
#define ADC_CTRL_CLOCK_MASK 0x07U
#define ADC_CTRL_CLOCK_DIV2 0x01U
#define ADC_CTRL_CLOCK_DIV4 0x02U
#define ADC_CTRL_CLOCK_DIV8 0x03U
#define ADC_CTRL_CLOCK_DIV16 0x04U
#define ADC_CTRL_CLOCK_DIV32 0x05U
#define ADC_CTRL_CLOCK_DIV64 0x06U
#define ADC_CTRL_CLOCK_DIV128 0x07U

/* ADC_MUX: Converter input; 8 bits, read-write, data 0x7C (given), reset 0x00, page 105 */
/* Reserved bits 0x20: write 0. */
#define ADC_MUX_DATA_ADDR 0x7CU
#define ADC_MUX_SINGLE_BIT 0x0U
#define ADC_MUX_RESET 0x00U
/* REFERENCE: what counts as full scale; bits 7:6, read-write, reset 0x00 */
#define ADC_MUX_REFERENCE_BITPOS 6U
#define ADC_MUX_REFERENCE_MASK 0xC0U
#define ADC_MUX_REFERENCE_PIN 0x00U
#define ADC_MUX_REFERENCE_SUPPLY 0x40U
#define ADC_MUX_REFERENCE_INTERNAL 0xC0U
/* CHANNEL: input; bits 4:0, read-write, reset 0x00 */
#define ADC_MUX_CHANNEL_BITPOS 0x0U
#define ADC_MUX_CHANNEL_MASK 0x1FU

/* TMR1_CTRL: Timer 1 control; 8 bits, read-write, data 0x81 (given), reset 0x00, page 98 */
/* Reserved bits 0x80: write 0. */
/* Reserved bits 0x30: write 0. */
#define TMR1_CTRL_DATA_ADDR 0x81U
#define TMR1_CTRL_SINGLE_BIT 0x0U
#define TMR1_CTRL_RESET 0x00U
/* EDGE: 1 captures at a rising edge; bit 6, read-write, reset 0x00 */
#define TMR1_CTRL_EDGE_BITPOS 6U
#define TMR1_CTRL_EDGE_MASK 0x40U
/* CLEAR: starts again from 0 at the compare value; bit 3, read-write, reset 0x00 */
#define TMR1_CTRL_CLEAR_BITPOS 3U
#define TMR1_CTRL_CLEAR_MASK 0x08U
/* CLOCK: clock of the counter; bits 2:0, read-write, reset 0x00 */
#define TMR1_CTRL_CLOCK_BITPOS 0x0U
#define TMR1_CTRL_CLOCK_MASK 0x07U
#define TMR1_CTRL_CLOCK_STOPPED 0x00U
#define TMR1_CTRL_CLOCK_DIV1 0x01U
#define TMR1_CTRL_CLOCK_DIV8 0x02U
#define TMR1_CTRL_CLOCK_DIV64 0x03U
#define TMR1_CTRL_CLOCK_DIV256 0x04U
#define TMR1_CTRL_CLOCK_DIV1024 0x05U

/* TMR1_COUNT: Timer 1 counter; 16 bits, read-write, data 0x84 (given), reset 0x0000, page 97 */
/* Access the halves in order: read low half first, write high half first, both through TMR1_TEMP. */
/* WRITE uses its argument twice: give it a variable, not a register. */
#define TMR1_COUNT_DATA_ADDR 0x84U
#define TMR1_COUNT_SINGLE_BIT 0x0U
#define TMR1_COUNT_RESET 0x0000U

/* TMR1_COUNT_L: low half of Timer 1 counter; 8 bits, read-write, data 0x84 (given), reset 0x00, page 97 */
#define TMR1_COUNT_L_DATA_ADDR 0x84U
#define TMR1_COUNT_L_SINGLE_BIT 0x0U
#define TMR1_COUNT_L_RESET 0x00U

/* TMR1_COUNT_H: high half of Timer 1 counter; 8 bits, read-write, data 0x85 (given), reset 0x00, page 97 */
#define TMR1_COUNT_H_DATA_ADDR 0x85U
#define TMR1_COUNT_H_SINGLE_BIT 0x0U
#define TMR1_COUNT_H_RESET 0x00U

/* TMR1_CAPTURE: Timer 1 capture; 16 bits, read-only, data 0x86 (given), reset 0x0000, page 97 */
/* Access the halves in order: read low half first, write either half first, both through TMR1_TEMP. */
#define TMR1_CAPTURE_DATA_ADDR 0x86U
#define TMR1_CAPTURE_SINGLE_BIT 0x0U
#define TMR1_CAPTURE_RESET 0x0000U

/* TMR1_CAPTURE_L: low half of Timer 1 capture; 8 bits, read-only, data 0x86 (given), reset 0x00, page 97 */
#define TMR1_CAPTURE_L_DATA_ADDR 0x86U
#define TMR1_CAPTURE_L_SINGLE_BIT 0x0U
#define TMR1_CAPTURE_L_RESET 0x00U

/* TMR1_CAPTURE_H: high half of Timer 1 capture; 8 bits, read-only, data 0x87 (given), reset 0x00, page 97 */
#define TMR1_CAPTURE_H_DATA_ADDR 0x87U
#define TMR1_CAPTURE_H_SINGLE_BIT 0x0U
#define TMR1_CAPTURE_H_RESET 0x00U

/* TMR1_COMPARE: Timer 1 compare; 16 bits, read-write, data 0x88 (given), reset 0x0000, page 97 */
/* Access the halves in order: read low half first, write high half first, both through TMR1_TEMP. */
/* WRITE uses its argument twice: give it a variable, not a register. */
#define TMR1_COMPARE_DATA_ADDR 0x88U
#define TMR1_COMPARE_SINGLE_BIT 0x0U
#define TMR1_COMPARE_RESET 0x0000U

/* TMR1_COMPARE_L: low half of Timer 1 compare; 8 bits, read-write, data 0x88 (given), reset 0x00, page 97 */
#define TMR1_COMPARE_L_DATA_ADDR 0x88U
#define TMR1_COMPARE_L_SINGLE_BIT 0x0U
#define TMR1_COMPARE_L_RESET 0x00U

/* TMR1_COMPARE_H: high half of Timer 1 compare; 8 bits, read-write, data 0x89 (given), reset 0x00, page 97 */
#define TMR1_COMPARE_H_DATA_ADDR 0x89U
#define TMR1_COMPARE_H_SINGLE_BIT 0x0U
#define TMR1_COMPARE_H_RESET 0x00U

/* UART0_STATUS: Serial port status; 8 bits, read-write, data 0xC0 (base and offset), reset 0x20, page 124 */
/* Reserved bits 0x01: write 0. */
#define UART0_STATUS_DATA_ADDR 0xC0U
#define UART0_STATUS_SINGLE_BIT 0x0U
#define UART0_STATUS_RESET 0x20U
/* RECEIVED: a byte is waiting; bit 7, read-only, reset 0x00 */
#define UART0_STATUS_RECEIVED_BITPOS 7U
#define UART0_STATUS_RECEIVED_MASK 0x80U
/* SENT: the last byte has left; bit 6, read-write, writing 1 clears it, reset 0x00 */
#define UART0_STATUS_SENT_BITPOS 6U
#define UART0_STATUS_SENT_MASK 0x40U
/* EMPTY: the next byte may be written; bit 5, read-only, reset 0x01 */
#define UART0_STATUS_EMPTY_BITPOS 5U
#define UART0_STATUS_EMPTY_MASK 0x20U
/* ERRORS: frame, overrun and parity error of the waiting byte; bits 4:2, read-only, reset 0x00 */
#define UART0_STATUS_ERRORS_BITPOS 2U
#define UART0_STATUS_ERRORS_MASK 0x1CU
/* DOUBLE: doubles the rate; bit 1, read-write, reset 0x00 */
#define UART0_STATUS_DOUBLE_BITPOS 1U
#define UART0_STATUS_DOUBLE_MASK 0x02U

/* UART0_CTRL: Serial port control; 8 bits, read-write, data 0xC1 (base and offset), reset 0x00, page 125 */
#define UART0_CTRL_DATA_ADDR 0xC1U
#define UART0_CTRL_SINGLE_BIT 0x0U
#define UART0_CTRL_RESET 0x00U
/* RX_IRQ: bit 7, read-write, reset 0x00 */
#define UART0_CTRL_RX_IRQ_BITPOS 7U
#define UART0_CTRL_RX_IRQ_MASK 0x80U
/* TX_IRQ: bit 6, read-write, reset 0x00 */
#define UART0_CTRL_TX_IRQ_BITPOS 6U
#define UART0_CTRL_TX_IRQ_MASK 0x40U
/* EMPTY_IRQ: bit 5, read-write, reset 0x00 */
#define UART0_CTRL_EMPTY_IRQ_BITPOS 5U
#define UART0_CTRL_EMPTY_IRQ_MASK 0x20U
/* RX_ENABLE: bit 4, read-write, reset 0x00 */
#define UART0_CTRL_RX_ENABLE_BITPOS 4U
#define UART0_CTRL_RX_ENABLE_MASK 0x10U
/* TX_ENABLE: bit 3, read-write, reset 0x00 */
#define UART0_CTRL_TX_ENABLE_BITPOS 3U
#define UART0_CTRL_TX_ENABLE_MASK 0x08U

/* UART0_DIVISOR: Serial port rate; 16 bits, read-write, data 0xC4 (base and offset), reset 0x0000, page 127 */
/* Reserved bits 0xF000: write 0. */
#define UART0_DIVISOR_DATA_ADDR 0xC4U
#define UART0_DIVISOR_SINGLE_BIT 0x0U
#define UART0_DIVISOR_RESET 0x0000U
/* VALUE: CPU clock / (16 * rate) - 1; bits 11:0, read-write, reset 0x000 */
#define UART0_DIVISOR_VALUE_BITPOS 0x0U
#define UART0_DIVISOR_VALUE_MASK 0x0FFFU

/* UART0_RX: Received byte; 8 bits, read-only, data 0xC6 (base and offset), reset 0x00, page 123 */
/* Reading has an effect: reading changes it. */
#define UART0_RX_DATA_ADDR 0xC6U
#define UART0_RX_SINGLE_BIT 0x0U
#define UART0_RX_RESET 0x00U

/* UART0_TX: Byte to send; 8 bits, write-only, data 0xC6 (base and offset), page 123 */
#define UART0_TX_DATA_ADDR 0xC6U
#define UART0_TX_SINGLE_BIT 0x0U

/* UART1_STATUS: Serial port status; 8 bits, read-write, data 0xC8 (base and offset), reset 0x20, page 124 */
/* Reserved bits 0x01: write 0. */
#define UART1_STATUS_DATA_ADDR 0xC8U
#define UART1_STATUS_SINGLE_BIT 0x0U
#define UART1_STATUS_RESET 0x20U
/* RECEIVED: a byte is waiting; bit 7, read-only, reset 0x00 */
#define UART1_STATUS_RECEIVED_BITPOS 7U
#define UART1_STATUS_RECEIVED_MASK 0x80U
/* SENT: the last byte has left; bit 6, read-write, writing 1 clears it, reset 0x00 */
#define UART1_STATUS_SENT_BITPOS 6U
#define UART1_STATUS_SENT_MASK 0x40U
/* EMPTY: the next byte may be written; bit 5, read-only, reset 0x01 */
#define UART1_STATUS_EMPTY_BITPOS 5U
#define UART1_STATUS_EMPTY_MASK 0x20U
/* ERRORS: frame, overrun and parity error of the waiting byte; bits 4:2, read-only, reset 0x00 */
#define UART1_STATUS_ERRORS_BITPOS 2U
#define UART1_STATUS_ERRORS_MASK 0x1CU
/* DOUBLE: doubles the rate; bit 1, read-write, reset 0x00 */
#define UART1_STATUS_DOUBLE_BITPOS 1U
#define UART1_STATUS_DOUBLE_MASK 0x02U

/* UART1_CTRL: Serial port control; 8 bits, read-write, data 0xC9 (base and offset), reset 0x00, page 125 */
#define UART1_CTRL_DATA_ADDR 0xC9U
#define UART1_CTRL_SINGLE_BIT 0x0U
#define UART1_CTRL_RESET 0x00U
/* RX_IRQ: bit 7, read-write, reset 0x00 */
#define UART1_CTRL_RX_IRQ_BITPOS 7U
#define UART1_CTRL_RX_IRQ_MASK 0x80U
/* TX_IRQ: bit 6, read-write, reset 0x00 */
#define UART1_CTRL_TX_IRQ_BITPOS 6U
#define UART1_CTRL_TX_IRQ_MASK 0x40U
/* EMPTY_IRQ: bit 5, read-write, reset 0x00 */
#define UART1_CTRL_EMPTY_IRQ_BITPOS 5U
#define UART1_CTRL_EMPTY_IRQ_MASK 0x20U
/* RX_ENABLE: bit 4, read-write, reset 0x00 */
#define UART1_CTRL_RX_ENABLE_BITPOS 4U
#define UART1_CTRL_RX_ENABLE_MASK 0x10U
/* TX_ENABLE: bit 3, read-write, reset 0x00 */
#define UART1_CTRL_TX_ENABLE_BITPOS 3U
#define UART1_CTRL_TX_ENABLE_MASK 0x08U

/* UART1_DIVISOR: Serial port rate; 16 bits, read-write, data 0xCC (base and offset), reset 0x0000, page 127 */
/* Reserved bits 0xF000: write 0. */
#define UART1_DIVISOR_DATA_ADDR 0xCCU
#define UART1_DIVISOR_SINGLE_BIT 0x0U
#define UART1_DIVISOR_RESET 0x0000U
/* VALUE: CPU clock / (16 * rate) - 1; bits 11:0, read-write, reset 0x000 */
#define UART1_DIVISOR_VALUE_BITPOS 0x0U
#define UART1_DIVISOR_VALUE_MASK 0x0FFFU

/* UART1_RX: Received byte; 8 bits, read-only, data 0xCE (base and offset), reset 0x00, page 123 */
/* Reading has an effect: reading changes it. */
#define UART1_RX_DATA_ADDR 0xCEU
#define UART1_RX_SINGLE_BIT 0x0U
#define UART1_RX_RESET 0x00U

/* UART1_TX: Byte to send; 8 bits, write-only, data 0xCE (base and offset), page 123 */
#define UART1_TX_DATA_ADDR 0xCEU
#define UART1_TX_SINGLE_BIT 0x0U

#ifndef __ASSEMBLER__
#include <stdint.h>

/* How C reaches a register. Define these beforehand to run the same code on another machine. */
#ifndef SORREL40_REG8
#define SORREL40_REG8(address) (*(volatile uint8_t *)(address))
#endif
#ifndef SORREL40_REG16
#define SORREL40_REG16(address) (*(volatile uint16_t *)(address))
#endif

#define IN_A SORREL40_REG8(IN_A_DATA_ADDR)
#define IN_A_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define IN_A_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define DIR_A SORREL40_REG8(DIR_A_DATA_ADDR)
#define DIR_A_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define DIR_A_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define OUT_A SORREL40_REG8(OUT_A_DATA_ADDR)
#define OUT_A_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define OUT_A_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define IN_B SORREL40_REG8(IN_B_DATA_ADDR)
#define IN_B_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define IN_B_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define DIR_B SORREL40_REG8(DIR_B_DATA_ADDR)
#define DIR_B_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define DIR_B_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define OUT_B SORREL40_REG8(OUT_B_DATA_ADDR)
#define OUT_B_PULLS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x0FU)))
#define OUT_B_PULLS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xF0U) | ((uint8_t)(field) & 0x0FU)))
#define IN_C SORREL40_REG8(IN_C_DATA_ADDR)
#define IN_C_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define IN_C_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define DIR_C SORREL40_REG8(DIR_C_DATA_ADDR)
#define DIR_C_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define DIR_C_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define OUT_C SORREL40_REG8(OUT_C_DATA_ADDR)
#define OUT_C_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define OUT_C_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define TMR_FLAGS SORREL40_REG8(TMR_FLAGS_DATA_ADDR)
#define TMR_FLAGS_CAPTURE_TO_CLEAR(value) ((uint8_t)0x20U)
#define TMR_FLAGS_CAPTURE_CLEAR() (TMR_FLAGS = TMR_FLAGS_CAPTURE_TO_CLEAR(TMR_FLAGS))
#define TMR_FLAGS_MATCH1_TO_CLEAR(value) ((uint8_t)0x08U)
#define TMR_FLAGS_MATCH1_CLEAR() (TMR_FLAGS = TMR_FLAGS_MATCH1_TO_CLEAR(TMR_FLAGS))
#define TMR_FLAGS_OVERFLOW1_TO_CLEAR(value) ((uint8_t)0x04U)
#define TMR_FLAGS_OVERFLOW1_CLEAR() (TMR_FLAGS = TMR_FLAGS_OVERFLOW1_TO_CLEAR(TMR_FLAGS))
#define TMR_FLAGS_MATCH_TO_CLEAR(value) ((uint8_t)0x02U)
#define TMR_FLAGS_MATCH_CLEAR() (TMR_FLAGS = TMR_FLAGS_MATCH_TO_CLEAR(TMR_FLAGS))
#define TMR_FLAGS_OVERFLOW_TO_CLEAR(value) ((uint8_t)0x01U)
#define TMR_FLAGS_OVERFLOW_CLEAR() (TMR_FLAGS = TMR_FLAGS_OVERFLOW_TO_CLEAR(TMR_FLAGS))
#define EE_CTRL SORREL40_REG8(EE_CTRL_DATA_ADDR)
#define EE_DATA SORREL40_REG8(EE_DATA_DATA_ADDR)
#define EE_ADDRESS SORREL40_REG16(EE_ADDRESS_DATA_ADDR)
#define EE_ADDRESS_VALUE_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0x03FFU)))
#define EE_ADDRESS_VALUE_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0xFC00U) | ((uint16_t)(field) & 0x03FFU)))
#define TMR0_CTRL SORREL40_REG8(TMR0_CTRL_DATA_ADDR)
#define TMR0_CTRL_CLOCK_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x07U)))
#define TMR0_CTRL_CLOCK_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xF8U) | ((uint8_t)(field) & 0x07U)))
#define TMR0_COUNT SORREL40_REG8(TMR0_COUNT_DATA_ADDR)
#define CLOCK_ENABLE SORREL40_REG8(CLOCK_ENABLE_DATA_ADDR)
#define STACK SORREL40_REG16(STACK_DATA_ADDR)
#define CPU_STATUS SORREL40_REG8(CPU_STATUS_DATA_ADDR)
#define WATCHDOG SORREL40_REG8(WATCHDOG_DATA_ADDR)
#define WATCHDOG_FLAG_TO_CLEAR(value) ((uint8_t)(((uint8_t)(value) & 0x7FU) | 0x80U))
#define WATCHDOG_FLAG_CLEAR() (WATCHDOG = WATCHDOG_FLAG_TO_CLEAR(WATCHDOG))
#define WATCHDOG_PERIOD_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x07U) | (((uint8_t)(value) & 0x20U) >> 2)))
#define WATCHDOG_PERIOD_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xD8U) | ((uint8_t)(field) & 0x07U) | (((uint8_t)(field) & 0x08U) << 2)))
#define TMR_IRQ SORREL40_REG8(TMR_IRQ_DATA_ADDR)
#define ADC_RESULT SORREL40_REG16(ADC_RESULT_DATA_ADDR)
#define ADC_RESULT_READ_INTO(variable) ((variable) = ((uint16_t)ADC_RESULT_L), (variable) = (uint16_t)((variable) | ((uint16_t)(((uint16_t)ADC_RESULT_H) << 8))))
#define ADC_RESULT_VALUE_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0x03FFU)))
#define ADC_RESULT_VALUE_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0xFC00U) | ((uint16_t)(field) & 0x03FFU)))
#define ADC_RESULT_L SORREL40_REG8(ADC_RESULT_L_DATA_ADDR)
#define ADC_RESULT_H SORREL40_REG8(ADC_RESULT_H_DATA_ADDR)
#define ADC_CTRL SORREL40_REG8(ADC_CTRL_DATA_ADDR)
#define ADC_CTRL_DONE_TO_CLEAR(value) ((uint8_t)(((uint8_t)(value) & 0xEFU) | 0x10U))
#define ADC_CTRL_DONE_CLEAR() (ADC_CTRL = ADC_CTRL_DONE_TO_CLEAR(ADC_CTRL))
#define ADC_CTRL_CLOCK_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x07U)))
#define ADC_CTRL_CLOCK_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xF8U) | ((uint8_t)(field) & 0x07U)))
#define ADC_MUX SORREL40_REG8(ADC_MUX_DATA_ADDR)
#define ADC_MUX_REFERENCE_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0xC0U) >> 6)))
#define ADC_MUX_REFERENCE_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x3FU) | (((uint8_t)(field) & 0x03U) << 6)))
#define ADC_MUX_CHANNEL_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x1FU)))
#define ADC_MUX_CHANNEL_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xE0U) | ((uint8_t)(field) & 0x1FU)))
#define TMR1_CTRL SORREL40_REG8(TMR1_CTRL_DATA_ADDR)
#define TMR1_CTRL_CLOCK_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x07U)))
#define TMR1_CTRL_CLOCK_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xF8U) | ((uint8_t)(field) & 0x07U)))
#define TMR1_COUNT SORREL40_REG16(TMR1_COUNT_DATA_ADDR)
#define TMR1_COUNT_READ_INTO(variable) ((variable) = ((uint16_t)TMR1_COUNT_L), (variable) = (uint16_t)((variable) | ((uint16_t)(((uint16_t)TMR1_COUNT_H) << 8))))
#define TMR1_COUNT_WRITE(value) (TMR1_COUNT_H = (uint8_t)((uint16_t)(value) >> 8), TMR1_COUNT_L = (uint8_t)((uint16_t)(value) & 0xFFU))
#define TMR1_COUNT_L SORREL40_REG8(TMR1_COUNT_L_DATA_ADDR)
#define TMR1_COUNT_H SORREL40_REG8(TMR1_COUNT_H_DATA_ADDR)
#define TMR1_CAPTURE SORREL40_REG16(TMR1_CAPTURE_DATA_ADDR)
#define TMR1_CAPTURE_READ_INTO(variable) ((variable) = ((uint16_t)TMR1_CAPTURE_L), (variable) = (uint16_t)((variable) | ((uint16_t)(((uint16_t)TMR1_CAPTURE_H) << 8))))
#define TMR1_CAPTURE_L SORREL40_REG8(TMR1_CAPTURE_L_DATA_ADDR)
#define TMR1_CAPTURE_H SORREL40_REG8(TMR1_CAPTURE_H_DATA_ADDR)
#define TMR1_COMPARE SORREL40_REG16(TMR1_COMPARE_DATA_ADDR)
#define TMR1_COMPARE_READ_INTO(variable) ((variable) = ((uint16_t)TMR1_COMPARE_L), (variable) = (uint16_t)((variable) | ((uint16_t)(((uint16_t)TMR1_COMPARE_H) << 8))))
#define TMR1_COMPARE_WRITE(value) (TMR1_COMPARE_H = (uint8_t)((uint16_t)(value) >> 8), TMR1_COMPARE_L = (uint8_t)((uint16_t)(value) & 0xFFU))
#define TMR1_COMPARE_L SORREL40_REG8(TMR1_COMPARE_L_DATA_ADDR)
#define TMR1_COMPARE_H SORREL40_REG8(TMR1_COMPARE_H_DATA_ADDR)
#define UART0_STATUS SORREL40_REG8(UART0_STATUS_DATA_ADDR)
#define UART0_STATUS_SENT_TO_CLEAR(value) ((uint8_t)(((uint8_t)(value) & 0x02U) | 0x40U))
#define UART0_STATUS_SENT_CLEAR() (UART0_STATUS = UART0_STATUS_SENT_TO_CLEAR(UART0_STATUS))
#define UART0_STATUS_ERRORS_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0x1CU) >> 2)))
#define UART0_STATUS_ERRORS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xE3U) | (((uint8_t)(field) & 0x07U) << 2)))
#define UART0_CTRL SORREL40_REG8(UART0_CTRL_DATA_ADDR)
#define UART0_DIVISOR SORREL40_REG16(UART0_DIVISOR_DATA_ADDR)
#define UART0_DIVISOR_VALUE_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0x0FFFU)))
#define UART0_DIVISOR_VALUE_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0xF000U) | ((uint16_t)(field) & 0x0FFFU)))
#define UART0_RX SORREL40_REG8(UART0_RX_DATA_ADDR)
#define UART0_TX SORREL40_REG8(UART0_TX_DATA_ADDR)
#define UART1_STATUS SORREL40_REG8(UART1_STATUS_DATA_ADDR)
#define UART1_STATUS_SENT_TO_CLEAR(value) ((uint8_t)(((uint8_t)(value) & 0x02U) | 0x40U))
#define UART1_STATUS_SENT_CLEAR() (UART1_STATUS = UART1_STATUS_SENT_TO_CLEAR(UART1_STATUS))
#define UART1_STATUS_ERRORS_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0x1CU) >> 2)))
#define UART1_STATUS_ERRORS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xE3U) | (((uint8_t)(field) & 0x07U) << 2)))
#define UART1_CTRL SORREL40_REG8(UART1_CTRL_DATA_ADDR)
#define UART1_DIVISOR SORREL40_REG16(UART1_DIVISOR_DATA_ADDR)
#define UART1_DIVISOR_VALUE_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0x0FFFU)))
#define UART1_DIVISOR_VALUE_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0xF000U) | ((uint16_t)(field) & 0x0FFFU)))
#define UART1_RX SORREL40_REG8(UART1_RX_DATA_ADDR)
#define UART1_TX SORREL40_REG8(UART1_TX_DATA_ADDR)

#endif /* __ASSEMBLER__ */
#endif /* SORREL40_H */
