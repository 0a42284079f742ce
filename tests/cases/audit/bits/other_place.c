/* audit with sorrel14.xml */
/* This board has its lamp at port A, pin 5; the field LED of OUT_B is another matter. */
#include <stdint.h>
#define OUT_A (*(volatile uint8_t *)0x35)
#define DIR_A (*(volatile uint8_t *)0x34)
#define LED 5

void blink(void)
{
    DIR_A |= 1 << LED;
    OUT_A ^= 1 << LED;
}
