/* audit with sorrel14.xml */
#include <stdint.h>
#define DIR_B /* 0x17 is the I/O number */ (*(volatile uint8_t *)0x37)
#define OUT_B (*(volatile /* not 0x38? */ uint8_t *)/* io */0x18) /* finds io-address-behind-pointer */
#define IN_B (*(volatile uint8_t *)0x39) // 0x19 + 0x20
#define OUT_A (*(volatile uint8_t *)0x35) /* #define OUT_A (*(volatile uint8_t *)0x15)
                                             is what stood here before */
/* #define DIR_A (*(volatile uint8_t *)0x14) */
// #define IN_A (*(volatile uint8_t *)0x16)
static const char *const text = "#define IN_A (*(volatile uint8_t *)0x16)";
