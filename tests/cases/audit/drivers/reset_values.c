/* audit with sorrel14.xml */
/* Everything back to what reset makes of it. */
#include "sorrel14.h"

void as_after_reset(void)
{
    TMR0_CTRL = TMR0_CTRL_RESET;
    TMR0_COMPARE = TMR0_COMPARE_RESET;
    TMR_IRQ = TMR_IRQ_RESET;
    DIR_A = DIR_A_RESET;
    DIR_B = DIR_B_RESET;
    OUT_B = OUT_B_RESET;
    ADC_MUX = ADC_MUX_RESET;
    STACK = STACK_RESET;
}
