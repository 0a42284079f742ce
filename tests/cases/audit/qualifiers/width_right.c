/* audit with sorrel40.json */
/* Bytes, halves and 16 bits where they belong; int has 16 bits on this chip. */
#include <stdint.h>
#define UART0_DIVISOR (*(volatile uint16_t *)0x120)
#define UART1_DIVISOR (*(volatile unsigned int *)0x128)
#define UART0_CTRL (*(volatile uint8_t *)0x122)
#define TMR1_COMPARE_L (*(volatile uint8_t *)0xA2)
#define TMR1_COMPARE_H (*(volatile uint8_t *)0xA3)
#define ADC_RESULT_L (*(const volatile unsigned char *)0x9D)
#define ADC_RESULT_H (*(const volatile unsigned char *)0x9E)
#define STACK (*(volatile uint16_t *)0x25)
#define BUFFER ((uint16_t *)0x200)

void start(void)
{
    UART0_DIVISOR = 103;
    UART1_DIVISOR = 51;
    BUFFER[0] = STACK;
}
