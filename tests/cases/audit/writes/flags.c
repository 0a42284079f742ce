/* audit with sorrel14.xml */
/* Writing 1 clears a flag, so whatever writes back what it has read clears them all. */
#include "sorrel14.h"

void timer(void)
{
    TMR_FLAGS |= TMR_FLAGS_MATCH_MASK; /* finds flags-cleared-by-the-way */
    TMR_FLAGS &= (uint8_t)~TMR_FLAGS_OVERFLOW_MASK; /* finds flags-cleared-by-the-way */
    TMR_FLAGS = TMR_FLAGS | TMR_FLAGS_MATCH_MASK; /* finds flags-cleared-by-the-way */
    TMR_FLAGS ^= 0x10; /* finds flags-cleared-by-the-way */
}

void convert(void)
{
    ADC_CTRL |= ADC_CTRL_START_MASK; /* finds flags-cleared-by-the-way */
    ADC_CTRL &= (uint8_t)~ADC_CTRL_ENABLE_MASK; /* finds flags-cleared-by-the-way */
}
