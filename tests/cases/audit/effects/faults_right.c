/* audit with motor.json */
/* Read once, kept in a variable; read for nothing else than to clear them. */
#include "motor.h"

unsigned char poll(void)
{
    unsigned char seen = FAULTS;
    if (seen & FAULTS_STALL_MASK)
        CTRL &= (unsigned char)~CTRL_RUN_MASK;
    (void)FAULTS;
    while (FAULTS & FAULTS_HOT_MASK)
        SPEED = 0;
    return seen;
}
