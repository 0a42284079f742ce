/* audit with sorrel14.xml */
/* Right bits, wrong register. */
#include "sorrel14.h"

void start(void)
{
    TMR_IRQ |= OUT_B_LED_MASK; /* finds bit-of-another-register */
    ADC_MUX = ADC_CTRL_CLOCK_DIV4; /* finds bit-of-another-register */
    ADC_CTRL = ADC_CTRL_CLOCK_DIV4 | ADC_CTRL_ENABLE_MASK;
    NVM_CTRL |= 1 << ADC_CTRL_START_BITPOS; /* finds bit-of-another-register */
    OUT_B &= ~(1u << OUT_B_LED_BITPOS);
}
