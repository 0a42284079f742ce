/* audit with sorrel40.json */
#include "sorrel40.h"
start:  in      r16, 0x31               /* finds data-address-in-instruction */
        out     0x30, r16               /* finds data-address-in-instruction */
        out     0x10, r16
        bset    0x30, 7                 /* finds data-address-in-instruction */
        out     OUT_C_DATA_ADDR, r16    /* finds data-address-in-instruction */
        out     OUT_C_IO_ADDR, r16
        bclr    DIR_B_DATA_ADDR, 0      /* finds data-address-in-instruction */
        ret
