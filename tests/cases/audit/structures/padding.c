/* audit with sorrel40.json */
/* Where the second member is depends on the compiler: not judged. */
#include <stdint.h>
struct guess {
    volatile uint8_t first;
    volatile uint16_t wide;
    volatile uint8_t last;
};
#define GUESS ((struct guess *)0x120)

void use(void)
{
    GUESS->wide = 1;
    GUESS->last = 2;
}
