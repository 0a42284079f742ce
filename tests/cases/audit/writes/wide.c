/* audit with sorrel40.json */
/* Which half the compiler takes first is its own choice. */
#include <stdint.h>
#define UART0_DIVISOR (*(volatile uint16_t *)0x120)

uint16_t sample(void)
{
    UART0_DIVISOR = 103;
    return *(const volatile uint16_t *)0x9D; /* finds wide-access-to-halves */
}
