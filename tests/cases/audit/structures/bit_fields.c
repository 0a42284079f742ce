/* audit with sorrel14.xml */
/* Which bit a bit-field has is the compiler's choice: nothing is said of it. */
#include <stdint.h>
typedef union {
    volatile uint8_t byte;
    struct {
        volatile uint8_t open : 1;
        volatile uint8_t close : 1;
        volatile uint8_t lamp : 1;
        volatile uint8_t pulls : 3;
        volatile uint8_t : 2;
    } bits;
} out_b_t;
#define OUT_B_BITS (*(out_b_t *)0x38)

void lamp_on(void)
{
    OUT_B_BITS.bits.lamp = 1;
    OUT_B_BITS.bits.open = 0;
}
