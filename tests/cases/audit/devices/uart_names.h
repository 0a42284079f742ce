/* audit with uart16550.xml */
/* The kernel's names, copied by hand. */
#define UART_RX 0
#define UART_TX 0
#define UART_IER 1
#define UART_LCR 4 /* finds name-at-other-address */
#define UART_LSR 5
#define UART_LSR_DR 0x01
#define UART_LSR_THRE 0x40 /* finds bit-of-another-name */
#define UART_LSR_TEMT 0x40
#define UART_LCR_WLEN8 0x03
#define UART_LCR_WLEN7 0x03 /* finds bit-of-another-name */
#define UART_FCR_TRIGGER_8 0x80
#define UART_IIR_ID 0x06 /* finds bit-of-another-name */
#define UART_IIR_RDI 0x04
