/* audit with sorrel14.xml */
/* The pointer itself is volatile, and what it points to is not: the star is on the wrong side. */
#include <stdint.h>
static uint8_t *volatile out_b = (uint8_t *)0x38; /* finds not-volatile */
#define DIR_B (*(uint8_t *volatile)0x37) /* finds not-volatile */
#define IN_B (*(volatile uint8_t *const volatile)0x39)

void lamp_on(void)
{
    *out_b |= 4;
}
