/* sorrel32.h: registers of Sorrel 32, the 32-bit chip of the greenhouse gateway
 *
 * Made by regwright from sorrel32.xml; change that file and emit again, not this one.
 * Checked against: Sorrel 32 reference manual, revision A, 2026-06.
 * The Sorrel chips are invented: no such part is sold.
 *
 * Caution: a wrong register value can damage hardware or hurt people near what it drives. Before
 * use, compare these numbers with the datasheet and its errata for your revision of the part, and
 * follow local codes; where licensed practice is required, have it checked there.
 */
#ifndef SORREL32_H
#define SORREL32_H

#if defined(REGWRIGHT_CHIP)
#error "sorrel32.h: another chip's header came before this one; a program is built for one chip"
#endif
#define REGWRIGHT_CHIP 1U
#define REGWRIGHT_CHIP_SORREL32 1U

/* Plain numbers, for C and for the assembler. */

/* GPIOA_MODE: Pin mode; 32 bits, read-write, data 0x40020000 (base and offset), reset 0x00000000, page 81 */
/* Reserved bits 0xFFFFFF00: write as it was read. */
#define GPIOA_MODE_DATA_ADDR 0x40020000U
#define GPIOA_MODE_RESET 0x00000000U
/* PIN0: bits 1:0, read-write, reset 0x00 */
#define GPIOA_MODE_PIN0_BITPOS 0x0U
#define GPIOA_MODE_PIN0_MASK 0x00000003U
#define GPIOA_MODE_PIN0_INPUT 0x00000000U
#define GPIOA_MODE_PIN0_OUTPUT 0x00000001U
#define GPIOA_MODE_PIN0_SPECIAL 0x00000002U
#define GPIOA_MODE_PIN0_ANALOG 0x00000003U
/* PIN1: bits 3:2, read-write, reset 0x00 */
#define GPIOA_MODE_PIN1_BITPOS 2U
#define GPIOA_MODE_PIN1_MASK 0x0000000CU
/* PIN2: bits 5:4, read-write, reset 0x00 */
#define GPIOA_MODE_PIN2_BITPOS 4U
#define GPIOA_MODE_PIN2_MASK 0x00000030U
/* PIN3: bits 7:6, read-write, reset 0x00 */
#define GPIOA_MODE_PIN3_BITPOS 6U
#define GPIOA_MODE_PIN3_MASK 0x000000C0U

/* GPIOA_IN: Pin levels; 32 bits, read-only, data 0x40020010 (base and offset), reset 0b0000000000000000xxxxxxxxxxxxxxxx, page 82 */
/* Reserved bits 0xFFFF0000: write as it was read. */
#define GPIOA_IN_DATA_ADDR 0x40020010U
#define GPIOA_IN_RESET 0x00000000U
#define GPIOA_IN_RESET_DEFINED 0xFFFF0000U
/* PINS: bits 15:0, read-only, reset 0bxxxxxxxxxxxxxxxx */
#define GPIOA_IN_PINS_BITPOS 0x0U
#define GPIOA_IN_PINS_MASK 0x0000FFFFU

/* GPIOA_OUT: Output levels; 32 bits, read-write, data 0x40020014 (base and offset), reset 0x00000000, page 82 */
/* Reserved bits 0xFFFF0000: write as it was read. */
#define GPIOA_OUT_DATA_ADDR 0x40020014U
#define GPIOA_OUT_RESET 0x00000000U
/* PINS: bits 15:0, read-write, reset 0x0000 */
#define GPIOA_OUT_PINS_BITPOS 0x0U
#define GPIOA_OUT_PINS_MASK 0x0000FFFFU

/* GPIOA_CHANGE: Set and reset pins; 32 bits, write-only, data 0x40020018 (base and offset), page 83 */
#define GPIOA_CHANGE_DATA_ADDR 0x40020018U
/* RESET_PINS: bits 31:16, write-only, writing 1 clears it */
#define GPIOA_CHANGE_RESET_PINS_BITPOS 16U
#define GPIOA_CHANGE_RESET_PINS_MASK 0xFFFF0000U
/* SET_PINS: bits 15:0, write-only, writing 1 sets it */
#define GPIOA_CHANGE_SET_PINS_BITPOS 0x0U
#define GPIOA_CHANGE_SET_PINS_MASK 0x0000FFFFU

/* GPIOB_MODE: Pin mode; 32 bits, read-write, data 0x40020400 (base and offset), reset 0x00000000, page 81 */
/* Reserved bits 0xFFFFFF00: write as it was read. */
#define GPIOB_MODE_DATA_ADDR 0x40020400U
#define GPIOB_MODE_RESET 0x00000000U
/* PIN0: bits 1:0, read-write, reset 0x00 */
#define GPIOB_MODE_PIN0_BITPOS 0x0U
#define GPIOB_MODE_PIN0_MASK 0x00000003U
#define GPIOB_MODE_PIN0_INPUT 0x00000000U
#define GPIOB_MODE_PIN0_OUTPUT 0x00000001U
#define GPIOB_MODE_PIN0_SPECIAL 0x00000002U
#define GPIOB_MODE_PIN0_ANALOG 0x00000003U
/* PIN1: bits 3:2, read-write, reset 0x00 */
#define GPIOB_MODE_PIN1_BITPOS 2U
#define GPIOB_MODE_PIN1_MASK 0x0000000CU
/* PIN2: bits 5:4, read-write, reset 0x00 */
#define GPIOB_MODE_PIN2_BITPOS 4U
#define GPIOB_MODE_PIN2_MASK 0x00000030U
/* PIN3: bits 7:6, read-write, reset 0x00 */
#define GPIOB_MODE_PIN3_BITPOS 6U
#define GPIOB_MODE_PIN3_MASK 0x000000C0U

/* GPIOB_IN: Pin levels; 32 bits, read-only, data 0x40020410 (base and offset), reset 0b0000000000000000xxxxxxxxxxxxxxxx, page 82 */
/* Reserved bits 0xFFFF0000: write as it was read. */
#define GPIOB_IN_DATA_ADDR 0x40020410U
#define GPIOB_IN_RESET 0x00000000U
#define GPIOB_IN_RESET_DEFINED 0xFFFF0000U
/* PINS: bits 15:0, read-only, reset 0bxxxxxxxxxxxxxxxx */
#define GPIOB_IN_PINS_BITPOS 0x0U
#define GPIOB_IN_PINS_MASK 0x0000FFFFU

/* GPIOB_OUT: Output levels; 32 bits, read-write, data 0x40020414 (base and offset), reset 0x00000000, page 82 */
/* Reserved bits 0xFFFF0000: write as it was read. */
#define GPIOB_OUT_DATA_ADDR 0x40020414U
#define GPIOB_OUT_RESET 0x00000000U
/* PINS: bits 15:0, read-write, reset 0x0000 */
#define GPIOB_OUT_PINS_BITPOS 0x0U
#define GPIOB_OUT_PINS_MASK 0x0000FFFFU

/* GPIOB_CHANGE: Set and reset pins; 32 bits, write-only, data 0x40020418 (base and offset), page 83 */
#define GPIOB_CHANGE_DATA_ADDR 0x40020418U
/* RESET_PINS: bits 31:16, write-only, writing 1 clears it */
#define GPIOB_CHANGE_RESET_PINS_BITPOS 16U
#define GPIOB_CHANGE_RESET_PINS_MASK 0xFFFF0000U
/* SET_PINS: bits 15:0, write-only, writing 1 sets it */
#define GPIOB_CHANGE_SET_PINS_BITPOS 0x0U
#define GPIOB_CHANGE_SET_PINS_MASK 0x0000FFFFU

/* DMA_STATUS: Flags of every channel; 32 bits, read-write, data 0x40026000 (base and offset), reset 0x00000000, page 96 */
/* Reserved bits 0x7FFFF000: write as it was read. */
/* Reserved bits 0x000000F0: write as it was read. */
/* |= and INSERT of a value read here clear DONE, FAILED; use CLEAR for one flag. */
#define DMA_STATUS_DATA_ADDR 0x40026000U
#define DMA_STATUS_RESET 0x00000000U
/* DONE: a bit for each channel; bits 3:0, read-write, writing 1 clears it, reset 0x00 */
#define DMA_STATUS_DONE_BITPOS 0x0U
#define DMA_STATUS_DONE_MASK 0x0000000FU
/* FAILED: a bit for each channel; bits 11:8, read-write, writing 1 clears it, reset 0x00 */
#define DMA_STATUS_FAILED_BITPOS 8U
#define DMA_STATUS_FAILED_MASK 0x00000F00U
/* ENABLE: switches the block on; bit 31, read-write, reset 0x00 */
#define DMA_STATUS_ENABLE_BITPOS 31U
#define DMA_STATUS_ENABLE_MASK 0x80000000U

/* DMA_CH0_CTRL: Channel control; 32 bits, read-write, data 0x40026010 (base and offset), reset 0x00000000, page 98 */
/* Reserved bits 0xFFFFC000: write as it was read. */
/* Reserved bits 0x00000FC0: write as it was read. */
/* Reserved bits 0x0000000E: write as it was read. */
#define DMA_CH0_CTRL_DATA_ADDR 0x40026010U
#define DMA_CH0_CTRL_RESET 0x00000000U
/* ENABLE: bit 0, read-write, reset 0x00 */
#define DMA_CH0_CTRL_ENABLE_BITPOS 0x0U
#define DMA_CH0_CTRL_ENABLE_MASK 0x00000001U
/* WIDTH: bits of one transfer; bits 5:4, read-write, reset 0x00 */
#define DMA_CH0_CTRL_WIDTH_BITPOS 4U
#define DMA_CH0_CTRL_WIDTH_MASK 0x00000030U
#define DMA_CH0_CTRL_WIDTH_BITS8 0x00000000U
#define DMA_CH0_CTRL_WIDTH_BITS16 0x00000010U
#define DMA_CH0_CTRL_WIDTH_BITS32 0x00000020U
/* PRIORITY: bits 13:12, read-write, reset 0x00 */
#define DMA_CH0_CTRL_PRIORITY_BITPOS 12U
#define DMA_CH0_CTRL_PRIORITY_MASK 0x00003000U

/* DMA_CH0_COUNT: Transfers left; 32 bits, read-write, data 0x40026014 (base and offset), reset 0x00000000, page 98 */
/* Reserved bits 0xFFFF0000: write as it was read. */
#define DMA_CH0_COUNT_DATA_ADDR 0x40026014U
#define DMA_CH0_COUNT_RESET 0x00000000U
/* VALUE: bits 15:0, read-write, reset 0x0000 */
#define DMA_CH0_COUNT_VALUE_BITPOS 0x0U
#define DMA_CH0_COUNT_VALUE_MASK 0x0000FFFFU

/* DMA_CH0_END_SOURCE: Where from; 32 bits, read-write, data 0x40026018 (base and offset), reset 0x00000000, page 99 */
#define DMA_CH0_END_SOURCE_DATA_ADDR 0x40026018U
#define DMA_CH0_END_SOURCE_RESET 0x00000000U

/* DMA_CH0_END_TARGET: Where to; 32 bits, read-write, data 0x4002601C (base and offset), reset 0x00000000, page 99 */
#define DMA_CH0_END_TARGET_DATA_ADDR 0x4002601CU
#define DMA_CH0_END_TARGET_RESET 0x00000000U

/* DMA_CH1_CTRL: Channel control; 32 bits, read-write, data 0x40026030 (base and offset), reset 0x00000000, page 98 */
/* Reserved bits 0xFFFFC000: write as it was read. */
/* Reserved bits 0x00000FC0: write as it was read. */
/* Reserved bits 0x0000000E: write as it was read. */
#define DMA_CH1_CTRL_DATA_ADDR 0x40026030U
#define DMA_CH1_CTRL_RESET 0x00000000U
/* ENABLE: bit 0, read-write, reset 0x00 */
#define DMA_CH1_CTRL_ENABLE_BITPOS 0x0U
#define DMA_CH1_CTRL_ENABLE_MASK 0x00000001U
/* WIDTH: bits of one transfer; bits 5:4, read-write, reset 0x00 */
#define DMA_CH1_CTRL_WIDTH_BITPOS 4U
#define DMA_CH1_CTRL_WIDTH_MASK 0x00000030U
#define DMA_CH1_CTRL_WIDTH_BITS8 0x00000000U
#define DMA_CH1_CTRL_WIDTH_BITS16 0x00000010U
#define DMA_CH1_CTRL_WIDTH_BITS32 0x00000020U
/* PRIORITY: bits 13:12, read-write, reset 0x00 */
#define DMA_CH1_CTRL_PRIORITY_BITPOS 12U
#define DMA_CH1_CTRL_PRIORITY_MASK 0x00003000U

/* DMA_CH1_COUNT: Transfers left; 32 bits, read-write, data 0x40026034 (base and offset), reset 0x00000000, page 98 */
/* Reserved bits 0xFFFF0000: write as it was read. */
#define DMA_CH1_COUNT_DATA_ADDR 0x40026034U
#define DMA_CH1_COUNT_RESET 0x00000000U
/* VALUE: bits 15:0, read-write, reset 0x0000 */
#define DMA_CH1_COUNT_VALUE_BITPOS 0x0U
#define DMA_CH1_COUNT_VALUE_MASK 0x0000FFFFU

/* DMA_CH1_END_SOURCE: Where from; 32 bits, read-write, data 0x40026038 (base and offset), reset 0x00000000, page 99 */
#define DMA_CH1_END_SOURCE_DATA_ADDR 0x40026038U
#define DMA_CH1_END_SOURCE_RESET 0x00000000U

/* DMA_CH1_END_TARGET: Where to; 32 bits, read-write, data 0x4002603C (base and offset), reset 0x00000000, page 99 */
#define DMA_CH1_END_TARGET_DATA_ADDR 0x4002603CU
#define DMA_CH1_END_TARGET_RESET 0x00000000U

/* DMA_CH2_CTRL: Channel control; 32 bits, read-write, data 0x40026050 (base and offset), reset 0x00000000, page 98 */
/* Reserved bits 0xFFFFC000: write as it was read. */
/* Reserved bits 0x00000FC0: write as it was read. */
/* Reserved bits 0x0000000E: write as it was read. */
#define DMA_CH2_CTRL_DATA_ADDR 0x40026050U
#define DMA_CH2_CTRL_RESET 0x00000000U
/* ENABLE: bit 0, read-write, reset 0x00 */
#define DMA_CH2_CTRL_ENABLE_BITPOS 0x0U
#define DMA_CH2_CTRL_ENABLE_MASK 0x00000001U
/* WIDTH: bits of one transfer; bits 5:4, read-write, reset 0x00 */
#define DMA_CH2_CTRL_WIDTH_BITPOS 4U
#define DMA_CH2_CTRL_WIDTH_MASK 0x00000030U
#define DMA_CH2_CTRL_WIDTH_BITS8 0x00000000U
#define DMA_CH2_CTRL_WIDTH_BITS16 0x00000010U
#define DMA_CH2_CTRL_WIDTH_BITS32 0x00000020U
/* PRIORITY: bits 13:12, read-write, reset 0x00 */
#define DMA_CH2_CTRL_PRIORITY_BITPOS 12U
#define DMA_CH2_CTRL_PRIORITY_MASK 0x00003000U

/* DMA_CH2_COUNT: Transfers left; 32 bits, read-write, data 0x40026054 (base and offset), reset 0x00000000, page 98 */
/* Reserved bits 0xFFFF0000: write as it was read. */
#define DMA_CH2_COUNT_DATA_ADDR 0x40026054U
#define DMA_CH2_COUNT_RESET 0x00000000U
/* VALUE: bits 15:0, read-write, reset 0x0000 */
#define DMA_CH2_COUNT_VALUE_BITPOS 0x0U
#define DMA_CH2_COUNT_VALUE_MASK 0x0000FFFFU

/* DMA_CH2_END_SOURCE: Where from; 32 bits, read-write, data 0x40026058 (base and offset), reset 0x00000000, page 99 */
#define DMA_CH2_END_SOURCE_DATA_ADDR 0x40026058U
#define DMA_CH2_END_SOURCE_RESET 0x00000000U

/* DMA_CH2_END_TARGET: Where to; 32 bits, read-write, data 0x4002605C (base and offset), reset 0x00000000, page 99 */
#define DMA_CH2_END_TARGET_DATA_ADDR 0x4002605CU
#define DMA_CH2_END_TARGET_RESET 0x00000000U

/* DMA_CH3_CTRL: Channel control; 32 bits, read-write, data 0x40026070 (base and offset), reset 0x00000000, page 98 */
/* Reserved bits 0xFFFFC000: write as it was read. */
/* Reserved bits 0x00000FC0: write as it was read. */
/* Reserved bits 0x0000000E: write as it was read. */
#define DMA_CH3_CTRL_DATA_ADDR 0x40026070U
#define DMA_CH3_CTRL_RESET 0x00000000U
/* ENABLE: bit 0, read-write, reset 0x00 */
#define DMA_CH3_CTRL_ENABLE_BITPOS 0x0U
#define DMA_CH3_CTRL_ENABLE_MASK 0x00000001U
/* WIDTH: bits of one transfer; bits 5:4, read-write, reset 0x00 */
#define DMA_CH3_CTRL_WIDTH_BITPOS 4U
#define DMA_CH3_CTRL_WIDTH_MASK 0x00000030U
#define DMA_CH3_CTRL_WIDTH_BITS8 0x00000000U
#define DMA_CH3_CTRL_WIDTH_BITS16 0x00000010U
#define DMA_CH3_CTRL_WIDTH_BITS32 0x00000020U
/* PRIORITY: bits 13:12, read-write, reset 0x00 */
#define DMA_CH3_CTRL_PRIORITY_BITPOS 12U
#define DMA_CH3_CTRL_PRIORITY_MASK 0x00003000U

/* DMA_CH3_COUNT: Transfers left; 32 bits, read-write, data 0x40026074 (base and offset), reset 0x00000000, page 98 */
/* Reserved bits 0xFFFF0000: write as it was read. */
#define DMA_CH3_COUNT_DATA_ADDR 0x40026074U
#define DMA_CH3_COUNT_RESET 0x00000000U
/* VALUE: bits 15:0, read-write, reset 0x0000 */
#define DMA_CH3_COUNT_VALUE_BITPOS 0x0U
#define DMA_CH3_COUNT_VALUE_MASK 0x0000FFFFU

/* DMA_CH3_END_SOURCE: Where from; 32 bits, read-write, data 0x40026078 (base and offset), reset 0x00000000, page 99 */
#define DMA_CH3_END_SOURCE_DATA_ADDR 0x40026078U
#define DMA_CH3_END_SOURCE_RESET 0x00000000U

/* DMA_CH3_END_TARGET: Where to; 32 bits, read-write, data 0x4002607C (base and offset), reset 0x00000000, page 99 */
#define DMA_CH3_END_TARGET_DATA_ADDR 0x4002607CU
#define DMA_CH3_END_TARGET_RESET 0x00000000U

/* ADC_STATUS: Converter status; 32 bits, read-write, data 0x40012000 (base and offset), reset 0x00000000, page 141 */
/* Reserved bits 0xFFFFFFC0: write as it was read. */
/* Reserved bits 0x0000001C: write as it was read. */
/* Reserved bits 0x00000001: write as it was read. */
/* &= of another field may clear OVERRUN, DONE; use CLEAR for one flag. */
#define ADC_STATUS_DATA_ADDR 0x40012000U
#define ADC_STATUS_RESET 0x00000000U
/* OVERRUN: a result was lost; bit 5, read-write, writing 0 clears it, reset 0x00 */
#define ADC_STATUS_OVERRUN_BITPOS 5U
#define ADC_STATUS_OVERRUN_MASK 0x00000020U
/* DONE: a result is ready; bit 1, read-write, writing 0 clears it, reset 0x00 */
#define ADC_STATUS_DONE_BITPOS 1U
#define ADC_STATUS_DONE_MASK 0x00000002U

/* ADC_SAMPLE0: Sampling time of each channel; 32 bits, read-write, data 0x40012010 (base and offset), reset 0x00000000, page 142 */
/* Reserved bits 0xFFFFFF00: write as it was read. */
#define ADC_SAMPLE0_DATA_ADDR 0x40012010U
#define ADC_SAMPLE0_RESET 0x00000000U
/* CYCLES: bits 7:0, read-write, reset 0x00 */
#define ADC_SAMPLE0_CYCLES_BITPOS 0x0U
#define ADC_SAMPLE0_CYCLES_MASK 0x000000FFU

/* ADC_SAMPLE1: Sampling time of each channel; 32 bits, read-write, data 0x40012014 (base and offset), reset 0x00000000, page 142 */
/* Reserved bits 0xFFFFFF00: write as it was read. */
#define ADC_SAMPLE1_DATA_ADDR 0x40012014U
#define ADC_SAMPLE1_RESET 0x00000000U
/* CYCLES: bits 7:0, read-write, reset 0x00 */
#define ADC_SAMPLE1_CYCLES_BITPOS 0x0U
#define ADC_SAMPLE1_CYCLES_MASK 0x000000FFU

/* ADC_SAMPLE2: Sampling time of each channel; 32 bits, read-write, data 0x40012018 (base and offset), reset 0x00000000, page 142 */
/* Reserved bits 0xFFFFFF00: write as it was read. */
#define ADC_SAMPLE2_DATA_ADDR 0x40012018U
#define ADC_SAMPLE2_RESET 0x00000000U
/* CYCLES: bits 7:0, read-write, reset 0x00 */
#define ADC_SAMPLE2_CYCLES_BITPOS 0x0U
#define ADC_SAMPLE2_CYCLES_MASK 0x000000FFU

/* ADC_SAMPLE3: Sampling time of each channel; 32 bits, read-write, data 0x4001201C (base and offset), reset 0x00000000, page 142 */
/* Reserved bits 0xFFFFFF00: write as it was read. */
#define ADC_SAMPLE3_DATA_ADDR 0x4001201CU
#define ADC_SAMPLE3_RESET 0x00000000U
/* CYCLES: bits 7:0, read-write, reset 0x00 */
#define ADC_SAMPLE3_CYCLES_BITPOS 0x0U
#define ADC_SAMPLE3_CYCLES_MASK 0x000000FFU

/* ADC_SAMPLE4: Sampling time of each channel; 32 bits, read-write, data 0x40012020 (base and offset), reset 0x00000000, page 142 */
/* Reserved bits 0xFFFFFF00: write as it was read. */
#define ADC_SAMPLE4_DATA_ADDR 0x40012020U
#define ADC_SAMPLE4_RESET 0x00000000U
/* CYCLES: bits 7:0, read-write, reset 0x00 */
#define ADC_SAMPLE4_CYCLES_BITPOS 0x0U
#define ADC_SAMPLE4_CYCLES_MASK 0x000000FFU

/* ADC_SAMPLE5: Sampling time of each channel; 32 bits, read-write, data 0x40012024 (base and offset), reset 0x00000000, page 142 */
/* Reserved bits 0xFFFFFF00: write as it was read. */
#define ADC_SAMPLE5_DATA_ADDR 0x40012024U
#define ADC_SAMPLE5_RESET 0x00000000U
/* CYCLES: bits 7:0, read-write, reset 0x00 */
#define ADC_SAMPLE5_CYCLES_BITPOS 0x0U
#define ADC_SAMPLE5_CYCLES_MASK 0x000000FFU

/* ADC_SAMPLE6: Sampling time of each channel; 32 bits, read-write, data 0x40012028 (base and offset), reset 0x00000000, page 142 */
/* Reserved bits 0xFFFFFF00: write as it was read. */
#define ADC_SAMPLE6_DATA_ADDR 0x40012028U
#define ADC_SAMPLE6_RESET 0x00000000U
/* CYCLES: bits 7:0, read-write, reset 0x00 */
#define ADC_SAMPLE6_CYCLES_BITPOS 0x0U
#define ADC_SAMPLE6_CYCLES_MASK 0x000000FFU

/* ADC_SAMPLE7: Sampling time of each channel; 32 bits, read-write, data 0x4001202C (base and offset), reset 0x00000000, page 142 */
/* Reserved bits 0xFFFFFF00: write as it was read. */
#define ADC_SAMPLE7_DATA_ADDR 0x4001202CU
#define ADC_SAMPLE7_RESET 0x00000000U
/* CYCLES: bits 7:0, read-write, reset 0x00 */
#define ADC_SAMPLE7_CYCLES_BITPOS 0x0U
#define ADC_SAMPLE7_CYCLES_MASK 0x000000FFU

/* ADC_RESULT: Last result; 32 bits, read-only, data 0x4001204C (base and offset), reset 0x00000000, page 143 */
/* Reading has an effect: reading changes it. */
/* Reserved bits 0xFFFFF000: write as it was read. */
#define ADC_RESULT_DATA_ADDR 0x4001204CU
#define ADC_RESULT_RESET 0x00000000U
/* VALUE: bits 11:0, read-only, reset 0x000 */
#define ADC_RESULT_VALUE_BITPOS 0x0U
#define ADC_RESULT_VALUE_MASK 0x00000FFFU

/* CLOCK_UPTIME: Cycles since reset; 64 bits, read-only, data 0x40023840 (base and offset), reset 0x0000000000000000, page 66 */
#define CLOCK_UPTIME_DATA_ADDR 0x40023840U
#define CLOCK_UPTIME_RESET 0x0000000000000000U

/* CLOCK_KEY: Unlock key; 16 bits, write-only, data 0x40023848 (base and offset), page 67 */
#define CLOCK_KEY_DATA_ADDR 0x40023848U
/* VALUE: bits 15:0, write-only */
#define CLOCK_KEY_VALUE_BITPOS 0x0U
#define CLOCK_KEY_VALUE_MASK 0xFFFFU
#define CLOCK_KEY_VALUE_UNLOCK 0x5A17U

#ifndef __ASSEMBLER__
#include <stdint.h>

/* How C reaches a register. Define these beforehand to run the same code on another machine. */
#ifndef SORREL32_READ32
#define SORREL32_READ32(address) (*(const volatile uint32_t *)(address))
#endif
#ifndef SORREL32_READ64
#define SORREL32_READ64(address) (*(const volatile uint64_t *)(address))
#endif
#ifndef SORREL32_REG16
#define SORREL32_REG16(address) (*(volatile uint16_t *)(address))
#endif
#ifndef SORREL32_REG32
#define SORREL32_REG32(address) (*(volatile uint32_t *)(address))
#endif

#define GPIOA_MODE SORREL32_REG32(GPIOA_MODE_DATA_ADDR)
#define GPIOA_MODE_PIN0_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x00000003U)))
#define GPIOA_MODE_PIN0_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFFCU) | ((uint32_t)(field) & 0x00000003U)))
#define GPIOA_MODE_PIN1_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x0000000CU) >> 2)))
#define GPIOA_MODE_PIN1_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFF3U) | (((uint32_t)(field) & 0x00000003U) << 2)))
#define GPIOA_MODE_PIN2_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000030U) >> 4)))
#define GPIOA_MODE_PIN2_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFCFU) | (((uint32_t)(field) & 0x00000003U) << 4)))
#define GPIOA_MODE_PIN3_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x000000C0U) >> 6)))
#define GPIOA_MODE_PIN3_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFF3FU) | (((uint32_t)(field) & 0x00000003U) << 6)))
#define GPIOA_IN SORREL32_READ32(GPIOA_IN_DATA_ADDR)
#define GPIOA_IN_PINS_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x0000FFFFU)))
#define GPIOA_IN_PINS_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFF0000U) | ((uint32_t)(field) & 0x0000FFFFU)))
#define GPIOA_OUT SORREL32_REG32(GPIOA_OUT_DATA_ADDR)
#define GPIOA_OUT_PINS_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x0000FFFFU)))
#define GPIOA_OUT_PINS_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFF0000U) | ((uint32_t)(field) & 0x0000FFFFU)))
#define GPIOA_CHANGE SORREL32_REG32(GPIOA_CHANGE_DATA_ADDR)
#define GPIOA_CHANGE_RESET_PINS_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0xFFFF0000U) >> 16)))
#define GPIOA_CHANGE_RESET_PINS_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0x0000FFFFU) | (((uint32_t)(field) & 0x0000FFFFU) << 16)))
#define GPIOA_CHANGE_RESET_PINS_TO_CLEAR(value) ((uint32_t)0xFFFF0000U)
#define GPIOA_CHANGE_RESET_PINS_CLEAR() (GPIOA_CHANGE = GPIOA_CHANGE_RESET_PINS_TO_CLEAR(GPIOA_CHANGE))
#define GPIOA_CHANGE_SET_PINS_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x0000FFFFU)))
#define GPIOA_CHANGE_SET_PINS_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFF0000U) | ((uint32_t)(field) & 0x0000FFFFU)))
#define GPIOB_MODE SORREL32_REG32(GPIOB_MODE_DATA_ADDR)
#define GPIOB_MODE_PIN0_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x00000003U)))
#define GPIOB_MODE_PIN0_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFFCU) | ((uint32_t)(field) & 0x00000003U)))
#define GPIOB_MODE_PIN1_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x0000000CU) >> 2)))
#define GPIOB_MODE_PIN1_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFF3U) | (((uint32_t)(field) & 0x00000003U) << 2)))
#define GPIOB_MODE_PIN2_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000030U) >> 4)))
#define GPIOB_MODE_PIN2_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFCFU) | (((uint32_t)(field) & 0x00000003U) << 4)))
#define GPIOB_MODE_PIN3_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x000000C0U) >> 6)))
#define GPIOB_MODE_PIN3_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFF3FU) | (((uint32_t)(field) & 0x00000003U) << 6)))
#define GPIOB_IN SORREL32_READ32(GPIOB_IN_DATA_ADDR)
#define GPIOB_IN_PINS_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x0000FFFFU)))
#define GPIOB_IN_PINS_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFF0000U) | ((uint32_t)(field) & 0x0000FFFFU)))
#define GPIOB_OUT SORREL32_REG32(GPIOB_OUT_DATA_ADDR)
#define GPIOB_OUT_PINS_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x0000FFFFU)))
#define GPIOB_OUT_PINS_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFF0000U) | ((uint32_t)(field) & 0x0000FFFFU)))
#define GPIOB_CHANGE SORREL32_REG32(GPIOB_CHANGE_DATA_ADDR)
#define GPIOB_CHANGE_RESET_PINS_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0xFFFF0000U) >> 16)))
#define GPIOB_CHANGE_RESET_PINS_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0x0000FFFFU) | (((uint32_t)(field) & 0x0000FFFFU) << 16)))
#define GPIOB_CHANGE_RESET_PINS_TO_CLEAR(value) ((uint32_t)0xFFFF0000U)
#define GPIOB_CHANGE_RESET_PINS_CLEAR() (GPIOB_CHANGE = GPIOB_CHANGE_RESET_PINS_TO_CLEAR(GPIOB_CHANGE))
#define GPIOB_CHANGE_SET_PINS_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x0000FFFFU)))
#define GPIOB_CHANGE_SET_PINS_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFF0000U) | ((uint32_t)(field) & 0x0000FFFFU)))
#define DMA_STATUS SORREL32_REG32(DMA_STATUS_DATA_ADDR)
#define DMA_STATUS_DONE_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x0000000FU)))
#define DMA_STATUS_DONE_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFF0U) | ((uint32_t)(field) & 0x0000000FU)))
#define DMA_STATUS_DONE_TO_CLEAR(value) ((uint32_t)(((uint32_t)(value) & 0xFFFFF0F0U) | 0x0000000FU))
#define DMA_STATUS_DONE_CLEAR() (DMA_STATUS = DMA_STATUS_DONE_TO_CLEAR(DMA_STATUS))
#define DMA_STATUS_FAILED_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000F00U) >> 8)))
#define DMA_STATUS_FAILED_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFF0FFU) | (((uint32_t)(field) & 0x0000000FU) << 8)))
#define DMA_STATUS_FAILED_TO_CLEAR(value) ((uint32_t)(((uint32_t)(value) & 0xFFFFF0F0U) | 0x00000F00U))
#define DMA_STATUS_FAILED_CLEAR() (DMA_STATUS = DMA_STATUS_FAILED_TO_CLEAR(DMA_STATUS))
#define DMA_CH0_CTRL SORREL32_REG32(DMA_CH0_CTRL_DATA_ADDR)
#define DMA_CH0_CTRL_WIDTH_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000030U) >> 4)))
#define DMA_CH0_CTRL_WIDTH_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFCFU) | (((uint32_t)(field) & 0x00000003U) << 4)))
#define DMA_CH0_CTRL_PRIORITY_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00003000U) >> 12)))
#define DMA_CH0_CTRL_PRIORITY_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFCFFFU) | (((uint32_t)(field) & 0x00000003U) << 12)))
#define DMA_CH0_COUNT SORREL32_REG32(DMA_CH0_COUNT_DATA_ADDR)
#define DMA_CH0_COUNT_VALUE_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x0000FFFFU)))
#define DMA_CH0_COUNT_VALUE_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFF0000U) | ((uint32_t)(field) & 0x0000FFFFU)))
#define DMA_CH0_END_SOURCE SORREL32_REG32(DMA_CH0_END_SOURCE_DATA_ADDR)
#define DMA_CH0_END_TARGET SORREL32_REG32(DMA_CH0_END_TARGET_DATA_ADDR)
#define DMA_CH1_CTRL SORREL32_REG32(DMA_CH1_CTRL_DATA_ADDR)
#define DMA_CH1_CTRL_WIDTH_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000030U) >> 4)))
#define DMA_CH1_CTRL_WIDTH_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFCFU) | (((uint32_t)(field) & 0x00000003U) << 4)))
#define DMA_CH1_CTRL_PRIORITY_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00003000U) >> 12)))
#define DMA_CH1_CTRL_PRIORITY_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFCFFFU) | (((uint32_t)(field) & 0x00000003U) << 12)))
#define DMA_CH1_COUNT SORREL32_REG32(DMA_CH1_COUNT_DATA_ADDR)
#define DMA_CH1_COUNT_VALUE_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x0000FFFFU)))
#define DMA_CH1_COUNT_VALUE_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFF0000U) | ((uint32_t)(field) & 0x0000FFFFU)))
#define DMA_CH1_END_SOURCE SORREL32_REG32(DMA_CH1_END_SOURCE_DATA_ADDR)
#define DMA_CH1_END_TARGET SORREL32_REG32(DMA_CH1_END_TARGET_DATA_ADDR)
#define DMA_CH2_CTRL SORREL32_REG32(DMA_CH2_CTRL_DATA_ADDR)
#define DMA_CH2_CTRL_WIDTH_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000030U) >> 4)))
#define DMA_CH2_CTRL_WIDTH_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFCFU) | (((uint32_t)(field) & 0x00000003U) << 4)))
#define DMA_CH2_CTRL_PRIORITY_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00003000U) >> 12)))
#define DMA_CH2_CTRL_PRIORITY_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFCFFFU) | (((uint32_t)(field) & 0x00000003U) << 12)))
#define DMA_CH2_COUNT SORREL32_REG32(DMA_CH2_COUNT_DATA_ADDR)
#define DMA_CH2_COUNT_VALUE_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x0000FFFFU)))
#define DMA_CH2_COUNT_VALUE_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFF0000U) | ((uint32_t)(field) & 0x0000FFFFU)))
#define DMA_CH2_END_SOURCE SORREL32_REG32(DMA_CH2_END_SOURCE_DATA_ADDR)
#define DMA_CH2_END_TARGET SORREL32_REG32(DMA_CH2_END_TARGET_DATA_ADDR)
#define DMA_CH3_CTRL SORREL32_REG32(DMA_CH3_CTRL_DATA_ADDR)
#define DMA_CH3_CTRL_WIDTH_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000030U) >> 4)))
#define DMA_CH3_CTRL_WIDTH_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFCFU) | (((uint32_t)(field) & 0x00000003U) << 4)))
#define DMA_CH3_CTRL_PRIORITY_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00003000U) >> 12)))
#define DMA_CH3_CTRL_PRIORITY_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFCFFFU) | (((uint32_t)(field) & 0x00000003U) << 12)))
#define DMA_CH3_COUNT SORREL32_REG32(DMA_CH3_COUNT_DATA_ADDR)
#define DMA_CH3_COUNT_VALUE_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x0000FFFFU)))
#define DMA_CH3_COUNT_VALUE_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFF0000U) | ((uint32_t)(field) & 0x0000FFFFU)))
#define DMA_CH3_END_SOURCE SORREL32_REG32(DMA_CH3_END_SOURCE_DATA_ADDR)
#define DMA_CH3_END_TARGET SORREL32_REG32(DMA_CH3_END_TARGET_DATA_ADDR)
#define ADC_STATUS SORREL32_REG32(ADC_STATUS_DATA_ADDR)
#define ADC_STATUS_OVERRUN_TO_CLEAR(value) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFDDU) | 0x00000002U))
#define ADC_STATUS_OVERRUN_CLEAR() (ADC_STATUS = ADC_STATUS_OVERRUN_TO_CLEAR(ADC_STATUS))
#define ADC_STATUS_DONE_TO_CLEAR(value) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFDDU) | 0x00000020U))
#define ADC_STATUS_DONE_CLEAR() (ADC_STATUS = ADC_STATUS_DONE_TO_CLEAR(ADC_STATUS))
#define ADC_SAMPLE0 SORREL32_REG32(ADC_SAMPLE0_DATA_ADDR)
#define ADC_SAMPLE0_CYCLES_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000000FFU)))
#define ADC_SAMPLE0_CYCLES_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFF00U) | ((uint32_t)(field) & 0x000000FFU)))
#define ADC_SAMPLE1 SORREL32_REG32(ADC_SAMPLE1_DATA_ADDR)
#define ADC_SAMPLE1_CYCLES_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000000FFU)))
#define ADC_SAMPLE1_CYCLES_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFF00U) | ((uint32_t)(field) & 0x000000FFU)))
#define ADC_SAMPLE2 SORREL32_REG32(ADC_SAMPLE2_DATA_ADDR)
#define ADC_SAMPLE2_CYCLES_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000000FFU)))
#define ADC_SAMPLE2_CYCLES_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFF00U) | ((uint32_t)(field) & 0x000000FFU)))
#define ADC_SAMPLE3 SORREL32_REG32(ADC_SAMPLE3_DATA_ADDR)
#define ADC_SAMPLE3_CYCLES_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000000FFU)))
#define ADC_SAMPLE3_CYCLES_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFF00U) | ((uint32_t)(field) & 0x000000FFU)))
#define ADC_SAMPLE4 SORREL32_REG32(ADC_SAMPLE4_DATA_ADDR)
#define ADC_SAMPLE4_CYCLES_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000000FFU)))
#define ADC_SAMPLE4_CYCLES_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFF00U) | ((uint32_t)(field) & 0x000000FFU)))
#define ADC_SAMPLE5 SORREL32_REG32(ADC_SAMPLE5_DATA_ADDR)
#define ADC_SAMPLE5_CYCLES_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000000FFU)))
#define ADC_SAMPLE5_CYCLES_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFF00U) | ((uint32_t)(field) & 0x000000FFU)))
#define ADC_SAMPLE6 SORREL32_REG32(ADC_SAMPLE6_DATA_ADDR)
#define ADC_SAMPLE6_CYCLES_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000000FFU)))
#define ADC_SAMPLE6_CYCLES_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFF00U) | ((uint32_t)(field) & 0x000000FFU)))
#define ADC_SAMPLE7 SORREL32_REG32(ADC_SAMPLE7_DATA_ADDR)
#define ADC_SAMPLE7_CYCLES_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000000FFU)))
#define ADC_SAMPLE7_CYCLES_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFF00U) | ((uint32_t)(field) & 0x000000FFU)))
#define ADC_RESULT SORREL32_READ32(ADC_RESULT_DATA_ADDR)
#define ADC_RESULT_VALUE_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x00000FFFU)))
#define ADC_RESULT_VALUE_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFF000U) | ((uint32_t)(field) & 0x00000FFFU)))
#define CLOCK_UPTIME SORREL32_READ64(CLOCK_UPTIME_DATA_ADDR)
#define CLOCK_KEY SORREL32_REG16(CLOCK_KEY_DATA_ADDR)
#define CLOCK_KEY_VALUE_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0xFFFFU)))
#define CLOCK_KEY_VALUE_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0x0000U) | ((uint16_t)(field) & 0xFFFFU)))

#endif /* __ASSEMBLER__ */
#endif /* SORREL32_H */
