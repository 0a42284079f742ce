/* audit with sorrel14.xml */
/* Names made of the data sheet's titles, two of them at another register. */
#include <stdint.h>
#define PORT_B_DIRECTION (*(volatile uint8_t *)0x38) /* finds address-with-other-name */
#define PortBOutputLatch (*(volatile uint8_t *)0x38)
#define PORT_A_DIRECTION (*(volatile uint8_t *)0x34)
#define PORT_A_OUTPUT_LATCH (*(volatile uint8_t *)0x35)
#define TIMER0_COUNTER (*(volatile uint8_t *)0x2B)
#define TIMER0_COMPARE (*(volatile uint8_t *)0x2A) /* finds address-with-other-name */
#define CONVERTER_CONTROL (*(volatile uint8_t *)0x55)
