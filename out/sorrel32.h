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

/* Plain numbers, for C and for the assembler, which reads 0x0U but not 0U. */

/* RELAY_LEVEL: Pin levels; 32 bits, read-only, data 0x70030000 (base and offset), reset 0b00000000000000000000xxxxxxxxxxxx, page 39 */
#define RELAY_LEVEL_DATA_ADDR 0x70030000U
#define RELAY_LEVEL_RESET 0x00000000U
#define RELAY_LEVEL_RESET_DEFINED 0xFFFFF000U
/* PINS: bits 11:0, read-only, reset 0bxxxxxxxxxxxx */
#define RELAY_LEVEL_PINS_BITPOS 0x0U
#define RELAY_LEVEL_PINS_MASK 0x00000FFFU

/* RELAY_DRIVE: Output levels; 32 bits, read-write, data 0x70030004 (base and offset), reset 0x00000000, page 39 */
/* Reserved bits 0xFFFFF000: write 0. */
#define RELAY_DRIVE_DATA_ADDR 0x70030004U
#define RELAY_DRIVE_RESET 0x00000000U
/* PINS: bits 11:0, read-write, reset 0x000 */
#define RELAY_DRIVE_PINS_BITPOS 0x0U
#define RELAY_DRIVE_PINS_MASK 0x00000FFFU

/* RELAY_FLIP: Writing 1 turns an output level over; 32 bits, write-only, data 0x70030008 (base and offset), page 40 */
/* Reserved bits 0xFFFFF000: write 0. */
/* Write-only: |= and &= would read it first; write whole values. */
#define RELAY_FLIP_DATA_ADDR 0x70030008U
/* PINS: bits 11:0, write-only, writing 1 toggles it */
#define RELAY_FLIP_PINS_BITPOS 0x0U
#define RELAY_FLIP_PINS_MASK 0x00000FFFU

/* RELAY_ROLE: What each of the first four pins does; 32 bits, read-write, data 0x70030020 (base and offset), reset 0x00000000, page 41 */
/* Reserved bits 0xFFFF8000: write as it was read. */
/* Reserved bits 0x00000800: write 0. */
/* Reserved bits 0x00000080: write 0. */
/* Reserved bits 0x00000008: write 0. */
#define RELAY_ROLE_DATA_ADDR 0x70030020U
#define RELAY_ROLE_RESET 0x00000000U
/* PIN0: bits 2:0, read-write, reset 0x00 */
#define RELAY_ROLE_PIN0_BITPOS 0x0U
#define RELAY_ROLE_PIN0_MASK 0x00000007U
#define RELAY_ROLE_PIN0_OFF 0x00000000U
#define RELAY_ROLE_PIN0_IN 0x00000001U
#define RELAY_ROLE_PIN0_OUT 0x00000002U
#define RELAY_ROLE_PIN0_OPEN_DRAIN 0x00000003U
#define RELAY_ROLE_PIN0_PERIPHERAL 0x00000004U
/* PIN1: bits 6:4, read-write, reset 0x00 */
#define RELAY_ROLE_PIN1_BITPOS 4U
#define RELAY_ROLE_PIN1_MASK 0x00000070U
/* PIN2: bits 10:8, read-write, reset 0x00 */
#define RELAY_ROLE_PIN2_BITPOS 8U
#define RELAY_ROLE_PIN2_MASK 0x00000700U
/* PIN3: bits 14:12, read-write, reset 0x00 */
#define RELAY_ROLE_PIN3_BITPOS 12U
#define RELAY_ROLE_PIN3_MASK 0x00007000U

/* SENSE_LEVEL: Pin levels; 32 bits, read-only, data 0x70030080 (base and offset), reset 0b00000000000000000000xxxxxxxxxxxx, page 39 */
#define SENSE_LEVEL_DATA_ADDR 0x70030080U
#define SENSE_LEVEL_RESET 0x00000000U
#define SENSE_LEVEL_RESET_DEFINED 0xFFFFF000U
/* PINS: bits 11:0, read-only, reset 0bxxxxxxxxxxxx */
#define SENSE_LEVEL_PINS_BITPOS 0x0U
#define SENSE_LEVEL_PINS_MASK 0x00000FFFU

/* SENSE_DRIVE: Output levels; 32 bits, read-write, data 0x70030084 (base and offset), reset 0x00000000, page 39 */
/* Reserved bits 0xFFFFF000: write 0. */
#define SENSE_DRIVE_DATA_ADDR 0x70030084U
#define SENSE_DRIVE_RESET 0x00000000U
/* PINS: bits 11:0, read-write, reset 0x000 */
#define SENSE_DRIVE_PINS_BITPOS 0x0U
#define SENSE_DRIVE_PINS_MASK 0x00000FFFU

/* SENSE_FLIP: Writing 1 turns an output level over; 32 bits, write-only, data 0x70030088 (base and offset), page 40 */
/* Reserved bits 0xFFFFF000: write 0. */
/* Write-only: |= and &= would read it first; write whole values. */
#define SENSE_FLIP_DATA_ADDR 0x70030088U
/* PINS: bits 11:0, write-only, writing 1 toggles it */
#define SENSE_FLIP_PINS_BITPOS 0x0U
#define SENSE_FLIP_PINS_MASK 0x00000FFFU

/* SENSE_ROLE: What each of the first four pins does; 32 bits, read-write, data 0x700300A0 (base and offset), reset 0x00000000, page 41 */
/* Reserved bits 0xFFFF8000: write as it was read. */
/* Reserved bits 0x00000800: write 0. */
/* Reserved bits 0x00000080: write 0. */
/* Reserved bits 0x00000008: write 0. */
#define SENSE_ROLE_DATA_ADDR 0x700300A0U
#define SENSE_ROLE_RESET 0x00000000U
/* PIN0: bits 2:0, read-write, reset 0x00 */
#define SENSE_ROLE_PIN0_BITPOS 0x0U
#define SENSE_ROLE_PIN0_MASK 0x00000007U
#define SENSE_ROLE_PIN0_OFF 0x00000000U
#define SENSE_ROLE_PIN0_IN 0x00000001U
#define SENSE_ROLE_PIN0_OUT 0x00000002U
#define SENSE_ROLE_PIN0_OPEN_DRAIN 0x00000003U
#define SENSE_ROLE_PIN0_PERIPHERAL 0x00000004U
/* PIN1: bits 6:4, read-write, reset 0x00 */
#define SENSE_ROLE_PIN1_BITPOS 4U
#define SENSE_ROLE_PIN1_MASK 0x00000070U
/* PIN2: bits 10:8, read-write, reset 0x00 */
#define SENSE_ROLE_PIN2_BITPOS 8U
#define SENSE_ROLE_PIN2_MASK 0x00000700U
/* PIN3: bits 14:12, read-write, reset 0x00 */
#define SENSE_ROLE_PIN3_BITPOS 12U
#define SENSE_ROLE_PIN3_MASK 0x00007000U

/* COPY_EVENTS: Flags of every lane; 32 bits, read-write, data 0x70018008 (base and offset), reset 0x00000000, page 53 */
/* Reserved bits 0xFE000000: write 0. */
/* Reserved bits 0x00F80000: write 0. */
/* Reserved bits 0x0000FFF8: write 0. */
/* |= and INSERT of a value read here clear FAILED, DONE; use CLEAR for one flag. */
#define COPY_EVENTS_DATA_ADDR 0x70018008U
#define COPY_EVENTS_RESET 0x00000000U
/* ENABLE: switches the block on; bit 24, read-write, reset 0x00 */
#define COPY_EVENTS_ENABLE_BITPOS 24U
#define COPY_EVENTS_ENABLE_MASK 0x01000000U
/* FAILED: a bit for each lane; bits 18:16, read-write, writing 1 clears it, reset 0x00 */
#define COPY_EVENTS_FAILED_BITPOS 16U
#define COPY_EVENTS_FAILED_MASK 0x00070000U
/* DONE: a bit for each lane; bits 2:0, read-write, writing 1 clears it, reset 0x00 */
#define COPY_EVENTS_DONE_BITPOS 0x0U
#define COPY_EVENTS_DONE_MASK 0x00000007U

/* COPY_LANE0_SETUP: Lane setup; 32 bits, read-write, data 0x70018050 (base and offset), reset 0x00000000, page 54 */
/* Reserved bits 0x7FFFFC00: write 0. */
/* Reserved bits 0x000000C0: write 0. */
/* Reserved bits 0x00000007: write 0. */
#define COPY_LANE0_SETUP_DATA_ADDR 0x70018050U
#define COPY_LANE0_SETUP_RESET 0x00000000U
/* RUN: bit 31, read-write, reset 0x00 */
#define COPY_LANE0_SETUP_RUN_BITPOS 31U
#define COPY_LANE0_SETUP_RUN_MASK 0x80000000U
/* SIZE: bits of one transfer; bits 9:8, read-write, reset 0x00 */
#define COPY_LANE0_SETUP_SIZE_BITPOS 8U
#define COPY_LANE0_SETUP_SIZE_MASK 0x00000300U
#define COPY_LANE0_SETUP_SIZE_BITS8 0x00000000U
#define COPY_LANE0_SETUP_SIZE_BITS16 0x00000100U
#define COPY_LANE0_SETUP_SIZE_BITS32 0x00000200U
/* RANK: who goes first; bits 5:3, read-write, reset 0x00 */
#define COPY_LANE0_SETUP_RANK_BITPOS 3U
#define COPY_LANE0_SETUP_RANK_MASK 0x00000038U

/* COPY_LANE0_LEFT: Transfers left; 32 bits, read-write, data 0x70018054 (base and offset), reset 0x00000000, page 55 */
/* Reserved bits 0xFFF00000: write 0. */
#define COPY_LANE0_LEFT_DATA_ADDR 0x70018054U
#define COPY_LANE0_LEFT_RESET 0x00000000U
/* VALUE: bits 19:0, read-write, reset 0x00000 */
#define COPY_LANE0_LEFT_VALUE_BITPOS 0x0U
#define COPY_LANE0_LEFT_VALUE_MASK 0x000FFFFFU

/* COPY_LANE0_END_FROM: Where from; 32 bits, read-write, data 0x70018060 (base and offset), reset 0x00000000, page 55 */
#define COPY_LANE0_END_FROM_DATA_ADDR 0x70018060U
#define COPY_LANE0_END_FROM_RESET 0x00000000U

/* COPY_LANE0_END_TO: Where to; 32 bits, read-write, data 0x70018064 (base and offset), reset 0x00000000, page 55 */
#define COPY_LANE0_END_TO_DATA_ADDR 0x70018064U
#define COPY_LANE0_END_TO_RESET 0x00000000U

/* COPY_LANE1_SETUP: Lane setup; 32 bits, read-write, data 0x70018090 (base and offset), reset 0x00000000, page 54 */
/* Reserved bits 0x7FFFFC00: write 0. */
/* Reserved bits 0x000000C0: write 0. */
/* Reserved bits 0x00000007: write 0. */
#define COPY_LANE1_SETUP_DATA_ADDR 0x70018090U
#define COPY_LANE1_SETUP_RESET 0x00000000U
/* RUN: bit 31, read-write, reset 0x00 */
#define COPY_LANE1_SETUP_RUN_BITPOS 31U
#define COPY_LANE1_SETUP_RUN_MASK 0x80000000U
/* SIZE: bits of one transfer; bits 9:8, read-write, reset 0x00 */
#define COPY_LANE1_SETUP_SIZE_BITPOS 8U
#define COPY_LANE1_SETUP_SIZE_MASK 0x00000300U
#define COPY_LANE1_SETUP_SIZE_BITS8 0x00000000U
#define COPY_LANE1_SETUP_SIZE_BITS16 0x00000100U
#define COPY_LANE1_SETUP_SIZE_BITS32 0x00000200U
/* RANK: who goes first; bits 5:3, read-write, reset 0x00 */
#define COPY_LANE1_SETUP_RANK_BITPOS 3U
#define COPY_LANE1_SETUP_RANK_MASK 0x00000038U

/* COPY_LANE1_LEFT: Transfers left; 32 bits, read-write, data 0x70018094 (base and offset), reset 0x00000000, page 55 */
/* Reserved bits 0xFFF00000: write 0. */
#define COPY_LANE1_LEFT_DATA_ADDR 0x70018094U
#define COPY_LANE1_LEFT_RESET 0x00000000U
/* VALUE: bits 19:0, read-write, reset 0x00000 */
#define COPY_LANE1_LEFT_VALUE_BITPOS 0x0U
#define COPY_LANE1_LEFT_VALUE_MASK 0x000FFFFFU

/* COPY_LANE1_END_FROM: Where from; 32 bits, read-write, data 0x700180A0 (base and offset), reset 0x00000000, page 55 */
#define COPY_LANE1_END_FROM_DATA_ADDR 0x700180A0U
#define COPY_LANE1_END_FROM_RESET 0x00000000U

/* COPY_LANE1_END_TO: Where to; 32 bits, read-write, data 0x700180A4 (base and offset), reset 0x00000000, page 55 */
#define COPY_LANE1_END_TO_DATA_ADDR 0x700180A4U
#define COPY_LANE1_END_TO_RESET 0x00000000U

/* COPY_LANE2_SETUP: Lane setup; 32 bits, read-write, data 0x700180D0 (base and offset), reset 0x00000000, page 54 */
/* Reserved bits 0x7FFFFC00: write 0. */
/* Reserved bits 0x000000C0: write 0. */
/* Reserved bits 0x00000007: write 0. */
#define COPY_LANE2_SETUP_DATA_ADDR 0x700180D0U
#define COPY_LANE2_SETUP_RESET 0x00000000U
/* RUN: bit 31, read-write, reset 0x00 */
#define COPY_LANE2_SETUP_RUN_BITPOS 31U
#define COPY_LANE2_SETUP_RUN_MASK 0x80000000U
/* SIZE: bits of one transfer; bits 9:8, read-write, reset 0x00 */
#define COPY_LANE2_SETUP_SIZE_BITPOS 8U
#define COPY_LANE2_SETUP_SIZE_MASK 0x00000300U
#define COPY_LANE2_SETUP_SIZE_BITS8 0x00000000U
#define COPY_LANE2_SETUP_SIZE_BITS16 0x00000100U
#define COPY_LANE2_SETUP_SIZE_BITS32 0x00000200U
/* RANK: who goes first; bits 5:3, read-write, reset 0x00 */
#define COPY_LANE2_SETUP_RANK_BITPOS 3U
#define COPY_LANE2_SETUP_RANK_MASK 0x00000038U

/* COPY_LANE2_LEFT: Transfers left; 32 bits, read-write, data 0x700180D4 (base and offset), reset 0x00000000, page 55 */
/* Reserved bits 0xFFF00000: write 0. */
#define COPY_LANE2_LEFT_DATA_ADDR 0x700180D4U
#define COPY_LANE2_LEFT_RESET 0x00000000U
/* VALUE: bits 19:0, read-write, reset 0x00000 */
#define COPY_LANE2_LEFT_VALUE_BITPOS 0x0U
#define COPY_LANE2_LEFT_VALUE_MASK 0x000FFFFFU

/* COPY_LANE2_END_FROM: Where from; 32 bits, read-write, data 0x700180E0 (base and offset), reset 0x00000000, page 55 */
#define COPY_LANE2_END_FROM_DATA_ADDR 0x700180E0U
#define COPY_LANE2_END_FROM_RESET 0x00000000U

/* COPY_LANE2_END_TO: Where to; 32 bits, read-write, data 0x700180E4 (base and offset), reset 0x00000000, page 55 */
#define COPY_LANE2_END_TO_DATA_ADDR 0x700180E4U
#define COPY_LANE2_END_TO_RESET 0x00000000U

/* PROBE_RESULT: Last result; 32 bits, read-only, data 0x70005408 (base and offset), reset 0x00000000, page 72 */
/* Reading has an effect: reading changes it. */
#define PROBE_RESULT_DATA_ADDR 0x70005408U
#define PROBE_RESULT_RESET 0x00000000U
/* VALUE: bits 29:16, read-only, reset 0x0000 */
#define PROBE_RESULT_VALUE_BITPOS 16U
#define PROBE_RESULT_VALUE_MASK 0x3FFF0000U

/* PROBE_STATE: Converter state; 32 bits, read-write, data 0x70005430 (base and offset), reset 0x00000000, page 71 */
/* Reserved bits 0xFFFFC000: write as it was read. */
/* Reserved bits 0x00000FFF: write as it was read. */
/* &= of another field may clear LOST, READY; use CLEAR for one flag. */
#define PROBE_STATE_DATA_ADDR 0x70005430U
#define PROBE_STATE_RESET 0x00000000U
/* LOST: a result was lost; bit 13, read-write, writing 0 clears it, reset 0x00 */
#define PROBE_STATE_LOST_BITPOS 13U
#define PROBE_STATE_LOST_MASK 0x00002000U
/* READY: a result is ready; bit 12, read-write, writing 0 clears it, reset 0x00 */
#define PROBE_STATE_READY_BITPOS 12U
#define PROBE_STATE_READY_MASK 0x00001000U

/* PROBE_SETTLE0: Settling time of each input; 32 bits, read-write, data 0x70005480 (base and offset), reset 0x00000010, page 73 */
/* Reserved bits 0xFFFFFC00: write 0. */
#define PROBE_SETTLE0_DATA_ADDR 0x70005480U
#define PROBE_SETTLE0_RESET 0x00000010U
/* CYCLES: bits 9:0, read-write, reset 0x010 */
#define PROBE_SETTLE0_CYCLES_BITPOS 0x0U
#define PROBE_SETTLE0_CYCLES_MASK 0x000003FFU

/* PROBE_SETTLE1: Settling time of each input; 32 bits, read-write, data 0x70005488 (base and offset), reset 0x00000010, page 73 */
/* Reserved bits 0xFFFFFC00: write 0. */
#define PROBE_SETTLE1_DATA_ADDR 0x70005488U
#define PROBE_SETTLE1_RESET 0x00000010U
/* CYCLES: bits 9:0, read-write, reset 0x010 */
#define PROBE_SETTLE1_CYCLES_BITPOS 0x0U
#define PROBE_SETTLE1_CYCLES_MASK 0x000003FFU

/* PROBE_SETTLE2: Settling time of each input; 32 bits, read-write, data 0x70005490 (base and offset), reset 0x00000010, page 73 */
/* Reserved bits 0xFFFFFC00: write 0. */
#define PROBE_SETTLE2_DATA_ADDR 0x70005490U
#define PROBE_SETTLE2_RESET 0x00000010U
/* CYCLES: bits 9:0, read-write, reset 0x010 */
#define PROBE_SETTLE2_CYCLES_BITPOS 0x0U
#define PROBE_SETTLE2_CYCLES_MASK 0x000003FFU

/* PROBE_SETTLE3: Settling time of each input; 32 bits, read-write, data 0x70005498 (base and offset), reset 0x00000010, page 73 */
/* Reserved bits 0xFFFFFC00: write 0. */
#define PROBE_SETTLE3_DATA_ADDR 0x70005498U
#define PROBE_SETTLE3_RESET 0x00000010U
/* CYCLES: bits 9:0, read-write, reset 0x010 */
#define PROBE_SETTLE3_CYCLES_BITPOS 0x0U
#define PROBE_SETTLE3_CYCLES_MASK 0x000003FFU

/* PROBE_SETTLE4: Settling time of each input; 32 bits, read-write, data 0x700054A0 (base and offset), reset 0x00000010, page 73 */
/* Reserved bits 0xFFFFFC00: write 0. */
#define PROBE_SETTLE4_DATA_ADDR 0x700054A0U
#define PROBE_SETTLE4_RESET 0x00000010U
/* CYCLES: bits 9:0, read-write, reset 0x010 */
#define PROBE_SETTLE4_CYCLES_BITPOS 0x0U
#define PROBE_SETTLE4_CYCLES_MASK 0x000003FFU

/* PROBE_SETTLE5: Settling time of each input; 32 bits, read-write, data 0x700054A8 (base and offset), reset 0x00000010, page 73 */
/* Reserved bits 0xFFFFFC00: write 0. */
#define PROBE_SETTLE5_DATA_ADDR 0x700054A8U
#define PROBE_SETTLE5_RESET 0x00000010U
/* CYCLES: bits 9:0, read-write, reset 0x010 */
#define PROBE_SETTLE5_CYCLES_BITPOS 0x0U
#define PROBE_SETTLE5_CYCLES_MASK 0x000003FFU

/* BEAT_KEY: Unlock key; 16 bits, write-only, data 0x7000020C (base and offset), page 22 */
/* Write-only: |= and &= would read it first; write whole values. */
#define BEAT_KEY_DATA_ADDR 0x7000020CU
/* VALUE: bits 15:0, write-only */
#define BEAT_KEY_VALUE_BITPOS 0x0U
#define BEAT_KEY_VALUE_MASK 0xFFFFU
#define BEAT_KEY_VALUE_UNLOCK 0x6B2DU

/* BEAT_SPEED: Speed of the CPU clock; 32 bits, read-write, data 0x70000210 (base and offset), reset 0x00000001, page 21 */
/* Reserved bits 0xFFFFFC00: write 0. */
/* Reserved bits 0x000000FC: write 0. */
#define BEAT_SPEED_DATA_ADDR 0x70000210U
#define BEAT_SPEED_RESET 0x00000001U
/* TIMES: multiplies the oscillator; bits 9:8, read-write, reset 0x00 */
#define BEAT_SPEED_TIMES_BITPOS 8U
#define BEAT_SPEED_TIMES_MASK 0x00000300U
#define BEAT_SPEED_TIMES_ONE 0x00000000U
#define BEAT_SPEED_TIMES_TWO 0x00000100U
#define BEAT_SPEED_TIMES_FOUR 0x00000200U
/* CPU: divides for the CPU; bits 1:0, read-write, reset 0x01 */
#define BEAT_SPEED_CPU_BITPOS 0x0U
#define BEAT_SPEED_CPU_MASK 0x00000003U
#define BEAT_SPEED_CPU_BY1 0x00000000U
#define BEAT_SPEED_CPU_BY2 0x00000001U
#define BEAT_SPEED_CPU_BY3 0x00000002U
#define BEAT_SPEED_CPU_BY6 0x00000003U

/* BEAT_UPTIME: Cycles since reset; 64 bits, read-only, data 0x70000298 (base and offset), reset 0x0000000000000000, page 25 */
#define BEAT_UPTIME_DATA_ADDR 0x70000298U
#define BEAT_UPTIME_RESET 0x0000000000000000U

/* Memories. UNITS counts addresses of its space, BYTES what they hold. */
/* ROM: program memory; flash, in data space, page 9 */
#define MEMORY_ROM_DATA_ADDR 0x10000000U
#define MEMORY_ROM_UNITS 0x40000U
#define MEMORY_ROM_BYTES 262144U
#define MEMORY_ROM_PAGE_UNITS 256U
#define MEMORY_ROM_ERASE_UNITS 4096U
/* RAM: ram, in data space, page 9 */
#define MEMORY_RAM_DATA_ADDR 0x30000000U
#define MEMORY_RAM_UNITS 0xC000U
#define MEMORY_RAM_BYTES 49152U

/* Clock. */
/* As delivered, the CPU has 12 MHz (11.88 MHz to 12.12 MHz). */
/* internal-24mhz: 24 MHz, 1 % off at most */
/* multiplier: as it is (BEAT_SPEED.TIMES = 0x00 after reset) */
/* cpu-divider: divided by 2 (BEAT_SPEED.CPU = 0x01 after reset) */
#define CPU_DEFAULT_HZ 12000000U

/* A program that names its clock CPU_CLOCK_HZ before this header is compared with the default. */
/* It must be an integer that #if can read: no cast, no decimal point. A program that sets another */
/* clock by itself, or is for a chip with other settings, defines REGWRIGHT_CLOCK_CHANGES. */
#if defined(CPU_CLOCK_HZ) && !defined(REGWRIGHT_CLOCK_CHANGES)
#if (CPU_CLOCK_HZ + 0) != CPU_DEFAULT_HZ
#if defined(__GNUC__)
#pragma GCC warning "CPU_CLOCK_HZ is not CPU_DEFAULT_HZ: as delivered, sorrel32 runs at 12 MHz (11.88 MHz to 12.12 MHz); correct it, or define REGWRIGHT_CLOCK_CHANGES"
#elif defined(__STDC_VERSION__) && __STDC_VERSION__ >= 202311L || defined(__cplusplus) && __cplusplus >= 202302L
#warning "CPU_CLOCK_HZ is not CPU_DEFAULT_HZ: as delivered, sorrel32 runs at 12 MHz (11.88 MHz to 12.12 MHz); correct it, or define REGWRIGHT_CLOCK_CHANGES"
#else
#pragma message("CPU_CLOCK_HZ is not CPU_DEFAULT_HZ: as delivered, sorrel32 runs at 12 MHz (11.88 MHz to 12.12 MHz); correct it, or define REGWRIGHT_CLOCK_CHANGES")
#endif
#endif
#endif

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

#define RELAY_LEVEL SORREL32_READ32(RELAY_LEVEL_DATA_ADDR)
#define RELAY_LEVEL_PINS_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x00000FFFU)))
#define RELAY_LEVEL_PINS_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFF000U) | ((uint32_t)(field) & 0x00000FFFU)))
#define RELAY_DRIVE SORREL32_REG32(RELAY_DRIVE_DATA_ADDR)
#define RELAY_DRIVE_PINS_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x00000FFFU)))
#define RELAY_DRIVE_PINS_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFF000U) | ((uint32_t)(field) & 0x00000FFFU)))
#define RELAY_FLIP SORREL32_REG32(RELAY_FLIP_DATA_ADDR)
#define RELAY_FLIP_PINS_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x00000FFFU)))
#define RELAY_FLIP_PINS_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFF000U) | ((uint32_t)(field) & 0x00000FFFU)))
#define RELAY_ROLE SORREL32_REG32(RELAY_ROLE_DATA_ADDR)
#define RELAY_ROLE_PIN0_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x00000007U)))
#define RELAY_ROLE_PIN0_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFF8U) | ((uint32_t)(field) & 0x00000007U)))
#define RELAY_ROLE_PIN1_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000070U) >> 4)))
#define RELAY_ROLE_PIN1_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFF8FU) | (((uint32_t)(field) & 0x00000007U) << 4)))
#define RELAY_ROLE_PIN2_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000700U) >> 8)))
#define RELAY_ROLE_PIN2_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFF8FFU) | (((uint32_t)(field) & 0x00000007U) << 8)))
#define RELAY_ROLE_PIN3_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00007000U) >> 12)))
#define RELAY_ROLE_PIN3_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFF8FFFU) | (((uint32_t)(field) & 0x00000007U) << 12)))
#define SENSE_LEVEL SORREL32_READ32(SENSE_LEVEL_DATA_ADDR)
#define SENSE_LEVEL_PINS_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x00000FFFU)))
#define SENSE_LEVEL_PINS_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFF000U) | ((uint32_t)(field) & 0x00000FFFU)))
#define SENSE_DRIVE SORREL32_REG32(SENSE_DRIVE_DATA_ADDR)
#define SENSE_DRIVE_PINS_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x00000FFFU)))
#define SENSE_DRIVE_PINS_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFF000U) | ((uint32_t)(field) & 0x00000FFFU)))
#define SENSE_FLIP SORREL32_REG32(SENSE_FLIP_DATA_ADDR)
#define SENSE_FLIP_PINS_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x00000FFFU)))
#define SENSE_FLIP_PINS_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFF000U) | ((uint32_t)(field) & 0x00000FFFU)))
#define SENSE_ROLE SORREL32_REG32(SENSE_ROLE_DATA_ADDR)
#define SENSE_ROLE_PIN0_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x00000007U)))
#define SENSE_ROLE_PIN0_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFF8U) | ((uint32_t)(field) & 0x00000007U)))
#define SENSE_ROLE_PIN1_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000070U) >> 4)))
#define SENSE_ROLE_PIN1_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFF8FU) | (((uint32_t)(field) & 0x00000007U) << 4)))
#define SENSE_ROLE_PIN2_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000700U) >> 8)))
#define SENSE_ROLE_PIN2_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFF8FFU) | (((uint32_t)(field) & 0x00000007U) << 8)))
#define SENSE_ROLE_PIN3_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00007000U) >> 12)))
#define SENSE_ROLE_PIN3_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFF8FFFU) | (((uint32_t)(field) & 0x00000007U) << 12)))
#define COPY_EVENTS SORREL32_REG32(COPY_EVENTS_DATA_ADDR)
#define COPY_EVENTS_FAILED_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00070000U) >> 16)))
#define COPY_EVENTS_FAILED_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFF8FFFFU) | (((uint32_t)(field) & 0x00000007U) << 16)))
#define COPY_EVENTS_FAILED_TO_CLEAR(value) ((uint32_t)(((uint32_t)(value) & 0x01000000U) | 0x00070000U))
#define COPY_EVENTS_FAILED_CLEAR() (COPY_EVENTS = COPY_EVENTS_FAILED_TO_CLEAR(COPY_EVENTS))
#define COPY_EVENTS_DONE_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x00000007U)))
#define COPY_EVENTS_DONE_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFF8U) | ((uint32_t)(field) & 0x00000007U)))
#define COPY_EVENTS_DONE_TO_CLEAR(value) ((uint32_t)(((uint32_t)(value) & 0x01000000U) | 0x00000007U))
#define COPY_EVENTS_DONE_CLEAR() (COPY_EVENTS = COPY_EVENTS_DONE_TO_CLEAR(COPY_EVENTS))
#define COPY_LANE0_SETUP SORREL32_REG32(COPY_LANE0_SETUP_DATA_ADDR)
#define COPY_LANE0_SETUP_SIZE_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000300U) >> 8)))
#define COPY_LANE0_SETUP_SIZE_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFCFFU) | (((uint32_t)(field) & 0x00000003U) << 8)))
#define COPY_LANE0_SETUP_RANK_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000038U) >> 3)))
#define COPY_LANE0_SETUP_RANK_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFC7U) | (((uint32_t)(field) & 0x00000007U) << 3)))
#define COPY_LANE0_LEFT SORREL32_REG32(COPY_LANE0_LEFT_DATA_ADDR)
#define COPY_LANE0_LEFT_VALUE_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000FFFFFU)))
#define COPY_LANE0_LEFT_VALUE_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFF00000U) | ((uint32_t)(field) & 0x000FFFFFU)))
#define COPY_LANE0_END_FROM SORREL32_REG32(COPY_LANE0_END_FROM_DATA_ADDR)
#define COPY_LANE0_END_TO SORREL32_REG32(COPY_LANE0_END_TO_DATA_ADDR)
#define COPY_LANE1_SETUP SORREL32_REG32(COPY_LANE1_SETUP_DATA_ADDR)
#define COPY_LANE1_SETUP_SIZE_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000300U) >> 8)))
#define COPY_LANE1_SETUP_SIZE_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFCFFU) | (((uint32_t)(field) & 0x00000003U) << 8)))
#define COPY_LANE1_SETUP_RANK_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000038U) >> 3)))
#define COPY_LANE1_SETUP_RANK_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFC7U) | (((uint32_t)(field) & 0x00000007U) << 3)))
#define COPY_LANE1_LEFT SORREL32_REG32(COPY_LANE1_LEFT_DATA_ADDR)
#define COPY_LANE1_LEFT_VALUE_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000FFFFFU)))
#define COPY_LANE1_LEFT_VALUE_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFF00000U) | ((uint32_t)(field) & 0x000FFFFFU)))
#define COPY_LANE1_END_FROM SORREL32_REG32(COPY_LANE1_END_FROM_DATA_ADDR)
#define COPY_LANE1_END_TO SORREL32_REG32(COPY_LANE1_END_TO_DATA_ADDR)
#define COPY_LANE2_SETUP SORREL32_REG32(COPY_LANE2_SETUP_DATA_ADDR)
#define COPY_LANE2_SETUP_SIZE_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000300U) >> 8)))
#define COPY_LANE2_SETUP_SIZE_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFCFFU) | (((uint32_t)(field) & 0x00000003U) << 8)))
#define COPY_LANE2_SETUP_RANK_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000038U) >> 3)))
#define COPY_LANE2_SETUP_RANK_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFC7U) | (((uint32_t)(field) & 0x00000007U) << 3)))
#define COPY_LANE2_LEFT SORREL32_REG32(COPY_LANE2_LEFT_DATA_ADDR)
#define COPY_LANE2_LEFT_VALUE_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000FFFFFU)))
#define COPY_LANE2_LEFT_VALUE_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFF00000U) | ((uint32_t)(field) & 0x000FFFFFU)))
#define COPY_LANE2_END_FROM SORREL32_REG32(COPY_LANE2_END_FROM_DATA_ADDR)
#define COPY_LANE2_END_TO SORREL32_REG32(COPY_LANE2_END_TO_DATA_ADDR)
#define PROBE_RESULT SORREL32_READ32(PROBE_RESULT_DATA_ADDR)
#define PROBE_RESULT_VALUE_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x3FFF0000U) >> 16)))
#define PROBE_RESULT_VALUE_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xC000FFFFU) | (((uint32_t)(field) & 0x00003FFFU) << 16)))
#define PROBE_STATE SORREL32_REG32(PROBE_STATE_DATA_ADDR)
#define PROBE_STATE_LOST_TO_CLEAR(value) ((uint32_t)(((uint32_t)(value) & 0xFFFFCFFFU) | 0x00001000U))
#define PROBE_STATE_LOST_CLEAR() (PROBE_STATE = PROBE_STATE_LOST_TO_CLEAR(PROBE_STATE))
#define PROBE_STATE_READY_TO_CLEAR(value) ((uint32_t)(((uint32_t)(value) & 0xFFFFCFFFU) | 0x00002000U))
#define PROBE_STATE_READY_CLEAR() (PROBE_STATE = PROBE_STATE_READY_TO_CLEAR(PROBE_STATE))
#define PROBE_SETTLE0 SORREL32_REG32(PROBE_SETTLE0_DATA_ADDR)
#define PROBE_SETTLE0_CYCLES_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000003FFU)))
#define PROBE_SETTLE0_CYCLES_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFC00U) | ((uint32_t)(field) & 0x000003FFU)))
#define PROBE_SETTLE1 SORREL32_REG32(PROBE_SETTLE1_DATA_ADDR)
#define PROBE_SETTLE1_CYCLES_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000003FFU)))
#define PROBE_SETTLE1_CYCLES_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFC00U) | ((uint32_t)(field) & 0x000003FFU)))
#define PROBE_SETTLE2 SORREL32_REG32(PROBE_SETTLE2_DATA_ADDR)
#define PROBE_SETTLE2_CYCLES_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000003FFU)))
#define PROBE_SETTLE2_CYCLES_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFC00U) | ((uint32_t)(field) & 0x000003FFU)))
#define PROBE_SETTLE3 SORREL32_REG32(PROBE_SETTLE3_DATA_ADDR)
#define PROBE_SETTLE3_CYCLES_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000003FFU)))
#define PROBE_SETTLE3_CYCLES_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFC00U) | ((uint32_t)(field) & 0x000003FFU)))
#define PROBE_SETTLE4 SORREL32_REG32(PROBE_SETTLE4_DATA_ADDR)
#define PROBE_SETTLE4_CYCLES_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000003FFU)))
#define PROBE_SETTLE4_CYCLES_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFC00U) | ((uint32_t)(field) & 0x000003FFU)))
#define PROBE_SETTLE5 SORREL32_REG32(PROBE_SETTLE5_DATA_ADDR)
#define PROBE_SETTLE5_CYCLES_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x000003FFU)))
#define PROBE_SETTLE5_CYCLES_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFC00U) | ((uint32_t)(field) & 0x000003FFU)))
#define BEAT_KEY SORREL32_REG16(BEAT_KEY_DATA_ADDR)
#define BEAT_KEY_VALUE_EXTRACT(value) ((uint16_t)(((uint16_t)(value) & 0xFFFFU)))
#define BEAT_KEY_VALUE_INSERT(value, field) ((uint16_t)(((uint16_t)(value) & 0x0000U) | ((uint16_t)(field) & 0xFFFFU)))
#define BEAT_SPEED SORREL32_REG32(BEAT_SPEED_DATA_ADDR)
#define BEAT_SPEED_TIMES_EXTRACT(value) ((uint32_t)((((uint32_t)(value) & 0x00000300U) >> 8)))
#define BEAT_SPEED_TIMES_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFCFFU) | (((uint32_t)(field) & 0x00000003U) << 8)))
#define BEAT_SPEED_CPU_EXTRACT(value) ((uint32_t)(((uint32_t)(value) & 0x00000003U)))
#define BEAT_SPEED_CPU_INSERT(value, field) ((uint32_t)(((uint32_t)(value) & 0xFFFFFFFCU) | ((uint32_t)(field) & 0x00000003U)))
#define BEAT_UPTIME SORREL32_READ64(BEAT_UPTIME_DATA_ADDR)

#endif /* __ASSEMBLER__ */
#endif /* SORREL32_H */
