/* audit with sorrel14.xml */
/* The timer's registers; the fourth is missing, so that all behind it moved. */
#include <stdint.h>
static struct timer { volatile uint8_t TMR0_CTRL, TMR0_COUNT, TMR0_COMPARE, TMR_FLAGS; } *const timer = (struct timer *)0x2A; /* finds name-at-other-address */

void start(void)
{
    timer->TMR0_CTRL = 0x10;
}
