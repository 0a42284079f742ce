/* audit with sorrel14.xml */
/* Gewächshaus: Lüfter auf und zu, Fenster öffnen bei 25 °C. */
#include <stdint.h>
#define DIR_B (*(volatile uint8_t *)0x37) /* für Ausgänge */
#define OUT_B (*(volatile uint8_t *)0x18) /* Ausgänge, finds io-address-behind-pointer */
#define IN_B (*(volatile uint8_t *)0x39)
static const char name[] = "Lüfter";

void zu(void)
{
    OUT_B = OUT_B_VENT_CLOSE_MASK; // schließen
    OUT_B |= OUT_B_LED_BITPOS; /* finds position-as-mask (fälschlich) */
}
