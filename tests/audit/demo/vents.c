/* Opens the vents of the greenhouse when it is warm and closes them when it is cold.
 *
 * The thermistor makes a larger result of a higher temperature. The lamp blinks while the motor
 * runs; a motor that does not reach its limit switch in time is stopped.
 */
#include "pins.h"

#define WARM 620u /* about 26 degrees */
#define COLD 540u /* about 21 degrees */
#define LONGEST_RUN 200u /* tenths of a second */

enum vents { SHUT, OPENS, OPEN, SHUTS, STUCK };

static enum vents vents = SHUT;
static uint8_t running;

static uint16_t temperature(void)
{
    uint16_t result;

    ADC_MUX = THERMISTOR;
    ADC_CTRL = ADC_ON | ADC_GO;
    while (!(ADC_CTRL & ADC_READY))
        ;
    ADC_CTRL = ADC_ON | ADC_READY;
    result = ADC_RESULT_L;
    result |= (uint16_t)((uint16_t)ADC_RESULT_H << 8);
    return result;
}

static void motor(uint8_t direction)
{
    OUT_B = (uint8_t)((OUT_B & ~((1u << OPENING) | (1u << CLOSING))) | (1u << direction));
    running = 0;
}

static void stop(void)
{
    OUT_B &= (uint8_t)~((1u << OPENING) | (1u << CLOSING) | (1u << LAMP));
}

static void blink(void)
{
    if (running & 1u)
        OUT_B |= (uint8_t)(1u << LAMP);
    else
        OUT_B &= (uint8_t)~(1u << LAMP);
}

static void arrived(uint8_t end, enum vents then)
{
    if (!(IN_B & (1u << end))) {
        stop();
        vents = then;
    } else if (++running > LONGEST_RUN) {
        stop();
        vents = STUCK;
    } else {
        blink();
    }
}

static void step(void)
{
    uint16_t now = temperature();

    switch (vents) {
    case SHUT:
        if (now > WARM) {
            motor(OPENING);
            vents = OPENS;
        }
        break;
    case OPEN:
        if (now < COLD) {
            motor(CLOSING);
            vents = SHUTS;
        }
        break;
    case OPENS:
        arrived(END_OPEN, OPEN);
        break;
    case SHUTS:
        arrived(END_SHUT, SHUT);
        break;
    case STUCK:
        OUT_B |= (uint8_t)(1u << LAMP);
        break;
    }
}

int main(void)
{
    DIR_B = (1u << LAMP) | (1u << OPENING) | (1u << CLOSING);
    OUT_B = (1u << END_OPEN) | (1u << END_SHUT); /* pull-ups for the limit switches */
    TMR0_COMPARE = 97;
    TMR0_CTRL = 0x50; /* clock divided by 256 */
    for (;;) {
        if (TMR_FLAGS & TICK) {
            TMR_FLAGS = TICK;
            step();
            WATCHDOG = 0x09;
            WATCHDOG = 0x6A;
        }
    }
}
