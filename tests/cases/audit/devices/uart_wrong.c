/* audit with uart16550.xml */
/* Register names in the wrong roles. */
#include <sys/io.h>

void open_port(unsigned short port)
{
    outb(UART_LCR_DLAB, port + UART_MCR); /* finds bit-of-another-register */
    outb(0x83, port + UART_LCR);
    outb(0, port + UART_LSR); /* finds read-only-written */
    outb(UART_MCR_RTS, port + UART_IER); /* finds bit-of-another-register */
    outb(0x10, port + UART_IER); /* finds reserved-bits-written */
    if (inb(port + UART_FCR) & 1) /* finds write-only-read */
        return;
    if (inb(port + UART_LSR) & UART_LSR_DR)
        outb(inb(port + UART_RX), port + UART_TX);
}
