/* audit with sorrel32.xml */
/* What cannot be read back is kept in a variable beside it. */
#include <stdint.h>
#define RELAY_DRIVE (*(volatile uint32_t *)0x70030004)
#define RELAY_FLIP (*(volatile uint32_t *)0x70030008)
#define PROBE_RESULT (*(const volatile uint32_t *)0x70005408)

static uint32_t relays;

void relay_set(unsigned relay, int on)
{
    uint32_t wanted = on ? relays | (1u << relay) : relays & ~(1u << relay);
    RELAY_FLIP = (wanted ^ relays) & 0xFFF;
    relays = wanted;
}

uint32_t average(void)
{
    uint32_t sum = 0;
    for (int i = 0; i < 8; i++) {
        uint32_t result = PROBE_RESULT;
        sum += (result >> 16) & 0x3FFF;
    }
    RELAY_DRIVE = relays & 0xFFF;
    return sum / 8;
}
