/* audit with sorrel14.xml */
#include "sorrel14.h"
#include <assert.h>

_Static_assert(OUT_B_LED_BITPOS == 3, "lamp"); /* finds assertion-contradicts */
_Static_assert(OUT_B_LED_MASK == 0x04, "lamp");
static_assert(OUT_B_IO_ADDR == 0x38, "port"); /* finds assertion-contradicts */
static_assert(OUT_B_DATA_ADDR == OUT_B_IO_ADDR + 0x20, "port");
static_assert(ADC_CTRL_CLOCK_DIV64 == (6 << ADC_CTRL_CLOCK_BITPOS), "clock");
