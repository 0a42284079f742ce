/* audit with sorrel14.xml */
/* Arguments of a macro have no value here: nothing is said. */
#include "sorrel14.h"
        .macro  set_port port, value
        load_immediate r16, \value
        out     \port, r16
        .endm

start:  set_port OUT_B_IO_ADDR, 0x04
        set_port DIR_B_IO_ADDR, 0x07
        ret
