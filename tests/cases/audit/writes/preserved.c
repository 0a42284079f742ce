/* audit with sorrel32.xml */
/* Bits 31:15 of a role are to be written back as they were read. */
#include "sorrel32.h"

void roles(void)
{
    RELAY_ROLE = RELAY_ROLE_PIN0_OUT; /* finds reserved-bits-written */
    RELAY_ROLE = RELAY_ROLE_PIN0_INSERT(RELAY_ROLE, 2);
    SENSE_ROLE = (SENSE_ROLE & ~7U) | 1;
    SENSE_ROLE |= SENSE_ROLE_PIN0_PERIPHERAL;
}
