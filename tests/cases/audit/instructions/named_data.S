/* audit with sorrel14.xml */
/* 0x38 is the converter's high byte in I/O space; the name says that OUT_B is meant. */
#include "sorrel14.h"
lamp:   bset    OUT_B_DATA_ADDR, 2      /* finds data-address-in-instruction */
        out     OUT_B_DATA_ADDR, r16    /* finds data-address-in-instruction */
        out     OUT_B_IO_ADDR, r16
        ret
