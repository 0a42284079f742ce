/* audit with sorrel14.xml */
/* One list, expanded twice: names, and what is done with each. */
#include "sorrel14.h"
#define PINS(X) \
    X(lamp, B, OUT_B_LED_BITPOS) \
    X(open, B, OUT_B_VENT_OPEN_BITPOS) \
    X(shut, B, OUT_B_VENT_CLOSE_BITPOS) \
    X(fan, A, 6)
#define DECLARE(name, port, pin) \
    static inline void name##_on(void) { OUT_##port |= (uint8_t)(1u << (pin)); } \
    static inline void name##_off(void) { OUT_##port &= (uint8_t)~(1u << (pin)); } \
    static inline void name##_output(void) { DIR_##port |= (uint8_t)(1u << (pin)); }
PINS(DECLARE)
#define NUMBER(name, port, pin) name##_pin = (pin),
enum pin { PINS(NUMBER) };

void all_off(void)
{
    lamp_off();
    open_off();
    shut_off();
    fan_off();
}
