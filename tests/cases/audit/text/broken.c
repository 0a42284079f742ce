/* audit with sorrel14.xml */
/* Not yet C: somebody is typing. What is whole is looked at all the same. */
#include <stdint.h>
#define OUT_B (*(volatile uint8_t *)0x18) /* finds io-address-behind-pointer */
#define DIR_B (*(volatile uint8_t *)0x37)
#define IN_B (*(volatile uint8_t *)0x39)

void lamp(void)
{
    DIR_B = = 07;
    OUT_B |= OUT_B_LED_MASK
    if (IN_B & ) return;
}

void other(void)
{
    OUT_B |= OUT_B_LED_BITPOS; /* finds position-as-mask */
}
