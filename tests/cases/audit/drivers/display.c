/* audit with sorrel14.xml */
/* A character display at port A; its pins are called as its own data sheet has it. */
#include "sorrel14.h"
#define ENABLE 0x10
#define READ 0x20
#define DATA_MASK 0x0F
#define LOW_NIBBLE(byte) ((byte) & DATA_MASK)

static void nibble(uint8_t value)
{
    OUT_A = (uint8_t)((OUT_A & ~DATA_MASK) | LOW_NIBBLE(value));
    OUT_A |= ENABLE;
    OUT_A &= (uint8_t)~ENABLE;
}

void display(uint8_t byte)
{
    DIR_A |= ENABLE | READ | DATA_MASK;
    OUT_A &= (uint8_t)~READ;
    nibble(byte >> 4);
    nibble(byte);
}
