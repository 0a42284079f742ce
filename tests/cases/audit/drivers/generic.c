/* audit with sorrel14.xml */
/* A library that knows no chip: pointers come from its callers. */
#include <stddef.h>
#include <stdint.h>

struct pin {
    volatile uint8_t *dir;
    volatile uint8_t *out;
    uint8_t mask;
};

static inline uint8_t read8(uintptr_t address)
{
    return *(volatile uint8_t *)address;
}

static inline void write8(uint8_t value, uintptr_t address)
{
    *(volatile uint8_t *)address = value;
}

void pin_output(const struct pin *pin)
{
    *pin->dir |= pin->mask;
}

void pin_set(const struct pin *pin, int on)
{
    if (on)
        *pin->out |= pin->mask;
    else
        *pin->out &= (uint8_t)~pin->mask;
}

uint16_t checksum(const void *data, size_t length)
{
    const uint8_t *p = (const uint8_t *)data;
    uint16_t sum = 0x18;
    while (length--)
        sum = (uint16_t)((sum << 1) ^ *p++);
    return sum;
}
