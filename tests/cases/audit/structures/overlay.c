/* audit with sorrel14.xml */
/* Three registers in a row, twice. */
#include <stdint.h>
typedef struct {
    volatile uint8_t dir;
    volatile uint8_t out;
    const volatile uint8_t in;
} port_t;

#define PORT_A ((port_t *)0x34)
#define PORT_B (*(port_t *)0x37)

void start(void)
{
    PORT_A->dir = 0xFF;
    PORT_A->out = 0x55;
    PORT_B.dir = 0x07;
    PORT_B.out &= (uint8_t)~4;
    while (PORT_B.in & 1)
        ;
}
