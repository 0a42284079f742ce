/* Runs the vent on a PC, where a row of memory stands in for the chip. */
#include <stdio.h>

#include "vents.h"

unsigned char board[0x640];

int main(void)
{
    unsigned ticks = 0;

    vents_start();
    vents_tick(580u);
    printf("%s at %lu Hz: mild 0x%02X", BUILD_TARGET, (unsigned long)CPU_CLOCK_HZ, OUT_B);
    vents_tick(700u);
    printf(", warm 0x%02X", OUT_B);
    while (OUT_B) {
        vents_tick(700u);
        ticks++;
    }
    vents_tick(500u);
    printf(" for %u ticks, cold 0x%02X\n", ticks, OUT_B);
    return DIR_B != (OUT_B_VENT_OPEN_MASK | OUT_B_VENT_CLOSE_MASK | OUT_B_LED_MASK);
}
