/* A serial port by its interrupts, by the names of linux/serial_reg.h. */
#include <linux/serial_reg.h>
#include <sys/io.h>

#define RING 256

struct port {
    unsigned short base;
    unsigned char received[RING], waiting[RING];
    unsigned int in, out, first, last;
    unsigned int errors, lines;
};

#define REG(port, number) ((port)->base + (number))

void port_start(struct port *port)
{
    outb(UART_FCR_ENABLE_FIFO | UART_FCR_TRIGGER_8, REG(port, UART_FCR));
    outb(UART_IER_RDI | UART_IER_RLSI | UART_IER_MSI, REG(port, UART_IER));
    (void)inb(REG(port, UART_LSR));
    (void)inb(REG(port, UART_MSR));
    (void)inb(REG(port, UART_RX));
}

void port_send(struct port *port, unsigned char byte)
{
    port->waiting[port->last++ % RING] = byte;
    outb(inb(REG(port, UART_IER)) | UART_IER_THRI, REG(port, UART_IER));
}

static void receive(struct port *port)
{
    while (inb(REG(port, UART_LSR)) & UART_LSR_DR)
        port->received[port->in++ % RING] = inb(REG(port, UART_RX));
}

static void transmit(struct port *port)
{
    int space = 16;

    while (space-- > 0 && port->first != port->last)
        outb(port->waiting[port->first++ % RING], REG(port, UART_TX));
    if (port->first == port->last)
        outb(inb(REG(port, UART_IER)) & ~UART_IER_THRI, REG(port, UART_IER));
}

int port_interrupt(struct port *port)
{
    int handled = 0;

    for (;;) {
        unsigned char cause = inb(REG(port, UART_IIR));

        if (cause & UART_IIR_NO_INT)
            return handled;
        handled = 1;
        switch (cause & UART_IIR_ID) {
        case UART_IIR_RLSI:
            port->errors += !!(inb(REG(port, UART_LSR)) & UART_LSR_FIFOE);
            break;
        case UART_IIR_RDI:
        case UART_IIR_RX_TIMEOUT & UART_IIR_ID:
            receive(port);
            break;
        case UART_IIR_THRI:
            transmit(port);
            break;
        case UART_IIR_MSI:
            if (inb(REG(port, UART_MSR)) & (UART_MSR_DCTS | UART_MSR_DDCD | UART_MSR_TERI))
                port->lines++;
            break;
        }
    }
}

void port_stop(struct port *port)
{
    outb(0, REG(port, UART_IER));
    outb(UART_FCR_CLEAR_RCVR | UART_FCR_CLEAR_XMIT, REG(port, UART_FCR));
    outb(0, REG(port, UART_FCR));
}
