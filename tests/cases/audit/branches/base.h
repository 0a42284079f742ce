/* audit with sorrel14.xml */
/* The distance depends on the arm: with the first one OUT_B is right, with the other it is not. */
#include <stdint.h>
#ifdef MEMORY_MAPPED
#define IO_BASE 0x20
#else
#define IO_BASE 0x00
#endif
#define OUT_B (*(volatile uint8_t *)(IO_BASE + 0x18)) /* finds io-address-behind-pointer */
#define OUT_A (*(volatile uint8_t *)0x35)
#define DIR_A (*(volatile uint8_t *)0x34)
