/* audit with sorrel14.xml */
/* Lines end as on Windows. */
#include <stdint.h>
#define DIR_B (*(volatile uint8_t *)0x37)
#define OUT_B \
    (*(volatile uint8_t *)0x38)
#define IN_B (*(volatile uint8_t *)0x19) /* finds io-address-behind-pointer */
#define OUT_A *(volatile uint8_t *)0x35 /* finds macro-without-parentheses */

void lamp(void)
{
    OUT_B |= \
        OUT_B_LED_MASK;
    OUT_B |= OUT_B_LED_BITPOS; /* finds position-as-mask */
}
