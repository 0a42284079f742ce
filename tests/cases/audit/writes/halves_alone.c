/* audit with sorrel40.json */
/* Halves of different registers, halves in other functions, one half alone. */
#include "sorrel40.h"

uint8_t coarse(void)
{
    return TMR1_CAPTURE_L;
}

uint16_t both(void)
{
    uint16_t a, b;
    TMR1_CAPTURE_READ_INTO(a);
    ADC_RESULT_READ_INTO(b);
    TMR1_COMPARE_WRITE(a);
    return a + b;
}

void reset(void)
{
    TMR1_COUNT_H = 0, TMR1_COUNT_L = 0;
    TMR1_COMPARE_H = 1;
    TMR1_COMPARE_L = 2;
}
