/* audit with sorrel14.xml */
#include <stdint.h>
static const uintptr_t kDirB = 0x37;
static const uintptr_t kLampLatch = 0x18;

static void set(void)
{
    *(volatile uint8_t *)kDirB = 0x07;
    *(volatile uint8_t *)kLampLatch = 0x04; /* finds io-address-behind-pointer */
}
