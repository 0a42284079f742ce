/* audit with sorrel14.xml */
/* Read, changed and written in steps: what is in the variable is not known. */
#include "sorrel14.h"

void start(uint8_t flags)
{
    uint8_t value = ADC_CTRL;
    value &= (uint8_t)~ADC_CTRL_DONE_MASK;
    value |= ADC_CTRL_START_MASK;
    ADC_CTRL = value;
    TMR_FLAGS = flags;
    TMR_FLAGS = flags & TMR_FLAGS_MATCH_MASK;
    WATCHDOG = (uint8_t)(flags | WATCHDOG_FLAG_MASK);
}
