/* audit with sorrel14.xml */
#include "sorrel14.h"
#define PINS_A (*(volatile uint8_t *)0x36)

void pins(void)
{
    PINS_A = 0xFF; /* finds read-only-written */
    PINS_A ^= 1; /* finds read-only-written */
    *(volatile uint8_t *)0x39 |= 1 << 3; /* finds read-only-written */
    OUT_A = PINS_A;
}
