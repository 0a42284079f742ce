/* audit with sorrel14.xml */
/* DIRB is DIR_B to everybody but the compiler. */
#include <stdint.h>
#define DIRB (*(volatile uint8_t *)0x38) /* finds address-with-other-name */
#define OUTB (*(volatile uint8_t *)0x37) /* finds address-with-other-name */
#define INB (*(volatile uint8_t *)0x39)
#define dir_a (*(volatile uint8_t *)0x34)
#define OutA (*(volatile uint8_t *)0x35)
