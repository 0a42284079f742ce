/* audit with sorrel14.xml */
/* A converter driver with registers by hand: everything is right. */
#include <stdint.h>

#define ADC_CTRL (*(volatile uint8_t *)0x55)
#define ADC_MUX (*(volatile uint8_t *)0x56)
#define ADC_LOW (*(const volatile uint8_t *)0x57)
#define ADC_HIGH (*(const volatile uint8_t *)0x58)

#define ADC_CTRL_ENABLE_MASK (1u << 0)
#define ADC_CTRL_START_MASK (1u << 1)
#define ADC_CTRL_DONE_MASK (1u << 3)
#define ADC_CTRL_CLOCK_BITPOS 5
#define CLOCK_BY_64 (6u << ADC_CTRL_CLOCK_BITPOS)

static uint16_t last[8];

/* The high bit of the channel stands at bit 5. */
static uint8_t mux_of(uint8_t channel)
{
    return (uint8_t)((channel & 7u) | ((channel & 8u) << 2));
}

uint16_t converter_read(uint8_t channel)
{
    uint16_t low;

    ADC_MUX = (uint8_t)(0x80u | mux_of(channel));
    ADC_CTRL = CLOCK_BY_64 | ADC_CTRL_ENABLE_MASK | ADC_CTRL_START_MASK;
    while (ADC_CTRL & ADC_CTRL_START_MASK) {
    }
    ADC_CTRL = CLOCK_BY_64 | ADC_CTRL_ENABLE_MASK | ADC_CTRL_DONE_MASK;
    low = ADC_LOW;
    last[channel & 7u] = (uint16_t)(low | ((uint16_t)ADC_HIGH << 8));
    return last[channel & 7u];
}
