/* audit with sorrel14.xml */
/* Definitions of several lines; a finding is at the name. */
#include <stdint.h>
#define DIR_A \
    (*(volatile uint8_t *) \
     0x34)
/* finds-next io-address-behind-pointer */
#define OUT_A \
    (*(volatile uint8_t *) \
     0x15)
#define IN_A (*(const volatile \
               uint8_t *)0x36)
#define OUT_B_LE\
D_MASK 0x04
#define SWITCH_ON(port, mask) \
    do { \
        (port) |= (mask); \
    } while (0)
