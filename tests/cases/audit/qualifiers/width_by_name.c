/* audit with sorrel14.xml */
/* A result of ten bits in a byte: the name says the whole register, the type says half of it. */
#include <stdint.h>
#define ADC_CTRL (*(volatile uint8_t *)0x55)
#define ADC_RESULT (*(const volatile uint8_t *)0x57) /* finds access-width */
#define ADC_MUX (*(volatile uint8_t *)0x56)
