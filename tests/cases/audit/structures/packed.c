/* audit with sorrel14.xml */
/* A member of 16 bits at an odd address: sure only because it is packed. */
#include <stdint.h>
struct __attribute__((packed)) converter {
    uint8_t ctrl;
    uint8_t mux;
    uint8_t result_low;
    uint8_t result_high;
};
#define ADC ((volatile struct converter *)0x55)

uint16_t sample(void)
{
    uint16_t value;
    ADC->mux = 0x80;
    ADC->ctrl = 0x03;
    value = ADC->result_low;
    value |= (uint16_t)ADC->result_high << 8;
    return value;
}
