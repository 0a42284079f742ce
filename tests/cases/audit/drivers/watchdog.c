/* audit with sorrel14.xml */
/* Changes need the unlocking bit in the write before; 1 at the flag leaves it alone. */
#include <stdint.h>
#define WATCHDOG (*(volatile uint8_t *)(0x04 + 0x20))
#define PERIOD(n) ((uint8_t)((n) << 5))
#define FLAG_STAYS 0x08
#define WATCHDOG_ENABLE_MASK 0x02
#define WATCHDOG_UNLOCK_MASK 0x01

void watchdog_start(uint8_t period)
{
    WATCHDOG = WATCHDOG_UNLOCK_MASK | FLAG_STAYS;
    WATCHDOG = (uint8_t)(PERIOD(period & 7) | WATCHDOG_ENABLE_MASK | FLAG_STAYS);
}

int watchdog_was_it(void)
{
    int was = (WATCHDOG & FLAG_STAYS) != 0;
    WATCHDOG = WATCHDOG & (uint8_t)~FLAG_STAYS;
    return was;
}
