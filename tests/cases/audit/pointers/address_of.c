/* audit with sorrel14.xml */
/* The address of a register as a number, taken and given on. */
#include <stdint.h>
#define OUT_B (*(volatile uint8_t *)0x38)
#define ADDRESS(object) ((uintptr_t)&(object))
#define IO_NUMBER(object) (ADDRESS(object) - 0x20)
void set_bit(volatile uint8_t *where, uint8_t bit);

void lamp_on(void)
{
    set_bit(&OUT_B, 2);
    set_bit((volatile uint8_t *)0x37, 2);
    set_bit((volatile uint8_t *)ADDRESS(OUT_B), 1);
}
