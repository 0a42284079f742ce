/* audit with guard.xml */
/* No pointer reaches these: their values are constants for the programmer. */
#define OPTION_LOW 0x1E2 /* finds configuration-value */
#define OPTION_HIGH 0x0C /* finds configuration-value */
#define OUT (*(volatile unsigned char *)0x20)

void run(void)
{
    OUT = 1;
}
