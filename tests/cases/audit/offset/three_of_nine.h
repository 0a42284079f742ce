/* audit with sorrel14.xml */
/* Three lines in nine: six are right, so that nothing is wrong with the file as a whole. */
#include <stdint.h>
#define DIR_A (*(volatile uint8_t *)0x34)
#define OUT_A (*(volatile uint8_t *)0x15) /* finds io-address-behind-pointer */
#define IN_A (*(volatile uint8_t *)0x36)
#define DIR_B (*(volatile uint8_t *)0x37)
#define OUT_B (*(volatile uint8_t *)0x18) /* finds io-address-behind-pointer */
#define IN_B (*(volatile uint8_t *)0x39)
#define TMR0_CTRL (*(volatile uint8_t *)0x2A)
#define ADC_CTRL (*(volatile uint8_t *)0x35) /* finds io-address-behind-pointer */
#define ADC_MUX (*(volatile uint8_t *)0x56)
