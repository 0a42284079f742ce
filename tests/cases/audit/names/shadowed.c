/* audit with sorrel14.xml */
/* The file's own numbers count, not those that the header would have. */
#include <stdint.h>
enum { OUT_B_IO_ADDR = 0x18, OUT_B_DATA_ADDR = OUT_B_IO_ADDR + 0x20 };
static volatile uint8_t *const OUT_B = (volatile uint8_t *)0x18; /* finds io-address-behind-pointer */
static volatile uint8_t *const DIR_B = (volatile uint8_t *)0x37;
static volatile uint8_t *const IN_B = (volatile uint8_t *)0x39;

void start(void)
{
    *OUT_B |= 4;
    *DIR_B = 7;
    *(volatile uint8_t *)OUT_B_DATA_ADDR = *IN_B & 3;
}
