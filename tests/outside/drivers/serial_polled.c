/* A serial port without interrupts, by the names of linux/serial_reg.h. */
#include <linux/serial_reg.h>
#include <sys/io.h>

#define CLOCK 115200u

struct settings {
    unsigned rate;
    int seven_bits;
    int even_parity;
    int two_stops;
};

void serial_open(unsigned short base, const struct settings *wanted)
{
    unsigned divisor = CLOCK / wanted->rate;
    unsigned char line = wanted->seven_bits ? UART_LCR_WLEN7 : UART_LCR_WLEN8;

    if (wanted->even_parity)
        line |= UART_LCR_PARITY | UART_LCR_EPAR;
    if (wanted->two_stops)
        line |= UART_LCR_STOP;

    outb(0, base + UART_IER);
    outb(UART_LCR_DLAB, base + UART_LCR);
    outb(divisor & 0xFF, base + UART_DLL);
    outb(divisor >> 8, base + UART_DLM);
    outb(line, base + UART_LCR);
    outb(UART_FCR_ENABLE_FIFO | UART_FCR_CLEAR_RCVR | UART_FCR_CLEAR_XMIT, base + UART_FCR);
    outb(UART_MCR_DTR | UART_MCR_RTS | UART_MCR_OUT2, base + UART_MCR);
}

int serial_is_there(unsigned short base)
{
    unsigned char kept = inb(base + UART_SCR);
    int is_there;

    outb(0xA5, base + UART_SCR);
    is_there = inb(base + UART_SCR) == 0xA5;
    outb(kept, base + UART_SCR);
    return is_there;
}

void serial_put(unsigned short base, unsigned char byte)
{
    while (!(inb(base + UART_LSR) & UART_LSR_THRE))
        ;
    outb(byte, base + UART_TX);
}

int serial_get(unsigned short base)
{
    unsigned char status = inb(base + UART_LSR);

    if (status & (UART_LSR_OE | UART_LSR_PE | UART_LSR_FE | UART_LSR_BI))
        return -2;
    return status & UART_LSR_DR ? inb(base + UART_RX) : -1;
}

void serial_break(unsigned short base, int on)
{
    unsigned char line = inb(base + UART_LCR);

    if (on)
        outb(line | UART_LCR_SBC, base + UART_LCR);
    else
        outb(line & ~UART_LCR_SBC, base + UART_LCR);
    while (!(inb(base + UART_LSR) & UART_LSR_TEMT))
        ;
}

int serial_loops_back(unsigned short base)
{
    unsigned char lines;

    outb(UART_MCR_LOOP | UART_MCR_RTS, base + UART_MCR);
    lines = inb(base + UART_MSR) & (UART_MSR_DCD | UART_MSR_RI | UART_MSR_DSR | UART_MSR_CTS);
    outb(0, base + UART_MCR);
    return lines == UART_MSR_CTS;
}
