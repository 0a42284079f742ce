/* Pins and registers of the vent controller, from the Sorrel 14 data sheet. */
#ifndef PINS_H
#define PINS_H

#include <stdint.h>

#ifndef REG8
#define REG8(address) (*(volatile uint8_t *)(address))
#endif

/* Port B: the lamp and the vent motor. */
#define DIR_B REG8(0x37)
#define OUT_B REG8(0x18)
#define IN_B REG8(0x39)

#define LAMP 2
#define OPENING 0
#define CLOSING 1
#define END_OPEN 4 /* limit switches, closed at the end of the way */
#define END_SHUT 5

/* The converter: the thermistor is at channel 3. */
#define ADC_CTRL REG8(0x55)
#define ADC_MUX REG8(0x56)
#define ADC_RESULT_L REG8(0x57)
#define ADC_RESULT_H REG8(0x58)
#define ADC_ON 0xC1 /* enabled, clock divided by 64 */
#define ADC_GO 0x02
#define ADC_READY 0x08
#define THERMISTOR (0x80 | 3) /* internal reference */

/* The timer counts tenths of a second, the watchdog bites after three. */
#define TMR0_CTRL REG8(0x0A)
#define TMR0_COMPARE REG8(0x2C)
#define TMR_FLAGS REG8(0x2E)
#define TICK 0x10
#define WATCHDOG REG8(0x24)

#endif
