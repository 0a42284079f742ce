/* audit with sorrel14.xml */
/* Plain numbers with the header's names: each says of what space it is. */
#define DIR_B_IO_ADDR 0x17
#define DIR_B_DATA_ADDR 0x37
#define OUT_B_IO_ADDR 0x19 /* finds name-at-other-address */
#define OUT_B_DATA_ADDR 0x39 /* finds name-at-other-address */
#define IN_B_IO_ADDR 0x19
#define IN_B_DATA_ADDR 0x39
#define ADC_CTRL_IO_ADDR 0x35
#define ADC_CTRL_DATA_ADDR 0x35 /* finds name-at-other-address */
