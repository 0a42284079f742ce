/* audit with sorrel14.xml */
/* Output before direction, as other chips have it. */
#include <stdint.h>
#define DIR_A (*(volatile uint8_t *)0x34)
static struct port { volatile uint8_t out, dir, in; } *const PORT_B = (struct port *)0x37; /* finds address-with-other-name */

void start(void)
{
    DIR_A = 1;
    PORT_B->dir = 0x07;
}
