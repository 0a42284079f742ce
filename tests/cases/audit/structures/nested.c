/* audit with sorrel32.xml */
/* Blocks within blocks, with the gaps that the manual has. */
#include <stdint.h>
struct ends {
    volatile uint32_t from, to;
};
struct lane {
    uint32_t gap0[4];
    volatile uint32_t setup, left;
    uint32_t gap1[2];
    struct ends end;
    uint32_t gap2[6];
};
struct copy {
    uint32_t gap0[2];
    volatile uint32_t events;
    uint32_t gap1[13];
    struct lane lane[3];
};
#define COPY ((struct copy *)0x70018000)

void start(uint32_t from, uint32_t to)
{
    COPY->events = UINT32_C(1) << 24;
    COPY->lane[1].end.from = from;
    COPY->lane[1].end.to = to;
    COPY->lane[1].setup = 0x80000100;
}
