/* audit with sorrel14.xml */
#include "sorrel14.h"
        .text
        .global start
start:  in      r16, OUT_B_IO_ADDR      ; a port number
        out     OUT_B_IO_ADDR, r16
        out     0x17, r16               ; DIR_B
        in      r17, 0x19               // IN_B
        bset    OUT_B_IO_ADDR, OUT_B_LED_BITPOS
        bclr    0x18, 2
        bskip   IN_B_IO_ADDR, 0
        go      start
        load    r16, OUT_B_DATA_ADDR
        store   0x38, r16
        out     ADC_MUX_IO_ADDR, r16
        ret
