/* audit with sorrel14.xml */
/* Suspicious numbers, right sums: a pointer counts in what it points to. */
#include <stdint.h>
#define PORTS ((volatile uint8_t *)0x20)
#define OUT_B (*(PORTS + 0x18))
#define DIR_B (*((volatile uint8_t *)0x17 + 0x20))
#define IN_B (*(volatile uint8_t *)((uintptr_t)PORTS + 0x19))

uint8_t step(void)
{
    OUT_B ^= 4;
    return DIR_B & IN_B;
}
