/* audit with sorrel14.xml */
/* Loads and stores take data addresses. */
#include "sorrel14.h"
start:  load    r16, 0x38
        store   0x37, r16
        store   OUT_B_IO_ADDR, r16      /* finds io-address-behind-pointer */
        load    r17, 0x19               /* finds io-address-behind-pointer */
        store   0x0090, r16
        load    r18, ADC_RESULT_L_DATA_ADDR
        ret
