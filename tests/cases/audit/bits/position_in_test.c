/* audit with sorrel14.xml */
/* A position where a test needs a mask: the loop waits for another bit, or for ever. */
#include "sorrel14.h"

void wait(void)
{
    while (!(ADC_CTRL & ADC_CTRL_DONE_BITPOS)) /* finds position-as-mask */
        ;
    while (!(ADC_CTRL & ADC_CTRL_DONE_MASK))
        ;
    if (TMR_FLAGS & TMR_FLAGS_MATCH_BITPOS) /* finds position-as-mask */
        return;
    if (TMR_FLAGS & (1 << TMR_FLAGS_MATCH_BITPOS))
        return;
    if (TMR_FLAGS >> TMR_FLAGS_MATCH_BITPOS & 1)
        return;
}
