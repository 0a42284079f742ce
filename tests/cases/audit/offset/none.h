/* audit with sorrel40.json */
/* 0x20 to 0x5F are right with the distance; from 0x60 on there is none to add. */
#include <stdint.h>
#define REG8(address) (*(volatile uint8_t *)(address))
#define REG16(address) (*(volatile uint16_t *)(address))
#define IO8(number) REG8((number) + 0x20)
#define DIR_A IO8(0x0C)
#define OUT_A IO8(0x0D)
#define DIR_B IO8(0x0F)
#define OUT_B IO8(0x10)
#define TMR0_CTRL IO8(0x22)
#define ADC_CTRL REG8(0x9B)
#define ADC_MUX REG8(0x9C)
#define WATCHDOG REG8(0x9F)
#define TMR_IRQ REG8(0xA0)
#define UART0_DIVISOR REG16(0x120)
#define UART1_CTRL REG8(0x12A)
