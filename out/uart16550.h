/* uart16550.h: registers of UART 16550, the serial port with FIFOs
 *
 * Made by regwright from uart16550.xml; change that file and emit again, not this one.
 * Checked against: linux/serial_reg.h, the C library's copy of the kernel's register names for the 16550, revision as installed with Linux 6.1.
 * Facts are those of linux/serial_reg.h: register numbers, bits, and which of several registers at one number answers.
 * Access and reset are not in that header: they are common practice, no source, and stand here only where the header's comments give them.
 * So are the bits 7:6 of IRQ_ID, and what is to be written to reserved bits.
 * The numbers are register numbers; how far apart a board puts them is the board's own matter.
 * inb and outb are those of sys/io.h, as the C library has them on Linux.
 * The crystal and the factor 16 of the line speed are common practice, no source.
 *
 * Caution: a wrong register value can damage hardware or hurt people near what it drives. Before
 * use, compare these numbers with the datasheet and its errata for your revision of the part, and
 * follow local codes; where licensed practice is required, have it checked there.
 */
#ifndef UART16550_H
#define UART16550_H

#define REGWRIGHT_CHIP_UART16550 1U

/* Plain numbers, for C and for the assembler, which reads 0x0U but not 0U. */

/* RX_DATA: Received byte; 8 bits, read-only, uart 0x00 (given), when LINE_CTRL.DLAB = 0 */
/* Reading has an effect: reading changes it. */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define RX_DATA_UART_ADDR 0x00U

/* TX_DATA: Byte to send; 8 bits, write-only, uart 0x00 (given), when LINE_CTRL.DLAB = 0 */
/* Write-only: |= and &= would read it first; write whole values. */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define TX_DATA_UART_ADDR 0x00U

/* DIVISOR_LOW: Low byte of the divisor; 8 bits, read-write, uart 0x00 (given), when LINE_CTRL.DLAB = 1 */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define DIVISOR_LOW_UART_ADDR 0x00U

/* DIVISOR_HIGH: High byte of the divisor; 8 bits, read-write, uart 0x01 (given), when LINE_CTRL.DLAB = 1 */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define DIVISOR_HIGH_UART_ADDR 0x01U

/* IRQ_ENABLE: Interrupt enable; 8 bits, read-write, uart 0x01 (given), when LINE_CTRL.DLAB = 0 */
/* Reserved bits 0xF0: write 0. */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define IRQ_ENABLE_UART_ADDR 0x01U
/* MODEM: when the modem status has changed; bit 3, read-write */
#define IRQ_ENABLE_MODEM_BITPOS 3U
#define IRQ_ENABLE_MODEM_MASK 0x08U
/* LINE: when the line status has an error; bit 2, read-write */
#define IRQ_ENABLE_LINE_BITPOS 2U
#define IRQ_ENABLE_LINE_MASK 0x04U
/* TX_EMPTY: when the next byte may be written; bit 1, read-write */
#define IRQ_ENABLE_TX_EMPTY_BITPOS 1U
#define IRQ_ENABLE_TX_EMPTY_MASK 0x02U
/* RX_READY: when a byte has been received; bit 0, read-write */
#define IRQ_ENABLE_RX_READY_BITPOS 0x0U
#define IRQ_ENABLE_RX_READY_MASK 0x01U

/* IRQ_ID: Interrupt identification; 8 bits, read-only, uart 0x02 (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define IRQ_ID_UART_ADDR 0x02U
/* FIFOS: both are 1 while the FIFOs are on; bits 7:6, read-only */
#define IRQ_ID_FIFOS_BITPOS 6U
#define IRQ_ID_FIFOS_MASK 0xC0U
/* CAUSE: the cause with the highest priority; bits 3:1, read-only */
#define IRQ_ID_CAUSE_BITPOS 1U
#define IRQ_ID_CAUSE_MASK 0x0EU
#define IRQ_ID_CAUSE_MODEM 0x00U
#define IRQ_ID_CAUSE_TX_EMPTY 0x02U
#define IRQ_ID_CAUSE_RX_READY 0x04U
#define IRQ_ID_CAUSE_LINE 0x06U
#define IRQ_ID_CAUSE_RX_TIMEOUT 0x0CU
/* NONE: 1 while no interrupt waits; bit 0, read-only */
#define IRQ_ID_NONE_BITPOS 0x0U
#define IRQ_ID_NONE_MASK 0x01U

/* FIFO_CTRL: FIFO control; 8 bits, write-only, uart 0x02 (given) */
/* Reserved bits 0x30: write 0. */
/* Write-only: |= and &= would read it first; write whole values. */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define FIFO_CTRL_UART_ADDR 0x02U
/* TRIGGER: how many bytes ask for an interrupt; bits 7:6, write-only */
#define FIFO_CTRL_TRIGGER_BITPOS 6U
#define FIFO_CTRL_TRIGGER_MASK 0xC0U
#define FIFO_CTRL_TRIGGER_BYTES1 0x00U
#define FIFO_CTRL_TRIGGER_BYTES4 0x40U
#define FIFO_CTRL_TRIGGER_BYTES8 0x80U
#define FIFO_CTRL_TRIGGER_BYTES14 0xC0U
/* DMA: DMA mode; bit 3, write-only */
#define FIFO_CTRL_DMA_BITPOS 3U
#define FIFO_CTRL_DMA_MASK 0x08U
/* CLEAR_TX: empties the transmitter's FIFO; bit 2, write-only */
#define FIFO_CTRL_CLEAR_TX_BITPOS 2U
#define FIFO_CTRL_CLEAR_TX_MASK 0x04U
/* CLEAR_RX: empties the receiver's FIFO; bit 1, write-only */
#define FIFO_CTRL_CLEAR_RX_BITPOS 1U
#define FIFO_CTRL_CLEAR_RX_MASK 0x02U
/* ENABLE: switches the FIFOs on; bit 0, write-only */
#define FIFO_CTRL_ENABLE_BITPOS 0x0U
#define FIFO_CTRL_ENABLE_MASK 0x01U

/* LINE_CTRL: Line control; 8 bits, read-write, uart 0x03 (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define LINE_CTRL_UART_ADDR 0x03U
/* DLAB: 1 puts the divisor at the numbers 0 and 1; bit 7, read-write */
#define LINE_CTRL_DLAB_BITPOS 7U
#define LINE_CTRL_DLAB_MASK 0x80U
/* BREAK: holds the line low; bit 6, read-write */
#define LINE_CTRL_BREAK_BITPOS 6U
#define LINE_CTRL_BREAK_MASK 0x40U
/* STICK_PARITY: bit 5, read-write */
#define LINE_CTRL_STICK_PARITY_BITPOS 5U
#define LINE_CTRL_STICK_PARITY_MASK 0x20U
/* EVEN_PARITY: bit 4, read-write */
#define LINE_CTRL_EVEN_PARITY_BITPOS 4U
#define LINE_CTRL_EVEN_PARITY_MASK 0x10U
/* PARITY: bit 3, read-write */
#define LINE_CTRL_PARITY_BITPOS 3U
#define LINE_CTRL_PARITY_MASK 0x08U
/* TWO_STOPS: bit 2, read-write */
#define LINE_CTRL_TWO_STOPS_BITPOS 2U
#define LINE_CTRL_TWO_STOPS_MASK 0x04U
/* LENGTH: bits of a character; bits 1:0, read-write */
#define LINE_CTRL_LENGTH_BITPOS 0x0U
#define LINE_CTRL_LENGTH_MASK 0x03U
#define LINE_CTRL_LENGTH_BITS5 0x00U
#define LINE_CTRL_LENGTH_BITS6 0x01U
#define LINE_CTRL_LENGTH_BITS7 0x02U
#define LINE_CTRL_LENGTH_BITS8 0x03U

/* MODEM_CTRL: Modem control; 8 bits, read-write, uart 0x04 (given) */
/* Reserved bits 0xE0: write 0. */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define MODEM_CTRL_UART_ADDR 0x04U
/* LOOP: connects the transmitter to the receiver; bit 4, read-write */
#define MODEM_CTRL_LOOP_BITPOS 4U
#define MODEM_CTRL_LOOP_MASK 0x10U
/* OUT2: bit 3, read-write */
#define MODEM_CTRL_OUT2_BITPOS 3U
#define MODEM_CTRL_OUT2_MASK 0x08U
/* OUT1: bit 2, read-write */
#define MODEM_CTRL_OUT1_BITPOS 2U
#define MODEM_CTRL_OUT1_MASK 0x04U
/* RTS: bit 1, read-write */
#define MODEM_CTRL_RTS_BITPOS 1U
#define MODEM_CTRL_RTS_MASK 0x02U
/* DTR: bit 0, read-write */
#define MODEM_CTRL_DTR_BITPOS 0x0U
#define MODEM_CTRL_DTR_MASK 0x01U

/* LINE_STATUS: Line status; 8 bits, read-only, uart 0x05 (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define LINE_STATUS_UART_ADDR 0x05U
/* FIFO_ERROR: bit 7, read-only */
#define LINE_STATUS_FIFO_ERROR_BITPOS 7U
#define LINE_STATUS_FIFO_ERROR_MASK 0x80U
/* TX_IDLE: the last byte has left; bit 6, read-only */
#define LINE_STATUS_TX_IDLE_BITPOS 6U
#define LINE_STATUS_TX_IDLE_MASK 0x40U
/* TX_EMPTY: the next byte may be written; bit 5, read-only */
#define LINE_STATUS_TX_EMPTY_BITPOS 5U
#define LINE_STATUS_TX_EMPTY_MASK 0x20U
/* BREAK: bit 4, read-only */
#define LINE_STATUS_BREAK_BITPOS 4U
#define LINE_STATUS_BREAK_MASK 0x10U
/* FRAME_ERROR: bit 3, read-only */
#define LINE_STATUS_FRAME_ERROR_BITPOS 3U
#define LINE_STATUS_FRAME_ERROR_MASK 0x08U
/* PARITY_ERROR: bit 2, read-only */
#define LINE_STATUS_PARITY_ERROR_BITPOS 2U
#define LINE_STATUS_PARITY_ERROR_MASK 0x04U
/* OVERRUN: bit 1, read-only */
#define LINE_STATUS_OVERRUN_BITPOS 1U
#define LINE_STATUS_OVERRUN_MASK 0x02U
/* RX_READY: a byte has been received; bit 0, read-only */
#define LINE_STATUS_RX_READY_BITPOS 0x0U
#define LINE_STATUS_RX_READY_MASK 0x01U

/* MODEM_STATUS: Modem status; 8 bits, read-only, uart 0x06 (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define MODEM_STATUS_UART_ADDR 0x06U
/* DCD: bit 7, read-only */
#define MODEM_STATUS_DCD_BITPOS 7U
#define MODEM_STATUS_DCD_MASK 0x80U
/* RI: bit 6, read-only */
#define MODEM_STATUS_RI_BITPOS 6U
#define MODEM_STATUS_RI_MASK 0x40U
/* DSR: bit 5, read-only */
#define MODEM_STATUS_DSR_BITPOS 5U
#define MODEM_STATUS_DSR_MASK 0x20U
/* CTS: bit 4, read-only */
#define MODEM_STATUS_CTS_BITPOS 4U
#define MODEM_STATUS_CTS_MASK 0x10U
/* DCD_CHANGED: bit 3, read-only */
#define MODEM_STATUS_DCD_CHANGED_BITPOS 3U
#define MODEM_STATUS_DCD_CHANGED_MASK 0x08U
/* RI_ENDED: bit 2, read-only */
#define MODEM_STATUS_RI_ENDED_BITPOS 2U
#define MODEM_STATUS_RI_ENDED_MASK 0x04U
/* DSR_CHANGED: bit 1, read-only */
#define MODEM_STATUS_DSR_CHANGED_BITPOS 1U
#define MODEM_STATUS_DSR_CHANGED_MASK 0x02U
/* CTS_CHANGED: bit 0, read-only */
#define MODEM_STATUS_CTS_CHANGED_BITPOS 0x0U
#define MODEM_STATUS_CTS_CHANGED_MASK 0x01U

/* SCRATCH: A byte for the program's own use; 8 bits, read-write, uart 0x07 (given) */
/* No volatile lvalue: C pointers do not reach it in one access. */
#define SCRATCH_UART_ADDR 0x07U

#ifndef __ASSEMBLER__
#include <stdint.h>

#define IRQ_ID_FIFOS_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0xC0U) >> 6)))
#define IRQ_ID_FIFOS_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x3FU) | (((uint8_t)(field) & 0x03U) << 6)))
#define IRQ_ID_CAUSE_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0x0EU) >> 1)))
#define IRQ_ID_CAUSE_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xF1U) | (((uint8_t)(field) & 0x07U) << 1)))
#define FIFO_CTRL_TRIGGER_EXTRACT(value) ((uint8_t)((((uint8_t)(value) & 0xC0U) >> 6)))
#define FIFO_CTRL_TRIGGER_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0x3FU) | (((uint8_t)(field) & 0x03U) << 6)))
#define LINE_CTRL_LENGTH_EXTRACT(value) ((uint8_t)(((uint8_t)(value) & 0x03U)))
#define LINE_CTRL_LENGTH_INSERT(value, field) ((uint8_t)(((uint8_t)(value) & 0xFCU) | ((uint8_t)(field) & 0x03U)))

#endif /* __ASSEMBLER__ */
#endif /* UART16550_H */
