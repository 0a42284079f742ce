/* audit with sorrel14.xml */
/* Moved from the Sorrel 40; four addresses came along. */
#include <stdint.h>
#define DIR_A (*(volatile uint8_t *)0x34)
#define IN_A (*(volatile uint8_t *)0x2E) /* finds name-at-other-address */
#define OUT_B (*(volatile uint8_t *)0x30) /* finds name-at-other-address */
#define TMR0_CTRL (*(volatile uint8_t *)0x42) /* finds name-at-other-address */
#define TMR0_COUNT (*(volatile uint8_t *)0x2B)
#define ADC_CTRL (*(volatile uint8_t *)0x9B) /* finds name-at-other-address */
#define ADC_MUX (*(volatile uint8_t *)0x56)
