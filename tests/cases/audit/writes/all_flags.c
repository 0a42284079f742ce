/* audit with sorrel14.xml */
/* Writing back what was read clears just what was seen: a usual way of the trade. */
#include "sorrel14.h"

uint8_t take_flags(void)
{
    uint8_t seen = TMR_FLAGS;
    TMR_FLAGS = seen;
    return seen;
}
