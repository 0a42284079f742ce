/* audit with sorrel40.json */
/* An interrupt-driven serial port with rings, all registers by hand. */
#include <stdbool.h>
#include <stdint.h>

#define SERIAL0 0x120u
#define SERIAL_RATE(base) (*(volatile uint16_t *)(base))
#define SERIAL_CTRL(base) (*(volatile uint8_t *)((base) + 2))
#define SERIAL_STATUS(base) (*(volatile uint8_t *)((base) + 3))
#define SERIAL_BYTE(base) (*(volatile uint8_t *)((base) + 4))
#define RX_ENABLE 0x80
#define TX_ENABLE 0x40
#define RX_IRQ 0x01
#define ERRORS 0x70
#define EMPTY (1 << 2)
#define RECEIVED (1 << 0)
#define RING 32

static volatile uint8_t ring[RING], head, tail;

void serial_open(uint32_t clock, uint32_t rate)
{
    SERIAL_RATE(SERIAL0) = (uint16_t)(clock / (8 * rate) - 1);
    SERIAL_CTRL(SERIAL0) = RX_ENABLE | TX_ENABLE | RX_IRQ;
}

bool serial_put(uint8_t byte)
{
    if (!(SERIAL_STATUS(SERIAL0) & EMPTY))
        return false;
    SERIAL_BYTE(SERIAL0) = byte;
    return true;
}

void serial_interrupt(void)
{
    uint8_t status = SERIAL_STATUS(SERIAL0);
    while (status & RECEIVED) {
        uint8_t byte = SERIAL_BYTE(SERIAL0);
        if (!(status & ERRORS)) {
            ring[head] = byte;
            head = (uint8_t)((head + 1) % RING);
        }
        status = SERIAL_STATUS(SERIAL0);
    }
}

int serial_get(void)
{
    int byte = -1;
    if (tail != head) {
        byte = ring[tail];
        tail = (uint8_t)((tail + 1) % RING);
    }
    return byte;
}
