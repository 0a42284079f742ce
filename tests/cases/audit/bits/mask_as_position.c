/* audit with sorrel14.xml */
#include "sorrel14.h"
#define BIT(n) (1u << (n))

void lamp(void)
{
    OUT_B |= 1 << OUT_B_LED_MASK; /* finds mask-as-position */
    OUT_B |= BIT(OUT_B_VENT_CLOSE_MASK); /* finds mask-as-position */
    OUT_B &= (uint8_t)~BIT(OUT_B_VENT_OPEN_BITPOS);
    OUT_B |= 1 << OUT_B_LED_BITPOS;
}
