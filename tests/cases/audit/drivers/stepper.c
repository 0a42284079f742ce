/* audit with sorrel14.xml */
/* A stepper at port A: patterns, tables, and numbers that look like addresses. */
#include <stdint.h>
#define DIR_A (*(volatile uint8_t *)0x34)
#define OUT_A (*(volatile uint8_t *)0x35)
#define STEPS_PER_TURN 0x18
static const uint8_t pattern[8] = { 0x18, 0x38, 0x35, 0x15, 0x14, 0x34, 0x16, 0x36 };
static uint8_t phase;
static int16_t position = 0x0038;

void step(int8_t by)
{
    phase = (uint8_t)(phase + by) & 7;
    position = (int16_t)(position + by);
    OUT_A = (uint8_t)((OUT_A & 0xC0) | pattern[phase]);
    if (position >= STEPS_PER_TURN)
        position -= 0x18;
    DIR_A = 0x3F;
}
