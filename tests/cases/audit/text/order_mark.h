/* audit with sorrel14.xml */
/* A byte order mark before everything. */
#include <stdint.h>
#define DIR_B (*(volatile uint8_t *)0x37)
#define OUT_B (*(volatile uint8_t *)0x18) /* finds io-address-behind-pointer */
#define IN_B (*(volatile uint8_t *)0x39)