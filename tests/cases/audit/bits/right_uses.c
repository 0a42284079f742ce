/* audit with sorrel14.xml */
/* Masks, positions and values, all where they belong. */
#include "sorrel14.h"
#define SET(reg, mask) ((reg) |= (mask))
#define CLEAR(reg, mask) ((reg) &= (uint8_t)~(mask))
#define BV(bit) (1U << (bit))

uint8_t run(uint8_t wanted)
{
    uint8_t steps = OUT_B_LED_BITPOS;
    SET(OUT_B, OUT_B_LED_MASK);
    CLEAR(OUT_B, OUT_B_VENT_OPEN_MASK | OUT_B_VENT_CLOSE_MASK);
    OUT_B = (uint8_t)((OUT_B & ~OUT_B_PULLS_MASK) | (5U << OUT_B_PULLS_BITPOS));
    ADC_MUX = ADC_MUX_REFERENCE_INTERNAL | (wanted & 7);
    TMR0_CTRL = (uint8_t)(TMR0_CTRL_CLOCK_DIV64 & TMR0_CTRL_CLOCK_MASK);
    OUT_B |= wanted ? BV(OUT_B_VENT_OPEN_BITPOS) : BV(OUT_B_VENT_CLOSE_BITPOS);
    while ((ADC_CTRL >> ADC_CTRL_START_BITPOS) & 1)
        steps++;
    return steps + OUT_B_LED_MASK;
}
