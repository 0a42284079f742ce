/* audit with sorrel32.xml */
/* What is read from a register that is only written is anything. */
#include "sorrel32.h"

uint32_t flip(void)
{
    RELAY_FLIP |= 1U << 3; /* finds write-only-read */
    RELAY_FLIP = 1U << 3;
    SENSE_FLIP ^= 4; /* finds write-only-read */
    BEAT_KEY = BEAT_KEY_VALUE_UNLOCK;
    return SENSE_FLIP & 0xFFF; /* finds write-only-read */
}
