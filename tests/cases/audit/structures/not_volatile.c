/* audit with sorrel14.xml */
/* The members are plain, and so is the structure. */
#include <stdint.h>
struct port {
    uint8_t dir, out, in;
};
#define PORT_A ((struct port *)0x34) /* finds not-volatile */
#define PORT_B ((volatile struct port *)0x37)

void start(void)
{
    PORT_A->out = 1;
    PORT_B->out = 1;
}
