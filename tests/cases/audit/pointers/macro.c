/* audit with sorrel14.xml */
/* One number of the I/O column among numbers of the data column. */
#define DIR_B (*(volatile unsigned char *)0x37)
#define OUT_B (*(volatile unsigned char *)0x18) /* finds io-address-behind-pointer */
#define IN_B (*(volatile unsigned char *)0x39)
#define OUT_A (*(volatile unsigned char *)0x35)

void lamp_on(void)
{
    DIR_B |= 1 << 2;
    OUT_B |= 1 << 2;
}
