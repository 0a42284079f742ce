/* audit with sorrel14.xml */
/* The same as in pedantic.c: counted, not reported. */
#include <stdint.h>
#define LATCH (*(volatile uint8_t *)0x38)
#define OUT_B (*(volatile uint8_t *)0x38)

void blink(void)
{
    OUT_B ^= 4;
    *(volatile uint8_t *)0x50 = 1;
}
