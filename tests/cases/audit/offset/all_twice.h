/* audit with sorrel14.xml */
/* Every line is a data address, and the macro adds the distance once more. */
#include <stdint.h>
#define IO(number) (*(volatile uint8_t *)((number) + 0x20))
#define DIR_A IO(0x34) /* finds file-off-by-a-constant */
#define OUT_A IO(0x35)
#define IN_A IO(0x36)
#define DIR_B IO(0x37)
#define OUT_B IO(0x38)
#define IN_B IO(0x39)
#define WATCHDOG IO(0x24)
#define TMR0_CTRL IO(0x2A)
