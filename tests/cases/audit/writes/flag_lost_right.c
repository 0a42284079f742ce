/* audit with sorrel14.xml */
/* A 1 leaves the flag as it is. */
#include "sorrel14.h"

void start(void)
{
    WATCHDOG |= WATCHDOG_ENABLE_MASK | WATCHDOG_FLAG_MASK;
    WATCHDOG = (uint8_t)((WATCHDOG & ~WATCHDOG_PERIOD_MASK) | WATCHDOG_FLAG_MASK | (3 << 5));
    WATCHDOG_FLAG_CLEAR();
    WATCHDOG = WATCHDOG_UNLOCK_MASK | WATCHDOG_FLAG_MASK;
}
