/* audit with sorrel14.xml */
/* ~4 has ones above bit 5 as well. */
#include "sorrel14.h"

void lamp_low(void)
{
    OUT_B = (uint8_t)~OUT_B_LED_MASK; /* finds reserved-bits-written */
    OUT_B = (uint8_t)~OUT_B_LED_MASK & 0x3F;
}
