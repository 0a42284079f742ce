/* audit with sorrel14.xml */
/* 24, 030 and 0x18 are one number; so are 56, 070 and 0x38. */
#include <stdint.h>
#define OUT_B *((volatile uint8_t *) 24) /* finds io-address-behind-pointer macro-without-parentheses */
#define DIR_A (*(volatile uint8_t *) 52)
#define OUT_A (*(volatile uint8_t *) 065)
#define IN_A (*(volatile uint8_t *) 0x36UL)
#define DIR_B (*(volatile uint8_t *) 027u) /* finds io-address-behind-pointer */
#define IN_B (*(volatile uint8_t *) 0X39ul)
#define ADC_MUX (*(volatile uint8_t *) 0b01010110)
