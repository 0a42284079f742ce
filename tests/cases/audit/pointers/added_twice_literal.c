/* audit with sorrel14.xml */
/* 0x58 is the converter's in data space; the name says what was meant. */
#define OUT_B (*(volatile unsigned char *)0x58) /* finds pointer-offset-added-twice */
#define DIR_B (*(volatile unsigned char *)0x37)
#define IN_B (*(volatile unsigned char *)0x39)

void lamp_on(void)
{
    OUT_B |= 4;
}
