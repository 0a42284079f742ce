/* audit with sorrel14.xml */
/* Settings of the program whose names start like registers. */
#include "sorrel14.h"
#define OUT_B_INIT 0x18
#define DIR_A_INIT 0xFF
#define ADC_CTRL_INIT (ADC_CTRL_CLOCK_DIV64 | ADC_CTRL_ENABLE_MASK)
#define TMR0_COMPARE_VALUE 97
#define TMR0_COUNT_MAX 255
#define STACK_SIZE 64
#define WATCHDOG_TIMEOUT 3
#define OUT_A_SHADOW out_a_shadow
#define ADC_RESULT_LIMIT 0x3FF
static uint8_t out_a_shadow = 0x15, dir_b = 0x17;
static const uint8_t out_b_patterns[] = { 0x18, 0x04, 0x02 };

void start(void)
{
    OUT_B = OUT_B_INIT;
    DIR_A = DIR_A_INIT;
    ADC_CTRL = ADC_CTRL_INIT;
    TMR0_COMPARE = TMR0_COMPARE_VALUE;
    OUT_A = OUT_A_SHADOW;
    DIR_B = dir_b;
    OUT_B = out_b_patterns[WATCHDOG_TIMEOUT - 1];
}
