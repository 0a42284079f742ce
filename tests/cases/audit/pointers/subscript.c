/* audit with sorrel14.xml */
/* All of data space as a row of bytes. */
#include <stdint.h>
#define MEMORY ((volatile uint8_t *)0)
#define OUT_A (MEMORY[0x35])
#define DIR_A (((volatile uint8_t *)0x20)[0x14])
#define IN_A (((volatile uint8_t *)0x30)[6])

void lamp_on(void)
{
    MEMORY[0x37] |= 4;
    MEMORY[0x18] |= 4; /* finds io-address-behind-pointer */
    OUT_A = 1;
    DIR_A = 1;
}
