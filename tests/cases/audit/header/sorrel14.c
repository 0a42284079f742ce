/* audit with sorrel14.xml */
/* The emitted header, used as it is meant to be. */
#include "sorrel14.h"

static uint16_t sample(uint8_t channel)
{
    uint16_t value;
    ADC_MUX = ADC_MUX_CHANNEL_INSERT(ADC_MUX_REFERENCE_INTERNAL, channel);
    ADC_CTRL = ADC_CTRL_CLOCK_DIV64 | ADC_CTRL_ENABLE_MASK | ADC_CTRL_START_MASK;
    while (!(ADC_CTRL & ADC_CTRL_DONE_MASK))
        ;
    ADC_CTRL_DONE_CLEAR();
    ADC_RESULT_READ_INTO(value);
    return ADC_RESULT_VALUE_EXTRACT(value);
}

int main(void)
{
    DIR_B = OUT_B_LED_MASK | OUT_B_VENT_OPEN_MASK | OUT_B_VENT_CLOSE_MASK;
    TMR0_CTRL = TMR0_CTRL_CLOCK_DIV256;
    TMR0_COMPARE = TMR0_COMPARE_RESET;
    TMR_IRQ |= TMR_IRQ_MATCH_MASK;
    for (;;) {
        if (TMR_FLAGS & TMR_FLAGS_MATCH_MASK) {
            TMR_FLAGS_MATCH_CLEAR();
            OUT_B ^= OUT_B_LED_MASK;
        }
        OUT_B = OUT_B_PULLS_INSERT(OUT_B, sample(3) > 512U ? 1U : 2U);
        if (WATCHDOG & WATCHDOG_FLAG_MASK)
            WATCHDOG_FLAG_CLEAR();
        CPU_STATUS |= CPU_STATUS_IRQ_MASK;
        if (IN_B & (1U << 4))
            NVM_ADDRESS = 0x10, NVM_DATA = IN_A;
    }
}
