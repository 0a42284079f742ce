/* audit with sorrel40.json */
/* One address: what is written is sent, what is read was received. */
#include "sorrel40.h"
#define UART_DATA (*(volatile uint8_t *)0x124)

uint8_t echo(void)
{
    uint8_t byte = UART0_RX;
    UART0_TX = byte;
    UART_DATA = byte;
    byte = UART_DATA;
    return UART0_TX; /* finds write-only-read */
}
