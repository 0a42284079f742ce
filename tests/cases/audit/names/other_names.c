/* audit with sorrel14.xml */
/* Names of the application, some of which sound like the chip's. */
#include <stdint.h>
#define OUTPUT_COUNT 24
#define DIRECTION_UP 0x18
#define STATUS 0x18
#define ADC_SAMPLES 0x37
#define WATCHDOG_TICKS 55
#define LATCH (*(volatile uint8_t *)0x38)
#define LAMPS LATCH
#define TICKS_PER_SECOND (*(uint16_t *)0x62)
static const uint8_t out_buffer_size = 0x18;
static uint8_t out_b_shadow;
static uint8_t dir = 0x17;

void lamps(uint8_t on)
{
    out_b_shadow = on & 0x3F;
    LAMPS = out_b_shadow;
    dir++;
    TICKS_PER_SECOND = 100;
}
