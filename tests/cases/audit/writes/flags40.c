/* audit with sorrel40.json */
/* SENT is the only flag of its register that writing 1 clears. */
#include "sorrel40.h"

void sent(void)
{
    UART0_STATUS = UART0_STATUS_SENT_MASK;
    UART0_STATUS |= UART0_STATUS_SENT_MASK;
    UART0_STATUS &= (uint8_t)~UART0_STATUS_SENT_MASK;
    UART1_STATUS ^= 0x04; /* finds flags-cleared-by-the-way */
    WATCHDOG |= WATCHDOG_ENABLE_MASK; /* finds flags-cleared-by-the-way */
    TMR_FLAGS |= TMR_FLAGS_CAPTURE_MASK; /* finds flags-cleared-by-the-way */
}
