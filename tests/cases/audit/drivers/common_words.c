/* audit with sorrel14.xml */
/* Words that every program has, and the chip has as names of bits. */
#include <stdint.h>
#define CLOCK 8000000UL
#define PERIOD 100
#define READ 1
#define WRITE 0
#define START 0x08
#define DONE 0x18
#define ENABLE 1
#define VALUE 42
#define MATCH 7
#define ZERO 0
#define LOCK() (locked = 1)
enum command { STOP, CARRY, OVERFLOW, FLAG = 17, CHANNEL, REFERENCE };
static const uint8_t IRQ = 11;
static uint8_t locked, TRACE;

uint8_t next(uint8_t state)
{
    LOCK();
    if (state == START)
        return DONE | READ;
    TRACE += VALUE;
    return (uint8_t)(CLOCK / PERIOD / 10000UL) + MATCH + IRQ + FLAG;
}
