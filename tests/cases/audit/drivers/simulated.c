/* audit with sorrel14.xml */
/* The same program on a PC: registers are bytes of a row. */
#ifdef SIMULATED
static unsigned char memory[0x160];
#define SORREL14_REG8(address) (memory[address])
#define SORREL14_READ8(address) (memory[address])
#define SORREL14_READ16(address) (memory[address] | memory[(address) + 1] << 8)
#endif
#include "sorrel14.h"

void blink(void)
{
    OUT_B ^= OUT_B_LED_MASK;
    OUT_A = IN_A;
}
