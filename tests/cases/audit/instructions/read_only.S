/* audit with sorrel14.xml */
#include "sorrel14.h"
start:  out     IN_B_IO_ADDR, r16       /* finds read-only-written */
        bset    0x16, 3                 /* finds read-only-written */
        in      r16, IN_A_IO_ADDR
        bskip   IN_B_IO_ADDR, 3
        store   ADC_RESULT_L_DATA_ADDR, r16 /* finds read-only-written */
        ret
