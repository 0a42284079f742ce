/* audit with sorrel14.xml */
/* Only one build is wrong; every arm is looked at. */
#include <stdint.h>
#if defined(BOARD_OLD)
#define LAMP_PORT (*(volatile uint8_t *)0x18) /* finds io-address-behind-pointer */
#elif BOARD >= 3
#define LAMP_PORT (*(volatile uint8_t *)0x38)
#else
#define LAMP_PORT (*(volatile uint8_t *)(0x18 + 0x20))
#endif
#define OUT_A (*(volatile uint8_t *)0x35)
#define DIR_A (*(volatile uint8_t *)0x34)
