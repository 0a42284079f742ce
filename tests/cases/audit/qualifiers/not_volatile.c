/* audit with sorrel14.xml */
/* Without volatile the compiler may keep the value, or never write it. */
#include <stdint.h>
#define DIR_B (*(volatile uint8_t *)0x37)
#define OUT_B (*(uint8_t *)0x38) /* finds not-volatile */
#define IN_B (*(const uint8_t *)0x39) /* finds not-volatile */
static uint8_t *const dir_a = (uint8_t *)0x34; /* finds not-volatile */

void wait(void)
{
    *dir_a = 0xFF;
    DIR_B = 0x07;
    while (IN_B & 1)
        OUT_B = 0x04;
    *(unsigned char *)0x2A = 0x10; /* finds not-volatile */
}
