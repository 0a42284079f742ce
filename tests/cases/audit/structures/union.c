/* audit with sorrel40.json */
/* The counter whole and by halves; high is written first, as the manual wants it. */
#include <stdint.h>
union wide {
    volatile uint16_t all;
    struct {
        volatile uint8_t low, high;
    } half;
};
#define TMR1_COMPARE_UNION (*(union wide *)0xA2)

void set(uint16_t ticks)
{
    TMR1_COMPARE_UNION.half.high = (uint8_t)(ticks >> 8);
    TMR1_COMPARE_UNION.half.low = (uint8_t)ticks;
}
