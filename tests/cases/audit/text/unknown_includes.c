/* audit with sorrel14.xml */
/* Headers that are nowhere, macros and types that nobody has shown. */
#include <vendor/kernel.h>
#include "generated/board.h"
#include BOARD_HEADER
MODULE_NAME("vents")

DECLARE_TASK(vents, PRIORITY_LOW)
{
    mystery_t *m = get_mystery(BOARD_LAMP);
    LOCK(m);
    OUT_B |= BOARD_LAMP_MASK;
    m->port->out = OUT_B_LED_BITPOS;
    WRITE_REG(BOARD_PORT, BOARD_LAMP_MASK | OUT_B_LED_MASK);
    *(mystery_t *)BOARD_ADDRESS = 3;
    UNLOCK(m);
}
