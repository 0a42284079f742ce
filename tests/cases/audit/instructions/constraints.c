/* audit with sorrel40.json */
/* Numbers that come in through the operands. */
#include "sorrel40.h"

static inline void drive(unsigned char value)
{
    __asm__ volatile("out %0, %1" : : "I"(OUT_B_IO_ADDR), "r"(value));
    __asm__ volatile("out %0, %1" : : "I"(OUT_C_DATA_ADDR), "r"(value)); /* finds data-address-in-instruction */
    __asm__ volatile("bset %0, %1" : : "I"(0x30), "I"(7)); /* finds data-address-in-instruction */
    __asm__ volatile("store %0, %1" : : "i"(ADC_CTRL_DATA_ADDR), "r"(value));
}
