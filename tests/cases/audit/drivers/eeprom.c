/* audit with sorrel14.xml */
/* Write one byte: the unlocking bit and the write bit within a few cycles of one another. */
#include "sorrel14.h"
#define NO_INTERRUPTS() (CPU_STATUS &= (uint8_t)~CPU_STATUS_IRQ_MASK)

void eeprom_write(uint8_t address, uint8_t data)
{
    uint8_t before = CPU_STATUS;

    while (NVM_CTRL & NVM_CTRL_WRITE_MASK)
        ;
    NVM_ADDRESS = address;
    NVM_DATA = data;
    NO_INTERRUPTS();
    NVM_CTRL |= NVM_CTRL_UNLOCK_MASK;
    NVM_CTRL |= NVM_CTRL_WRITE_MASK;
    CPU_STATUS = before;
}

uint8_t eeprom_read(uint8_t address)
{
    NVM_ADDRESS = address;
    NVM_CTRL |= 1 << NVM_CTRL_READ_BITPOS;
    return NVM_DATA;
}
