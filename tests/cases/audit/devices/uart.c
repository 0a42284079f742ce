/* audit with uart16550.xml */
/* A polled serial port through inb and outb. */
#include <linux/serial_reg.h>
#include <sys/io.h>
#define COM1 0x3F8

void open_port(unsigned divisor)
{
    outb(UART_LCR_DLAB, COM1 + UART_LCR);
    outb(divisor & 0xFF, COM1 + UART_DLL);
    outb(divisor >> 8, COM1 + UART_DLM);
    outb(UART_LCR_WLEN8, COM1 + UART_LCR);
    outb(UART_FCR_ENABLE_FIFO | UART_FCR_CLEAR_RCVR | UART_FCR_TRIGGER_8, COM1 + UART_FCR);
    outb(UART_MCR_DTR | UART_MCR_RTS, COM1 + UART_MCR);
}

void put(unsigned char byte)
{
    while (!(inb(COM1 + UART_LSR) & UART_LSR_THRE))
        ;
    outb(byte, COM1 + UART_TX);
}
