/* audit with sorrel14.xml */
/* The header's own names, some with the number of the neighbour. */
#define OUT_B_LED_BITPOS 3 /* finds bit-of-another-name */
#define OUT_B_LED_MASK 0x08 /* finds bit-of-another-name */
#define OUT_B_VENT_OPEN_BITPOS 0
#define OUT_B_VENT_OPEN_MASK 0x01
#define OUT_B_VENT_CLOSE_BITPOS 1
#define OUT_B_VENT_CLOSE_MASK 0x02
#define OUT_B_PULLS_MASK 0x38
#define OUT_B_PULLS_BITPOS 2 /* finds bit-of-another-name */
#define ADC_CTRL_START_MASK (1 << 1)
#define ADC_CTRL_ENABLE_MASK (1 << 1) /* finds bit-of-another-name */
