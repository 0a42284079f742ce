/* audit with sorrel14.xml */
/* One operand each, or nothing of the chip's. */
#include <stdint.h>
#define REGISTER(a) (*(volatile uint8_t *)(a))
#define OUT_B REGISTER(0x38)
#define LATCH OUT_B
#define DIR_B (((*(volatile uint8_t *)(0x37))))
#define MEMORY ((volatile uint8_t *)0)
#define OUT_A MEMORY[0x35]
#define OUT_B_LED_BITPOS 2
#define LIMIT 20 + 5
#define LONGEST -1
#define LAMP_ON OUT_B |= 1 << OUT_B_LED_BITPOS
#define LAMP_OFF() OUT_B &= ~(1 << OUT_B_LED_BITPOS)
#define FOREVER for (;;)
