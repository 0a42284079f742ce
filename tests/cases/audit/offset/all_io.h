/* audit with sorrel14.xml */
/* The whole table is the I/O column: said once, at the first line that is wrong. */
#include <stdint.h>
#define DIR_A (*(volatile uint8_t *)0x14) /* finds file-off-by-a-constant */
#define OUT_A (*(volatile uint8_t *)0x15)
#define IN_A (*(volatile uint8_t *)0x16)
#define DIR_B (*(volatile uint8_t *)0x17)
#define OUT_B (*(volatile uint8_t *)0x18)
#define IN_B (*(volatile uint8_t *)0x19)
#define TMR0_CTRL (*(volatile uint8_t *)0x0A)
#define TMR0_COUNT (*(volatile uint8_t *)0x0B)
#define ADC_CTRL (*(volatile uint8_t *)0x35)
#define ADC_MUX (*(volatile uint8_t *)0x36)
