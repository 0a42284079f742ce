/* audit with sorrel14.xml */
/* Pointers into SRAM, at the CPU's own registers and at nothing: no register was meant. */
#include <stdint.h>
#define STACK_START ((uint8_t *)0x15F)
#define BOOT_MARK (*(uint16_t *)0x0080)
#define SCRATCH_REGISTER (*(volatile uint8_t *)0x1F)
#define CPU_R1 (*(volatile uint8_t *)0x01)

void boot(void)
{
    uint8_t *p = (uint8_t *)0x60;
    while (p != STACK_START)
        *p++ = 0;
    BOOT_MARK = 0xB007;
    SCRATCH_REGISTER = CPU_R1;
    *(uint8_t *)0x0090 = 1;
}
