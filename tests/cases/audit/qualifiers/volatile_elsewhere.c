/* audit with sorrel14.xml */
/* volatile where one does not look first: in a typedef, behind the type, in the pointer's type. */
#include <stdint.h>
typedef volatile uint8_t reg8;
typedef uint8_t byte;
typedef volatile byte *port_pointer;
#define vbyte volatile unsigned char
#define OUT_A (*(reg8 *)0x35)
#define DIR_A (*(unsigned char volatile *)0x34)
#define DIR_B (*(port_pointer)0x37)
#define OUT_B (*(vbyte *)0x38)
#define IN_B (*(const volatile byte *)0x39)
#define ADC_MUX (*(__volatile__ uint8_t *)0x56)

static reg8 *const flags = (reg8 *)0x2E;
static volatile uint8_t *const mask = (uint8_t *)0x2D;

void start(void)
{
    *mask = 0x10;
    *flags = 0x10;
    OUT_B = 0;
    DIR_B = 0x07;
}
