/* audit with sorrel14.xml */
/* Tests with a bit that belongs to another register. */
#include "sorrel14.h"

uint8_t look(void)
{
    uint8_t seen = 0;
    if (TMR_FLAGS & ADC_CTRL_DONE_MASK) /* finds bit-of-another-register */
        seen |= 1;
    if (IN_B & OUT_B_LED_MASK)
        seen |= 2;
    if (ADC_CTRL & ADC_CTRL_DONE_MASK)
        seen |= 4;
    return seen;
}
