/* audit with sorrel14.xml */
/* What lies in SRAM need not be volatile. */
#include <stdint.h>
#define LOG ((uint8_t *)0x100)
#define LOG_LENGTH (*(uint16_t *)0xFE)

uint8_t last(void)
{
    return LOG_LENGTH ? LOG[LOG_LENGTH - 1] : *(uint8_t *)0x60;
}
