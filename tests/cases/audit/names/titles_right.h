/* audit with sorrel14.xml */
#include <stdint.h>
#define PORT_B_DIR (*(volatile uint8_t *)0x37)
#define PORT_B_OUT (*(volatile uint8_t *)0x38)
#define PORT_B_IN (*(volatile uint8_t *)0x39)
#define PortADir (*(volatile uint8_t *)0x34)
#define PORT_A_OUT (*(volatile uint8_t *)0x35)
#define PORT_A_IN (*(volatile uint8_t *)0x36)
#define TIMER0_CONTROL (*(volatile uint8_t *)0x2A)
#define TIMER_FLAGS (*(volatile uint8_t *)0x2E)
#define EEPROM_ADDRESS (*(volatile uint8_t *)0x4D)
#define EEPROM_DATA (*(volatile uint8_t *)0x4E)
#define EEPROM_CONTROL (*(volatile uint8_t *)0x4F)
