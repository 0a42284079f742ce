/* audit with motor.json */
/* Reading clears the faults: an |= reads them, and nobody has seen them. */
#define FAULTS (*(volatile unsigned char *)0x11)
#define CTRL (*(volatile unsigned char *)0x10)

unsigned char poll(void)
{
    unsigned char seen = FAULTS;
    FAULTS |= 1; /* finds read-has-a-side-effect */
    FAULTS &= ~2; /* finds read-has-a-side-effect */
    FAULTS = 0;
    CTRL |= 1;
    return seen;
}
