/* audit with sorrel40.json */
/* Two serial ports of eight bytes each, as a row of structures. */
#include <stdint.h>
typedef struct {
    volatile uint16_t divisor;
    volatile uint8_t ctrl;
    volatile uint8_t status;
    volatile uint8_t data;
    uint8_t unused[3];
} uart_t;
#define UART ((uart_t *)0x120)
#define DISPLAY (&UART[1])

void send(uint8_t byte)
{
    while (!(UART[0].status & 0x04))
        ;
    UART[0].data = byte;
    DISPLAY->divisor = 51;
    UART[1].ctrl = 0xC0;
}
