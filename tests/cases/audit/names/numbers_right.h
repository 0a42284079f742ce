/* audit with sorrel14.xml */
/* One space or the other: both are an address of the register. */
#define DIR_B_IO_ADDR 0x17
#define OUT_B_IO_ADDR (DIR_B_IO_ADDR + 1)
#define OUT_B_DATA_ADDR (OUT_B_IO_ADDR + 0x20)
enum { IN_B_IO_ADDR = 0x19, IN_B_DATA_ADDR = 0x39 };
static const unsigned char ADC_CTRL_IO_ADDR = 0x35;
#define ADC_CTRL_RESET 0x00
#define STACK_RESET 0xFF
