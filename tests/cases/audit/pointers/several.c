/* audit with sorrel14.xml */
/* Several pointers in one declaration. */
#include <stdint.h>
static volatile uint8_t
    *const dir_b = (volatile uint8_t *)0x37,
    *const out_b = (volatile uint8_t *)0x18, /* finds io-address-behind-pointer */
    *const in_b = (volatile uint8_t *)0x39;

void start(void)
{
    *dir_b = 0x07;
    *out_b = (uint8_t)(*in_b & 3);
}
