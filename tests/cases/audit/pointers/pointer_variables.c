/* audit with sorrel14.xml */
#include <stdint.h>
static volatile uint8_t *const out_b = (volatile uint8_t *)0x18; /* finds io-address-behind-pointer */
static volatile uint8_t *const dir_b = (volatile uint8_t *)0x37;
volatile uint8_t *const in_b = (volatile uint8_t *)0x39;
const volatile uint8_t *const in_a = (const volatile uint8_t *)0x36;

void lamp(int on)
{
    if (on)
        *out_b |= 1u << 2;
    else
        *out_b &= ~(1u << 2);
    *dir_b |= 1u << 2;
}
