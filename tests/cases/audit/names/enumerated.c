/* audit with sorrel14.xml */
enum {
    DIR_B_DATA_ADDR = 0x37,
    OUT_B_DATA_ADDR,
    IN_B_DATA_ADDR,
    TMR0_CTRL_IO_ADDR = 0x0A,
    TMR0_COUNT_IO_ADDR = 0x0C, /* finds name-at-other-address */
    ADC_CTRL_IO_ADDR = 0x35,
};
