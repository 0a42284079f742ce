/* audit with sorrel14.xml */
/* A tick with a software divider; the names of fields are used for the program's own things, too. */
#include "sorrel14.h"
enum state { STOPPED, RUNNING };
struct motor { enum state state; uint8_t SPEED, START, DONE; };
static volatile uint16_t ticks;
static struct motor motor;

ISR(TIMER_MATCH)
{
    ticks++;
    TMR_FLAGS = TMR_FLAGS_MATCH_MASK;
    if (motor.START && !motor.DONE)
        motor.state = RUNNING;
}

uint16_t now(void)
{
    uint16_t copy;
    uint8_t status = CPU_STATUS;
    CPU_STATUS = status & (uint8_t)~CPU_STATUS_IRQ_MASK;
    copy = ticks;
    CPU_STATUS = status;
    return copy;
}
