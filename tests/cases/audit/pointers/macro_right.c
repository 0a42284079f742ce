/* audit with sorrel14.xml */
#define DIR_B (*(volatile unsigned char *)0x37)
#define OUT_B (*(volatile unsigned char *)0x38)
#define IN_B (*(volatile unsigned char *)0x39)

void lamp_on(void)
{
    DIR_B |= 1 << 2;
    OUT_B |= 1 << 2;
    while (IN_B & 1)
        ;
}
