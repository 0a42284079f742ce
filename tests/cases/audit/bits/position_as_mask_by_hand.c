/* audit with sorrel14.xml */
/* LED is right as a position, and used as if it were a mask: that is VENT_CLOSE. */
#define OUT_B (*(volatile unsigned char *)0x38)
#define LED 2

void lamp_on(void)
{
    OUT_B |= LED; /* finds position-as-mask */
    OUT_B |= 1 << LED;
}
