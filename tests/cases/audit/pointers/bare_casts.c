/* audit with sorrel14.xml */
/* No names at all: addresses where they are used. */
#include <stdint.h>

uint8_t vents(uint8_t wanted)
{
    uint8_t now = *(volatile uint8_t *)0x39;
    *(volatile uint8_t *)0x37 = 0x07;
    *(volatile uint8_t *)0x18 = wanted & 3; /* finds io-address-behind-pointer */
    if (*((volatile uint8_t *)0x36) & 0x80)
        (*(volatile uint8_t *)0x38)++;
    return now;
}
