/* audit with sorrel14.xml */
/* Names without their register, as boards have them. */
#define OUT_B (*(volatile unsigned char *)0x38)
#define LED 1 /* finds bit-of-another-name */
#define VENT_OPEN 0x01
#define VENT_CLOSE 0x02

void stop(void)
{
    OUT_B &= ~(VENT_OPEN | VENT_CLOSE);
}
