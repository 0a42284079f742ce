/* audit with sorrel14.xml */
/* Registers of 8 bits; an int has 16 here and takes the neighbour along. */
#include <stdint.h>
#define OUT_A (*(volatile uint16_t *)0x35) /* finds access-width */
#define DIR_B (*(volatile int *)0x37) /* finds access-width */
#define OUT_B (*(volatile unsigned char *)0x38)
#define ADC_CTRL (*(volatile unsigned *)0x55) /* finds access-width */
#define TMR0_COUNT (*(volatile int8_t *)0x2B)

void start(void)
{
    *(volatile uint32_t *)0x2A = 0; /* finds access-width */
    *(volatile char *)0x2C = 100;
}
