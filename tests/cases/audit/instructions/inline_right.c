/* audit with sorrel14.xml */
#include "sorrel14.h"

static inline unsigned char pins(void)
{
    unsigned char value;
    __asm__ volatile("in %0, %1" : "=r"(value) : "I"(IN_B_IO_ADDR));
    return value;
}

static inline void lamp(void)
{
    __asm__ volatile("bset %[port], %[bit]" : : [port] "I"(OUT_B_IO_ADDR), [bit] "I"(OUT_B_LED_BITPOS));
    __asm__ volatile("bclr 0x18, 2" ::: "memory");
    __asm__ volatile("nop");
    __asm__ volatile("" ::: "memory");
    __asm__ volatile("store 0x38, r16 ; OUT_B");
}
