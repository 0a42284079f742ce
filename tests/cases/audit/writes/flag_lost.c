/* audit with sorrel14.xml */
/* The flag is kept as it was read: if it is set in between, the write takes it away again. */
#include "sorrel14.h"

void start(void)
{
    WATCHDOG |= WATCHDOG_ENABLE_MASK; /* finds flag-lost-in-between */
    WATCHDOG = (uint8_t)(WATCHDOG & ~WATCHDOG_PERIOD_MASK) | (3 << WATCHDOG_PERIOD_BITPOS); /* finds flag-lost-in-between */
    WATCHDOG = WATCHDOG_ENABLE_MASK | WATCHDOG_FLAG_MASK;
}
