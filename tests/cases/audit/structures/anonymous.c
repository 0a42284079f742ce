/* audit with sorrel14.xml */
/* The structure has no name and stands in the macro itself. */
#include <stdint.h>
#define PORT_A (*(struct { volatile uint8_t dir, out, in; } *)0x34)
#define PORT_B (*(struct { volatile uint8_t out, dir, in; } *)0x37) /* finds address-with-other-name */

void start(void)
{
    PORT_A.dir = 0xFF;
    PORT_B.dir = 0x07;
}
