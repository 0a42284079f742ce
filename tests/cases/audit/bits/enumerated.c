/* audit with sorrel14.xml */
enum out_b_bits {
    OUT_B_VENT_OPEN_BITPOS,
    OUT_B_VENT_CLOSE_BITPOS,
    OUT_B_PULLS_BITPOS, /* finds bit-of-another-name */
    OUT_B_LED_BITPOS, /* finds bit-of-another-name */
};
static const unsigned char ADC_CTRL_DONE_MASK = 0x04; /* finds bit-of-another-name */
static const unsigned char ADC_CTRL_IRQ_MASK = 0x04;
