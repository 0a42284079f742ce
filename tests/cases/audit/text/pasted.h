/* audit with sorrel14.xml */
/* Names put together by ##, and names made into text by #. */
#include <stdint.h>
#define REGISTER(address) (*(volatile uint8_t *)(address))
#define PORT_ADDRESS_A 0x35
#define PORT_ADDRESS_B 0x38
#define PORT(letter) REGISTER(PORT_ADDRESS_##letter)
#define OUT_A PORT(A)
#define OUT_B PORT(B)
#define DIR(letter) DIR_##letter
#define DIR_A REGISTER(0x34)
#define DIR_B REGISTER(0x37)
#define NAME_OF(register) #register
#define PIN_HIGH(letter, pin) (OUT_##letter |= (uint8_t)(1u << (pin)))

static void both(void)
{
    DIR(A) = 0xFF;
    DIR(B) = 0x3F;
    PIN_HIGH(A, 7);
    PIN_HIGH(B, 2);
}
