/* Opens the vents of the greenhouse when it is warm and closes them when it is cold.
 * This is for the Sorrel 40; its port B has the motor where the switches were, and no pull-ups
 * there: they are at pins 0 and 1.
 *
 * The thermistor makes a larger result of a higher temperature. The lamp blinks while the motor
 * runs; a motor that does not reach its limit switch in time is stopped.
 */
#include "sorrel40.h"

#define MOTOR (OUT_B_VENT_OPEN_MASK | OUT_B_VENT_CLOSE_MASK)
#define CONVERTER_ON (ADC_CTRL_CLOCK_DIV64 | ADC_CTRL_ENABLE_MASK)
/* Limit switches at pins of port B, closed at the end of the way. */
#define END_OPEN 0
#define END_SHUT 1

#define WARM 620u /* about 26 degrees */
#define COLD 540u /* about 21 degrees */
#define LONGEST_RUN 200u /* tenths of a second */

enum vents { SHUT, OPENS, OPEN, SHUTS, STUCK };

static enum vents vents = SHUT;
static uint8_t running;

static uint16_t temperature(void)
{
    uint16_t result;

    ADC_MUX = ADC_MUX_CHANNEL_INSERT(ADC_MUX_REFERENCE_INTERNAL, 3u);
    ADC_CTRL = CONVERTER_ON | ADC_CTRL_START_MASK;
    while (!(ADC_CTRL & ADC_CTRL_DONE_MASK))
        ;
    ADC_CTRL = CONVERTER_ON | ADC_CTRL_DONE_MASK;
    ADC_RESULT_READ_INTO(result);
    return result;
}

static void motor(uint8_t direction)
{
    OUT_B = (uint8_t)((OUT_B & ~MOTOR) | direction);
    running = 0;
}

static void stop(void)
{
    OUT_B &= (uint8_t)~(MOTOR | OUT_B_LED_MASK);
}

static void blink(void)
{
    if (running & 1u)
        OUT_B |= OUT_B_LED_MASK;
    else
        OUT_B &= (uint8_t)~OUT_B_LED_MASK;
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
            motor(OUT_B_VENT_OPEN_MASK);
            vents = OPENS;
        }
        break;
    case OPEN:
        if (now < COLD) {
            motor(OUT_B_VENT_CLOSE_MASK);
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
        OUT_B |= OUT_B_LED_MASK;
        break;
    }
}

int main(void)
{
    DIR_B = OUT_B_LED_MASK | MOTOR;
    /* Pull-ups for the limit switches. */
    OUT_B = OUT_B_PULLS_INSERT(0u, (1u << END_OPEN) | (1u << END_SHUT));
    TMR0_COMPARE = 97;
    TMR0_CTRL = TMR0_CTRL_CLOCK_DIV256;
    for (;;) {
        if (TMR_FLAGS & TMR_FLAGS_MATCH_MASK) {
            TMR_FLAGS_MATCH_CLEAR();
            step();
            /* A 0 leaves FLAG as it is. */
            WATCHDOG = WATCHDOG_UNLOCK_MASK;
            WATCHDOG = WATCHDOG_PERIOD_INSERT(WATCHDOG_ENABLE_MASK, 3u);
        }
    }
}
