/* audit with sorrel14.xml */
/* What is meant is said where it stands, with the reason. */
#include <stdint.h>
#define DIR_B (*(volatile uint8_t *)0x37)
/* regwright: silence io-address-behind-pointer the simulator has the I/O registers at 0 */
#define OUT_B (*(volatile uint8_t *)0x18)
#define IN_B (*(uint8_t *)0x39) /* regwright: silence not-volatile read once at start */

void start(void)
{
    // regwright: silence reserved-bits-written the next revision has pins 6 and 7
    DIR_B = 0xFF;
}
