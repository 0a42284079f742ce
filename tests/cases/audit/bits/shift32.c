/* audit with sorrel32.xml */
/* Into the sign bit and beyond (ISO C11 6.5.7); unsigned is defined. */
#include "sorrel32.h"

void start(void)
{
    COPY_LANE0_SETUP = 1 << 31; /* finds shift-overflows */
    COPY_LANE1_SETUP = 1U << 31;
    COPY_LANE2_SETUP |= 1UL << COPY_LANE2_SETUP_RUN_BITPOS;
    RELAY_DRIVE = 1 << 11;
}
