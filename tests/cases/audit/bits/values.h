/* audit with sorrel14.xml */
/* Values of fields of several bits. */
#define ADC_CTRL_CLOCK_DIV2 0x20
#define ADC_CTRL_CLOCK_DIV4 0x40
#define ADC_CTRL_CLOCK_DIV8 0x40 /* finds bit-of-another-name */
#define ADC_CTRL_CLOCK_DIV16 0x80
#define ADC_MUX_REFERENCE_PIN 0x40
#define ADC_MUX_REFERENCE_INTERNAL 0xC0 /* finds bit-of-another-name */
#define TMR0_CTRL_CLOCK_DIV1 0x10
