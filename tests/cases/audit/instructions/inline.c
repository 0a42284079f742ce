/* audit with sorrel40.json */
#include "sorrel40.h"

static inline void lamp_on(void)
{
    __asm__ volatile("bset 0x30, 7"); /* finds data-address-in-instruction */
    __asm__ volatile("bset 0x10, 7");
    asm("bclr 0x22, 5"); /* finds instruction-out-of-reach */
    asm volatile("out 0x10, r16\n\t"
                 "out 0x2F, r17\n\t" /* finds data-address-in-instruction */
                 "out 0x0F, r18");
}
