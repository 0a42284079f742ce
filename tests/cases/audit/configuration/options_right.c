/* audit with guard.xml */
#define OPTION_LOW 0xE2
#define OPTION_HIGH (0xFF & ~(1 << 3))
#define OPTION_LOW_CLOCK_MASK 0x0F
#define OPTION_LOW_DIVIDE_BITPOS 7
#define OUT (*(volatile unsigned char *)0x20)

void run(void)
{
    OUT = 1;
}
