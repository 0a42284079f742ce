/* audit with sorrel14.xml */
#include "sorrel14.h"
#define LAMP_BIT 2

void lamp(int on)
{
    OUT_B |= OUT_B_LED_BITPOS; /* finds position-as-mask */
    OUT_B &= ~OUT_B_LED_BITPOS; /* finds position-as-mask */
    OUT_B ^= OUT_B_LED_MASK;
    if (on)
        OUT_B = OUT_B_LED_BITPOS | OUT_B_VENT_OPEN_MASK; /* finds position-as-mask */
    DIR_B |= 1 << LAMP_BIT;
    TMR_IRQ |= TMR_IRQ_MATCH_BITPOS; /* finds position-as-mask */
}
