/* audit with sorrel40.json */
/* Single-bit instructions reach the I/O numbers 0x00 to 0x1F; ports those up to 0x3F. */
#include "sorrel40.h"
start:  bset    0x22, 5                 /* finds instruction-out-of-reach */
        bset    TMR0_CTRL_IO_ADDR, 5    /* finds instruction-out-of-reach */
        bskip   NVM_CTRL_IO_ADDR, 6     /* finds instruction-out-of-reach */
        bset    0x10, 4
        out     0x22, r16
        bclr    CPU_STATUS_IO_ADDR, 0
        out     ADC_CTRL_DATA_ADDR, r16 /* finds instruction-out-of-reach */
        store   ADC_CTRL_DATA_ADDR, r16
        ret
