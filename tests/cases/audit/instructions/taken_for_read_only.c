/* audit with sorrel14.xml */
/* Nobody writes a read-only register: the data address of another one was meant. */
void lamp(void)
{
    __asm__ volatile("out 0x38, r16"); /* finds data-address-in-instruction */
    __asm__ volatile("in r16, 0x38");
}
