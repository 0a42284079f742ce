/* audit with sorrel14.xml */
/* Positions here, masks there: each is right in its own way. */
#include <stdint.h>
#define OUT_B (*(volatile uint8_t *)0x38)
#define TMR_IRQ (*(volatile uint8_t *)0x2D)
#define LED 2
#define VENT_OPEN_MASK 0x01
#define VENT_CLOSE_BIT 1
#define bit(n) (1U << (n))
enum { MATCH = 0x10, OVERFLOW = 1 << 3 };

void run(void)
{
    OUT_B |= bit(LED);
    OUT_B |= VENT_OPEN_MASK;
    OUT_B &= (uint8_t)~bit(VENT_CLOSE_BIT);
    TMR_IRQ = MATCH | OVERFLOW;
}
