/* audit with sorrel14.xml */
/* The low byte is read first: that holds the high one for the next read. */
#include "sorrel14.h"

uint16_t sample(void)
{
    uint8_t high, low;
    high = ADC_RESULT_H; low = ADC_RESULT_L; /* finds halves-out-of-order */
    return (uint16_t)(high << 8) | low;
}

uint16_t sample_right(void)
{
    uint8_t low = ADC_RESULT_L;
    uint8_t high = ADC_RESULT_H;
    return (uint16_t)((uint16_t)high << 8 | low);
}
