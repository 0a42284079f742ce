/* audit with sorrel14.xml */
/* A name that means nothing: the number alone tells. */
#define LAMP (*(volatile unsigned char *)0x18) /* finds io-address-behind-pointer */
#define LAMP_DIRECTION (*(volatile unsigned char *)0x37)

void lamp_on(void)
{
    LAMP_DIRECTION |= 4;
    LAMP |= 4;
}
