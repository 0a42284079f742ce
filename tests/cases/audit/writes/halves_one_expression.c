/* audit with sorrel14.xml */
/* C does not say which operand is read first (ISO C11 6.5, paragraph 3). */
#include "sorrel14.h"
#define RESULT_LOW (*(const volatile uint8_t *)0x57)
#define RESULT_HIGH (*(const volatile uint8_t *)0x58)

uint16_t sample(void)
{
    uint16_t value = (uint16_t)(ADC_RESULT_L | (uint16_t)ADC_RESULT_H << 8); /* finds halves-in-one-expression */
    value += RESULT_LOW + 256u * RESULT_HIGH; /* finds halves-in-one-expression */
    ADC_RESULT_READ_INTO(value);
    return value;
}
