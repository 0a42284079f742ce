/* audit with sorrel40.json */
/* int has 16 bits on this chip. */
#include "sorrel40.h"

void start(void)
{
    UART0_DIVISOR = 1 << 16; /* finds shift-overflows */
    OUT_C |= (1 << 20) >> 16; /* finds shift-overflows */
    OUT_B |= 1 << 7;
    UART1_DIVISOR = 1u << 11;
    OUT_A = (uint8_t)(0x100UL << 16 >> 17);
}
