/* audit with sorrel32.xml */
/* The gap before the pins' roles is one word short. */
#include <stdint.h>
static struct relays { volatile uint32_t LEVEL, DRIVE, FLIP, gap[4], ROLE; } *const RELAY = (struct relays *)0x70030000; /* finds name-at-other-address */
static struct sensors { volatile uint32_t LEVEL, DRIVE, FLIP, gap[5], ROLE; } *const SENSE = (struct sensors *)0x70030080;

void start(void)
{
    RELAY->DRIVE = 0;
    SENSE->FLIP = 1;
}
