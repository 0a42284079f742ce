/* audit with sorrel14.xml */
/* An enumerator is a number; only behind the pointer the wrong one shows. */
#include <stdint.h>
enum port { DIR_B_ADDR = 0x37, OUT_B_ADDR = 0x18, IN_B_ADDR = 0x39 };

void lamp_on(void)
{
    *(volatile uint8_t *)DIR_B_ADDR |= 1 << 2;
    *(volatile uint8_t *)OUT_B_ADDR |= 1 << 2; /* finds io-address-behind-pointer */
    while (*(volatile uint8_t *)IN_B_ADDR & 1)
        ;
}
