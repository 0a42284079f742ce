// audit with sorrel40.json
#include "sorrel40.h"

static_assert(OUT_B_LED_BITPOS == 7);
static_assert(OUT_B_LED_MASK == 0x80 && OUT_B_IO_ADDR < 0x20, "reached by single-bit instructions");
static_assert(sizeof(TMR1_COMPARE) == 2, "wide");
static_assert(BUFFER_SIZE == 64, "not of the chip");
constexpr unsigned answer = 42;
static_assert(answer == 43, "wrong, and not of the chip");
