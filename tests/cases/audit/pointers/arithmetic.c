/* audit with sorrel14.xml */
/* Sums that are right, and two that are the I/O number after all. */
#include <stdint.h>
#define PORTS 0x30
#define OUT_A (*(volatile uint8_t *)(PORTS + 5))
#define DIR_B (*(volatile uint8_t *)(PORTS + 7))
#define OUT_B (*(volatile uint8_t *)(0x20 + 0x18))
#define IN_B (*(volatile uint8_t *)(0x40 - 7))
#define ADC_MUX (*(volatile uint8_t *)(0x2B << 1))
#define TMR0_CTRL (*(volatile uint8_t *)(2 * 0x15))
#define TMR0_COUNT (*(volatile uint8_t *)(0x08 | 3)) /* finds io-address-behind-pointer */
#define WATCHDOG (*(volatile uint8_t *)(PORTS - 44)) /* finds io-address-behind-pointer */
