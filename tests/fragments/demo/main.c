/* The program of the chip itself. */
#include "vents.h"

static unsigned temperature(void)
{
    uint16_t result;

    ADC_MUX = ADC_MUX_CHANNEL_INSERT(ADC_MUX_REFERENCE_INTERNAL, 3u);
    ADC_CTRL = ADC_CTRL_CLOCK_DIV64 | ADC_CTRL_ENABLE_MASK | ADC_CTRL_START_MASK;
    while (!(ADC_CTRL & ADC_CTRL_DONE_MASK))
        ;
    ADC_RESULT_READ_INTO(result);
    return result;
}

int main(void)
{
    vents_start();
    for (;;) {
        while (!(TMR_FLAGS & TMR_FLAGS_OVERFLOW_MASK))
            ;
        TMR_FLAGS_OVERFLOW_CLEAR();
        vents_tick(temperature());
    }
}
