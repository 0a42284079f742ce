/* audit with sorrel14.xml */
/* One of two findings on a line is silenced; the other stays. */
#include <stdint.h>
/* regwright: silence macro-without-parentheses used in one place only */
#define OUT_A *(uint8_t *)0x35 /* finds not-volatile */
