/* audit with sorrel40.json */
/* Read low first, written high first: the chip's temporary register wants it so. */
#include "sorrel40.h"

void set(uint16_t ticks)
{
    TMR1_COMPARE_L = (uint8_t)ticks; TMR1_COMPARE_H = (uint8_t)(ticks >> 8); /* finds halves-out-of-order */
    TMR1_COUNT_H = 0;
    TMR1_COUNT_L = 0;
}

uint16_t get(void)
{
    uint16_t ticks = TMR1_COUNT_L;
    ticks |= (uint16_t)((uint16_t)TMR1_COUNT_H << 8);
    return ticks;
}
