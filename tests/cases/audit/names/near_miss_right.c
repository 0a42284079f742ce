/* audit with sorrel14.xml */
/* Other people's spellings of the right thing. */
#include <stdint.h>
#define DIRB (*(volatile uint8_t *)0x37)
#define outb (*(volatile uint8_t *)0x38)
#define In_B (*(volatile uint8_t *)0x39)
#define REG_DIR_A (*(volatile uint8_t *)0x34)
#define OUT_A_REG (*(volatile uint8_t *)0x35)
#define ADCCTRL (*(volatile uint8_t *)0x55)
#define AdcMux (*(volatile uint8_t *)0x56)
#define TMR0COUNT (*(volatile uint8_t *)0x2B)
