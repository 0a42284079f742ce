/* audit with sorrel14.xml */
/* A line was left out at the top, and all that follow moved down by one. */
#include <stdint.h>
#define TMR0_CTRL (*(volatile uint8_t *)0x2B) /* finds file-off-by-a-constant */
#define TMR0_COUNT (*(volatile uint8_t *)0x2C)
#define TMR0_COMPARE (*(volatile uint8_t *)0x2D)
#define TMR_IRQ (*(volatile uint8_t *)0x2E)
#define TMR_FLAGS (*(volatile uint8_t *)0x2F)
#define DIR_A (*(volatile uint8_t *)0x35)
#define OUT_A (*(volatile uint8_t *)0x36)
#define IN_A (*(volatile uint8_t *)0x37)
