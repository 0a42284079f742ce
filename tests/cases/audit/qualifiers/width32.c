/* audit with sorrel32.xml */
/* One register of 16 bits among those of 32. */
#include <stdint.h>
#define PROBE_STATE (*(volatile uint32_t *)0x70005430)
#define PROBE_SETTLE0 (*(volatile unsigned int *)0x70005480)
#define PROBE_SETTLE1 (*(volatile uint8_t *)0x70005488) /* finds access-width */
#define BEAT_KEY (*(volatile uint32_t *)0x7000020C) /* finds access-width */
#define RELAY_DRIVE (*(volatile uint16_t *)0x70030004) /* finds access-width */

void settle(void)
{
    PROBE_SETTLE0 = 0x20;
    *(volatile unsigned long *)0x70018050 = 0x100;
}
