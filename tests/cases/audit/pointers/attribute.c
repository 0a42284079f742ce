/* audit with sorrel14.xml */
#include <stdint.h>
volatile uint8_t lamp_latch __attribute__((address(0x18))); /* finds io-address-behind-pointer */
volatile uint8_t lamp_direction __attribute__((address(0x37)));
extern volatile uint8_t pins_now __attribute__((address(0x39)));

void lamp_on(void)
{
    lamp_direction |= 4;
    lamp_latch |= 4;
}
