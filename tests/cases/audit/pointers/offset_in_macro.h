/* audit with sorrel14.xml */
/* Numbers of the I/O column, and the macro adds the distance: right. */
#ifndef IO_H
#define IO_H
#include <stdint.h>
#define IO_OFFSET 0x20
#define IO_REG(number) (*(volatile uint8_t *)((number) + IO_OFFSET))
#define WATCHDOG IO_REG(0x04)
#define TMR0_CTRL IO_REG(0x0A)
#define TMR0_COUNT IO_REG(0x0B)
#define TMR0_COMPARE IO_REG(0x0C)
#define DIR_B IO_REG(0x17)
#define OUT_B IO_REG(0x18)
#define IN_B IO_REG(0x19)
#define ADC_CTRL IO_REG(0x35)
#endif
