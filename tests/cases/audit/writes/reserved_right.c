/* audit with sorrel14.xml */
/* All ones where all bits are there, unknown values, and reserved bits as they were. */
#include "sorrel14.h"

void start(uint8_t wanted)
{
    OUT_A = 0xFF;
    DIR_A = (uint8_t)~0x01;
    OUT_B = wanted;
    OUT_B |= wanted;
    OUT_B = (uint8_t)(OUT_B ^ 0x3F);
    OUT_B &= (uint8_t)~OUT_B_LED_MASK;
    DIR_B = 0x3F;
    TMR0_CTRL = TMR0_CTRL_CLOCK_INSERT(0, 5);
    TMR0_COUNT = 255;
    IN_B;
}
