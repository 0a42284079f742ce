/* audit with sorrel14.xml */
/* The last definition before a place counts. */
#include <stdint.h>
#define BASE 0x00
#define IO_NUMBER (BASE + 0x17)
#undef BASE
#define BASE 0x20

void set(void)
{
    *(volatile uint8_t *)(BASE + 0x17) = 7;
    *(volatile uint8_t *)(BASE + 0x18) |= 4;
}
