/* audit with sorrel14.xml */
/* A table of ports; the macro around it makes data addresses of I/O numbers. */
#include <stdint.h>
#define AT(io) ((volatile uint8_t *)((io) + 0x20))

struct port {
    volatile uint8_t *dir, *out;
    const volatile uint8_t *in;
};
static const struct port ports[] = {
    { AT(0x14), AT(0x15), AT(0x16) },
    { AT(0x17), AT(0x18), AT(0x19) },
};

void make_output(uint8_t port, uint8_t pin)
{
    *ports[port].dir |= (uint8_t)(1u << pin);
}
