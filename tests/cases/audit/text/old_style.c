/* audit with sorrel14.xml */
/* Functions as before 1989. */
#define OUT_B (*(volatile unsigned char *)0x38)
#define DIR_B (*(volatile unsigned char *)0x37)

static lamp(on, steps)
int on;
unsigned char steps;
{
    if (on)
        OUT_B |= 1 << 2;
    else
        *(volatile unsigned char *)0x18 &= ~(1 << 2); /* finds io-address-behind-pointer */
    return steps;
}

main()
{
    DIR_B = 07;
    lamp(1, 2);
}
