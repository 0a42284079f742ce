/* audit with sorrel14.xml */
/* Shifts that fit, and shifts by what is not known. */
#include "sorrel14.h"

void pins(unsigned char pin, unsigned long set)
{
    OUT_A = (uint8_t)(1U << pin);
    OUT_A |= (uint8_t)(set >> 16);
    DIR_A = (uint8_t)((1UL << 16) - 1);
    ADC_MUX = (uint8_t)(2 << 6);
}
