/* audit with sorrel14.xml */
/* A macro that is a statement is looked into. */
#include "sorrel14.h"
#define SET(reg, bit) do { (reg) |= 1u << (bit); } while (0)

void start(void)
{
    SET(TMR_FLAGS, TMR_FLAGS_MATCH_BITPOS); /* finds flags-cleared-by-the-way */
    SET(OUT_B, OUT_B_LED_BITPOS);
    SET(OUT_B, 7); /* finds reserved-bits-written */
}
