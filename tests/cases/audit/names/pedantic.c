/* audit with sorrel14.xml, pedantic */
/* What is only counted unless it is asked for. */
#include <stdint.h>
#define LATCH (*(volatile uint8_t *)0x38) /* finds name-means-nothing */
#define OUT_B (*(volatile uint8_t *)0x38)

void blink(void)
{
    OUT_B ^= 4;
    *(volatile uint8_t *)0x50 = 1; /* finds address-hits-nothing */
}
