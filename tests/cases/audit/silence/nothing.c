/* audit with sorrel14.xml */
/* Remarks that have nothing to silence (any more), or are too far away. */
#include <stdint.h>
#define OUT_A (*(volatile uint8_t *)0x35) /* regwright: silence not-volatile old; finds comment-silences-nothing */
/* finds-next comment-silences-nothing */
/* regwright: silence io-address-behind-pointer moved since */

#define OUT_B (*(volatile uint8_t *)0x18) /* finds io-address-behind-pointer */
#define IN_B (*(volatile uint8_t *)0x39)
#define DIR_B (*(volatile uint8_t *)0x37)
