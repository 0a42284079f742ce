/* audit with sorrel32.xml */
#include "sorrel32.h"

void next(void)
{
    PROBE_STATE &= ~PROBE_STATE_READY_MASK; /* finds flag-lost-in-between */
    PROBE_STATE = (PROBE_STATE | PROBE_STATE_LOST_MASK) & ~PROBE_STATE_READY_MASK;
    PROBE_STATE_READY_CLEAR();
}
