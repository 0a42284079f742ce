/* audit with sorrel14.xml */
#include <stdint.h>
#define OUT_B (*(volatile uint8_t *)0x38)
#ifdef WITH_LAMP
#  if LAMP_KIND == 2
#    define LAMP_MASK OUT_B_LED_MASK
#  else
#    define LAMP_MASK OUT_B_LED_BITPOS
#  endif
#endif

void lamp(void)
{
#ifdef WITH_LAMP
    OUT_B |= OUT_B_LED_MASK;
#  ifdef SLOW
    OUT_B |= OUT_B_LED_BITPOS; /* finds position-as-mask */
#  endif
#else
    OUT_B &= (uint8_t)~OUT_B_LED_MASK;
#endif
}
