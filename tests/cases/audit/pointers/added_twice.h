/* audit with sorrel14.xml */
/* The macro adds the distance, and two lines have it already. */
#include <stdint.h>
#define IO_OFFSET 0x20
#define IO_REG(number) (*(volatile uint8_t *)((number) + IO_OFFSET))
#define DIR_A IO_REG(0x14)
#define OUT_A IO_REG(0x15)
#define IN_A IO_REG(0x16)
#define DIR_B IO_REG(0x37) /* finds pointer-offset-added-twice */
#define OUT_B IO_REG(0x18)
#define IN_B IO_REG(0x19)
#define ADC_MUX IO_REG(0x56) /* finds pointer-offset-added-twice */
