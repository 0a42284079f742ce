#include "vents.h"

#define MOTOR (OUT_B_VENT_OPEN_MASK | OUT_B_VENT_CLOSE_MASK)
#define WARM 620u /* about 26 degrees */
#define COLD 540u /* about 21 degrees */
/* How many ticks the motor needs for the whole way: 20 seconds of a timer that counts to 256. */
#define WHOLE_WAY (CPU_CLOCK_HZ / 256u / 256u * 20u)

static unsigned left;
static uint8_t way;
#ifdef LOG_ROWS
static volatile uint8_t rows[LOG_ROWS];
static unsigned row;
#endif

void vents_start(void)
{
    DIR_B = (uint8_t)(MOTOR | OUT_B_LED_MASK);
    TMR0_CTRL = TMR0_CTRL_CLOCK_DIV256;
    left = 0;
    way = 0;
}

void vents_tick(unsigned temperature)
{
    if (left == 0u) {
        if (temperature > WARM && way != OUT_B_VENT_OPEN_MASK) {
            way = OUT_B_VENT_OPEN_MASK;
            left = WHOLE_WAY;
        } else if (temperature < COLD && way != OUT_B_VENT_CLOSE_MASK) {
            way = OUT_B_VENT_CLOSE_MASK;
            left = WHOLE_WAY;
        }
    } else {
        left--;
    }
    OUT_B = (uint8_t)((OUT_B & ~(MOTOR | OUT_B_LED_MASK)) | (left ? way | OUT_B_LED_MASK : 0u));
#ifdef LOG_ROWS
    rows[row] = (uint8_t)temperature;
    row = (row + 1u) % LOG_ROWS;
#endif
}
