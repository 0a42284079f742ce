/* audit with sorrel14.xml */
/* Half a statement in each arm, and code that no build takes. */
#include "sorrel14.h"

void set(int on)
{
#if INVERTED
    if (!on)
#else
    if (on)
#endif
        OUT_B |= OUT_B_LED_MASK;
#if 0
    this is not C at all (((
#endif
    ADC_MUX =
#ifdef REFERENCE_PIN
        ADC_MUX_REFERENCE_PIN
#else
        ADC_MUX_REFERENCE_INTERNAL
#endif
        | 3;
}
