/* audit with sorrel14.xml */
#include "sorrel14.h"
lamp:   bset    OUT_B_IO_ADDR, OUT_B_LED_BITPOS
        bset    OUT_B_IO_ADDR, OUT_B_LED_MASK           /* finds mask-as-position */
        bclr    OUT_B_IO_ADDR, OUT_B_VENT_CLOSE_MASK    /* finds mask-as-position */
        bset    OUT_B_IO_ADDR, TMR_FLAGS_OVERFLOW_BITPOS /* finds bit-of-another-register */
        bskip   IN_B_IO_ADDR, 5
        ret
