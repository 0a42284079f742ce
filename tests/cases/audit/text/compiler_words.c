/* audit with sorrel14.xml */
/* Words that one compiler knows and the grammar does not. */
#include "sorrel14.h"
#pragma vector=TIMER
__interrupt void tick(void)
{
    TMR_FLAGS = TMR_FLAGS_MATCH_MASK;
    OUT_B |= OUT_B_LED_BITPOS; /* finds position-as-mask */
}

interrupt [3] void received(void)
{
    OUT_A++;
}

__flash const char text[] = "vents";
near unsigned char counter;

void other(void)
{
    OUT_B |= OUT_B_VENT_CLOSE_BITPOS; /* finds position-as-mask */
}
