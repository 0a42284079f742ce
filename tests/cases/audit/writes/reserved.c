/* audit with sorrel14.xml */
/* Bits that are to be written as 0, written as 1. */
#include "sorrel14.h"

void start(void)
{
    TMR0_CTRL = 0x83; /* finds reserved-bits-written */
    DIR_B = 0xFF; /* finds reserved-bits-written */
    OUT_B |= 1 << 6; /* finds reserved-bits-written */
    ADC_MUX = ADC_MUX_REFERENCE_INTERNAL | 0x08; /* finds reserved-bits-written */
    OUT_A = 0xFF;
    DIR_B = DIR_B_PINS_MASK;
    OUT_B &= 0x3F;
}
