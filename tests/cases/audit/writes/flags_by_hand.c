/* audit with sorrel14.xml */
#include <stdint.h>
#define FLAGS (*(volatile uint8_t *)0x2E)

void next(void)
{
    FLAGS++; /* finds flags-cleared-by-the-way */
    *(volatile uint8_t *)0x2E |= 0x08; /* finds flags-cleared-by-the-way */
    FLAGS = 0x08;
}
