/* audit with sorrel14.xml */
/* Two lines changed places when they were typed. */
#include <stdint.h>
#define DIR_A (*(volatile uint8_t *)0x34)
#define OUT_A (*(volatile uint8_t *)0x36) /* finds name-at-other-address */
#define IN_A (*(volatile uint8_t *)0x35) /* finds name-at-other-address */
#define DIR_B (*(volatile uint8_t *)0x37)
#define OUT_B (*(volatile uint8_t *)0x38)
#define IN_B (*(volatile uint8_t *)0x39)
