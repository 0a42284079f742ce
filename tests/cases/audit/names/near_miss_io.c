/* audit with sorrel14.xml */
/* A near-miss name, and the I/O number of that very register. */
#include <stdint.h>
#define DIRB (*(volatile uint8_t *)0x17) /* finds io-address-behind-pointer */
#define OUTB (*(volatile uint8_t *)0x38)
#define INB (*(volatile uint8_t *)0x39)

void start(void)
{
    DIRB = 0x07;
    OUTB = 0;
}
