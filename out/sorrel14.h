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

/* Plain numbers, for C and for the assembler. */

/* IN_B: Port B input pins; 8 bits, read-only, data 0x36 (given), io 0x16 (given), reset 0bxxxxxxxx, page 31 */
#define IN_B_DATA_ADDR 0x36U
#define IN_B_IO_ADDR 0x16U
#define IN_B_SINGLE_BIT 1U
#define IN_B_RESET 0x00U
#define IN_B_RESET_DEFINED 0x00U
/* PINS: the level at each pin; bits 5:0, read-only, reset 0bxxxxxx */
#define IN_B_PINS_BITPOS 0x0U
#define IN_B_PINS_MASK 0x3FU

/* DIR_B: Port B direction; 8 bits, read-write, data 0x37 (given), io 0x17 (given), reset 0x00, page 31 */
/* Reserved bits 0xC0: write 0. */
#define DIR_B_DATA_ADDR 0x37U
#define DIR_B_IO_ADDR 0x17U
#define DIR_B_SINGLE_BIT 1U
#define DIR_B_RESET 0x00U
/* PINS: 1 makes the pin an output; bits 5:0, read-write, reset 0x00 */
#define DIR_B_PINS_BITPOS 0x0U
#define DIR_B_PINS_MASK 0x3FU

/* OUT_B: Port B output latch; 8 bits, read-write, data 0x38 (given), io 0x18 (given), reset 0x00, page 31 */
/* Reserved bits 0xC0: write 0. */
#define OUT_B_DATA_ADDR 0x38U
#define OUT_B_IO_ADDR 0x18U
#define OUT_B_SINGLE_BIT 1U
#define OUT_B_RESET 0x00U
/* VENT_OPEN: runs the vent motor in the opening direction; bit 0, read-write, reset 0x00 */
#define OUT_B_VENT_OPEN_BITPOS 0x0U
#define OUT_B_VENT_OPEN_MASK 0x01U
/* VENT_CLOSE: runs the vent motor in the closing direction; bit 1, read-write, reset 0x00 */
#define OUT_B_VENT_CLOSE_BITPOS 1U
#define OUT_B_VENT_CLOSE_MASK 0x02U
/* LED: status lamp; bit 2, read-write, reset 0x00 */
#define OUT_B_LED_BITPOS 2U
#define OUT_B_LED_MASK 0x04U
/* PULLS: pull-up of pins 5 to 3 while they are inputs; bits 5:3, read-write, reset 0x00 */
#define OUT_B_PULLS_BITPOS 3U
#define OUT_B_PULLS_MASK 0x38U

/* IN_A: Port A input pins; 8 bits, read-only, data 0x39 (given), io 0x19 (given), reset 0bxxxxxxxx, page 32 */
#define IN_A_DATA_ADDR 0x39U
#define IN_A_IO_ADDR 0x19U
#define IN_A_SINGLE_BIT 1U
#define IN_A_RESET 0x00U
#define IN_A_RESET_DEFINED 0x00U
/* PINS: the level at each pin; bits 7:0, read-only, reset 0bxxxxxxxx */
#define IN_A_PINS_BITPOS 0x0U
#define IN_A_PINS_MASK 0xFFU

/* DIR_A: Port A direction; 8 bits, read-write, data 0x3A (given), io 0x1A (given), reset 0x00, page 32 */
#define DIR_A_DATA_ADDR 0x3AU
#define DIR_A_IO_ADDR 0x1AU
#define DIR_A_SINGLE_BIT 1U
#define DIR_A_RESET 0x00U
/* PINS: 1 makes the pin an output; bits 7:0, read-write, reset 0x00 */
#define DIR_A_PINS_BITPOS 0x0U
#define DIR_A_PINS_MASK 0xFFU

/* OUT_A: Port A output latch; 8 bits, read-write, data 0x3B (given), io 0x1B (given), reset 0x00, page 32 */
#define OUT_A_DATA_ADDR 0x3BU
#define OUT_A_IO_ADDR 0x1BU
#define OUT_A_SINGLE_BIT 1U
#define OUT_A_RESET 0x00U
/* PINS: output level, or pull-up while the pin is an input; bits 7:0, read-write, reset 0x00 */
#define OUT_A_PINS_BITPOS 0x0U
#define OUT_A_PINS_MASK 0xFFU

/* ADC_CTRL: Converter control; 8 bits, read-write, data 0x26 (given), io 0x06 (given), reset 0x00, page 44 */
/* Reserved bits 0x20: write 0. */
#define ADC_CTRL_DATA_ADDR 0x26U
#define ADC_CTRL_IO_ADDR 0x06U
#define ADC_CTRL_SINGLE_BIT 1U
#define ADC_CTRL_RESET 0x00U
/* ENABLE: switches the converter on; bit 7, read-write, reset 0x00 */
#define ADC_CTRL_ENABLE_BITPOS 7U
#define ADC_CTRL_ENABLE_MASK 0x80U
/* START: starts a conversion; 1 until it has ended; bit 6, read-write, reset 0x00 */
#define ADC_CTRL_START_BITPOS 6U
#define ADC_CTRL_START_MASK 0x40U
/* DONE: a result is ready; bit 4, read-write, writing 1 clears it, reset 0x00 */
#define ADC_CTRL_DONE_BITPOS 4U
#define ADC_CTRL_DONE_MASK 0x10U
/* IRQ: asks for an interrupt when a result is ready; bit 3, read-write, reset 0x00 */
#define ADC_CTRL_IRQ_BITPOS 3U
#define ADC_CTRL_IRQ_MASK 0x08U
/* CLOCK: divides the CPU clock for the converter; bits 2:0, read-write, reset 0x00 */
#define ADC_CTRL_CLOCK_BITPOS 0x0U
#define ADC_CTRL_CLOCK_MASK 0x07U
#define ADC_CTRL_CLOCK_DIV2 0x00U
#define ADC_CTRL_CLOCK_DIV2B 0x01U
#define ADC_CTRL_CLOCK_DIV4 0x02U
#define ADC_CTRL_CLOCK_DIV8 0x03U
#define ADC_CTRL_CLOCK_DIV16 0x04U
#define ADC_CTRL_CLOCK_DIV32 0x05U
#define ADC_CTRL_CLOCK_DIV64 0x06U
#define ADC_CTRL_CLOCK_DIV128 0x07U

/* ADC_MUX: Converter input; 8 bits, read-write, data 0x27 (given), io 0x07 (given), reset 0x00, page 45 */
/* Reserved bits 0x18: write 0. */
#define ADC_MUX_DATA_ADDR 0x27U
#define ADC_MUX_IO_ADDR 0x07U
#define ADC_MUX_SINGLE_BIT 1U
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

/* ADC_RESULT: Converter result; 16 bits, read-only, data 0x24 (given), io 0x04 (given), reset 0x0000, page 46 */
/* Access the halves in order: read low half first, write either half first, both through ADC_TEMP. */
#define ADC_RESULT_DATA_ADDR 0x24U
#define ADC_RESULT_IO_ADDR 0x04U
#define ADC_RESULT_SINGLE_BIT 1U
#define ADC_RESULT_RESET 0x0000U
/* VALUE: the result, right-adjusted; bits 9:0, read-only, reset 0x000 */
#define ADC_RESULT_VALUE_BITPOS 0x0U
#define ADC_RESULT_VALUE_MASK 0x03FFU

/* ADC_RESULT_L: low half of Converter result; 8 bits, read-only, data 0x24 (given), io 0x04 (given), reset 0x00, page 46 */
#define ADC_RESULT_L_DATA_ADDR 0x24U
#define ADC_RESULT_L_IO_ADDR 0x04U
#define ADC_RESULT_L_SINGLE_BIT 1U
#define ADC_RESULT_L_RESET 0x00U

/* ADC_RESULT_H: high half of Converter result; 8 bits, read-only, data 0x25 (given), io 0x05 (given), reset 0x00, page 46 */
#define ADC_RESULT_H_DATA_ADDR 0x25U
#define ADC_RESULT_H_IO_ADDR 0x05U
#define ADC_RESULT_H_SINGLE_BIT 1U
#define ADC_RESULT_H_RESET 0x00U

/* TMR0_COUNT: Timer 0 counter; 8 bits, read-write, data 0x52 (given), io 0x32 (given), reset 0x00, page 51 */
#define TMR0_COUNT_DATA_ADDR 0x52U
#define TMR0_COUNT_IO_ADDR 0x32U
#define TMR0_COUNT_SINGLE_BIT 0x0U
#define TMR0_COUNT_RESET 0x00U

/* TMR0_CTRL: Timer 0 control; 8 bits, read-write, data 0x53 (given), io 0x33 (given), reset 0x00, page 51 */
/* Reserved bits 0xF8: write 0. */
#define TMR0_CTRL_DATA_ADDR 0x53U
#define TMR0_CTRL_IO_ADDR 0x33U
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

/* TMR_FLAGS: Timer flags; 8 bits, read-write, data 0x58 (given), io 0x38 (given), reset 0x00, page 53 */
/* Reserved bits 0xFC: write 0. */
#define TMR_FLAGS_DATA_ADDR 0x58U
#define TMR_FLAGS_IO_ADDR 0x38U
#define TMR_FLAGS_SINGLE_BIT 0x0U
#define TMR_FLAGS_RESET 0x00U
/* OVERFLOW: timer 0 has overflowed; bit 1, read-write, writing 1 clears it, reset 0x00 */
#define TMR_FLAGS_OVERFLOW_BITPOS 1U
#define TMR_FLAGS_OVERFLOW_MASK 0x02U
/* MATCH: timer 0 has reached its compare value; bit 0, read-write, writing 1 clears it, reset 0x00 */
#define TMR_FLAGS_MATCH_BITPOS 0x0U
#define TMR_FLAGS_MATCH_MASK 0x01U

/* TMR_IRQ: Timer interrupt enable; 8 bits, read-write, data 0x59 (given), io 0x39 (given), reset 0x00, page 53 */
/* Reserved bits 0xFC: write 0. */
#define TMR_IRQ_DATA_ADDR 0x59U
#define TMR_IRQ_IO_ADDR 0x39U
#define TMR_IRQ_SINGLE_BIT 0x0U
#define TMR_IRQ_RESET 0x00U
/* OVERFLOW: bit 1, read-write, reset 0x00 */
#define TMR_IRQ_OVERFLOW_BITPOS 1U
#define TMR_IRQ_OVERFLOW_MASK 0x02U
/* MATCH: bit 0, read-write, reset 0x00 */
#define TMR_IRQ_MATCH_BITPOS 0x0U
#define TMR_IRQ_MATCH_MASK 0x01U

/* EE_CTRL: EEPROM control; 8 bits, read-write, data 0x3C (given), io 0x1C (given), reset 0x00, page 21 */
#define EE_CTRL_DATA_ADDR 0x3CU
#define EE_CTRL_IO_ADDR 0x1CU
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

/* EE_DATA: EEPROM data; 8 bits, read-write, data 0x3D (given), io 0x1D (given), reset 0x00, page 21 */
#define EE_DATA_DATA_ADDR 0x3DU
#define EE_DATA_IO_ADDR 0x1DU
#define EE_DATA_SINGLE_BIT 1U
#define EE_DATA_RESET 0x00U

/* EE_ADDRESS: EEPROM address; 8 bits, read-write, data 0x3E (given), io 0x1E (given), reset 0x00, page 21 */
#define EE_ADDRESS_DATA_ADDR 0x3EU
#define EE_ADDRESS_IO_ADDR 0x1EU
#define EE_ADDRESS_SINGLE_BIT 1U
#define EE_ADDRESS_RESET 0x00U

/* WATCHDOG: Watchdog control; 8 bits, read-write, data 0x41 (given), io 0x21 (given), reset 0b0000x000, page 28 */
/* Reserved bits 0x60: write 0. */
#define WATCHDOG_DATA_ADDR 0x41U
#define WATCHDOG_IO_ADDR 0x21U
#define WATCHDOG_SINGLE_BIT 0x0U
#define WATCHDOG_RESET 0x00U
#define WATCHDOG_RESET_DEFINED 0xF7U
/* FLAG: the watchdog has run out; bit 7, read-write, writing 0 clears it, reset 0x00 */
#define WATCHDOG_FLAG_BITPOS 7U
#define WATCHDOG_FLAG_MASK 0x80U
/* UNLOCK: must be 1 in the write that comes before a change; bit 4, read-write, reset 0x00 */
#define WATCHDOG_UNLOCK_BITPOS 4U
#define WATCHDOG_UNLOCK_MASK 0x10U
/* ENABLE: switches the watchdog on; bit 3, read-write, reset 0bx */
#define WATCHDOG_ENABLE_BITPOS 3U
#define WATCHDOG_ENABLE_MASK 0x08U
/* PERIOD: 16 ms, doubled for each step; bits 2:0, read-write, reset 0x00 */
#define WATCHDOG_PERIOD_BITPOS 0x0U
#define WATCHDOG_PERIOD_MASK 0x07U

/* STACK: Stack pointer; 8 bits, read-write, data 0x5D (given), io 0x3D (given), reset 0x5F, page 12 */
#define STACK_DATA_ADDR 0x5DU
#define STACK_IO_ADDR 0x3DU
#define STACK_SINGLE_BIT 0x0U
#define STACK_RESET 0x5FU

/* CPU_STATUS: CPU status; 8 bits, read-write, data 0x5F (given), io 0x3F (given), reset 0x00, page 11 */
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

#ifndef __ASSEMBLER__
#include <stdint.h>

/* How C reaches a register. Define these beforehand to run the same code on another machine. */
#ifndef SORREL14_REG8
#define SORREL14_REG8(address) (*(volatile uint8_t *)(address))
#endif
#ifndef SORREL14_REG16
#define SORREL14_REG16(address) (*(volatile uint16_t *)(address))
#endif

#define IN_B SORREL14_REG8(IN_B_DATA_ADDR)
#define IN_B_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x3FU)))
#define IN_B_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xC0U) | ((uint8_t)(field) & 0x3FU)))
#define DIR_B SORREL14_REG8(DIR_B_DATA_ADDR)
#define DIR_B_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x3FU)))
#define DIR_B_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xC0U) | ((uint8_t)(field) & 0x3FU)))
#define OUT_B SORREL14_REG8(OUT_B_DATA_ADDR)
#define OUT_B_PULLS_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0x38U) >> 3)))
#define OUT_B_PULLS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xC7U) | (((uint8_t)(field) & 0x07U) << 3)))
#define IN_A SORREL14_REG8(IN_A_DATA_ADDR)
#define IN_A_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define IN_A_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define DIR_A SORREL14_REG8(DIR_A_DATA_ADDR)
#define DIR_A_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define DIR_A_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define OUT_A SORREL14_REG8(OUT_A_DATA_ADDR)
#define OUT_A_PINS_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0xFFU)))
#define OUT_A_PINS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x00U) | ((uint8_t)(field) & 0xFFU)))
#define ADC_CTRL SORREL14_REG8(ADC_CTRL_DATA_ADDR)
#define ADC_CTRL_DONE_TO_CLEAR(value) ((uint8_t)(((uint8_t)(value) & 0xCFU) | 0x10U))
#define ADC_CTRL_DONE_CLEAR() (ADC_CTRL = ADC_CTRL_DONE_TO_CLEAR(ADC_CTRL))
#define ADC_CTRL_CLOCK_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x07U)))
#define ADC_CTRL_CLOCK_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xF8U) | ((uint8_t)(field) & 0x07U)))
#define ADC_MUX SORREL14_REG8(ADC_MUX_DATA_ADDR)
#define ADC_MUX_REFERENCE_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0xC0U) >> 6)))
#define ADC_MUX_REFERENCE_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x3FU) | (((uint8_t)(field) & 0x03U) << 6)))
#define ADC_MUX_CHANNEL_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x07U) | (((uint8_t)(value) & 0x20U) >> 2)))
#define ADC_MUX_CHANNEL_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xD8U) | ((uint8_t)(field) & 0x07U) | (((uint8_t)(field) & 0x08U) << 2)))
#define ADC_RESULT SORREL14_REG16(ADC_RESULT_DATA_ADDR)
#define ADC_RESULT_READ_INTO(variable) ((variable) = ((uint16_t)ADC_RESULT_L), (variable) = (uint16_t)((variable) | ((uint16_t)(((uint16_t)ADC_RESULT_H) << 8))))
#define ADC_RESULT_VALUE_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0x03FFU)))
#define ADC_RESULT_VALUE_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0xFC00U) | ((uint16_t)(field) & 0x03FFU)))
#define ADC_RESULT_L SORREL14_REG8(ADC_RESULT_L_DATA_ADDR)
#define ADC_RESULT_H SORREL14_REG8(ADC_RESULT_H_DATA_ADDR)
#define TMR0_COUNT SORREL14_REG8(TMR0_COUNT_DATA_ADDR)
#define TMR0_CTRL SORREL14_REG8(TMR0_CTRL_DATA_ADDR)
#define TMR0_CTRL_CLOCK_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x07U)))
#define TMR0_CTRL_CLOCK_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xF8U) | ((uint8_t)(field) & 0x07U)))
#define TMR_FLAGS SORREL14_REG8(TMR_FLAGS_DATA_ADDR)
#define TMR_FLAGS_OVERFLOW_TO_CLEAR(value) ((uint8_t)0x02U)
#define TMR_FLAGS_OVERFLOW_CLEAR() (TMR_FLAGS = TMR_FLAGS_OVERFLOW_TO_CLEAR(TMR_FLAGS))
#define TMR_FLAGS_MATCH_TO_CLEAR(value) ((uint8_t)0x01U)
#define TMR_FLAGS_MATCH_CLEAR() (TMR_FLAGS = TMR_FLAGS_MATCH_TO_CLEAR(TMR_FLAGS))
#define TMR_IRQ SORREL14_REG8(TMR_IRQ_DATA_ADDR)
#define EE_CTRL SORREL14_REG8(EE_CTRL_DATA_ADDR)
#define EE_DATA SORREL14_REG8(EE_DATA_DATA_ADDR)
#define EE_ADDRESS SORREL14_REG8(EE_ADDRESS_DATA_ADDR)
#define WATCHDOG SORREL14_REG8(WATCHDOG_DATA_ADDR)
#define WATCHDOG_FLAG_TO_CLEAR(value) ((uint8_t)(((uint8_t)(value) & 0x1FU) | 0x00U))
#define WATCHDOG_FLAG_CLEAR() (WATCHDOG = WATCHDOG_FLAG_TO_CLEAR(WATCHDOG))
#define WATCHDOG_PERIOD_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x07U)))
#define WATCHDOG_PERIOD_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xF8U) | ((uint8_t)(field) & 0x07U)))
#define STACK SORREL14_REG8(STACK_DATA_ADDR)
#define CPU_STATUS SORREL14_REG8(CPU_STATUS_DATA_ADDR)

#endif /* __ASSEMBLER__ */
#endif /* SORREL14_H */
