/* audit with sorrel14.xml */
#include "sorrel14.h"
        .equ    STACK_TOP, 0x15F
        .global main
main:   load_number r16, STACK_RESET
        out     STACK_IO_ADDR, r16
        bset    DIR_B_IO_ADDR, OUT_B_LED_BITPOS
        bset    OUT_B_IO_ADDR, OUT_B_LED_BITPOS
        load    r16, ADC_RESULT_L_DATA_ADDR
        load    r17, ADC_RESULT_H_DATA_ADDR
        load_number r18, ADC_CTRL_START_MASK | ADC_CTRL_ENABLE_MASK
        store   ADC_CTRL_DATA_ADDR, r18
        ret
