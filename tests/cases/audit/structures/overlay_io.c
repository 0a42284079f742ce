/* audit with sorrel14.xml */
/* The second one is at the I/O number. */
#include <stdint.h>
struct port {
    volatile uint8_t dir, out, in;
};
#define PORT_A ((struct port *)0x34)
#define PORT_B ((struct port *)0x17) /* finds io-address-behind-pointer */

void start(void)
{
    PORT_A->dir = 0xFF;
    PORT_B->dir = 0x07;
}
