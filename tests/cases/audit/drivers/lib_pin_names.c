/* audit with sorrel14.xml */
/* Pins by number as a hobby library has them: none of these is a bit of a register. */
#include <stdint.h>
#define PIN_LAMP 13
#define PIN_OPEN 4
#define PIN_CLOSE 5
#define LOW 0
#define HIGH 1
enum { INPUT, OUTPUT, INPUT_PULLED };
void pin_mode(uint8_t pin, uint8_t mode);
void write_pin(uint8_t pin, uint8_t level);

void setup(void)
{
    pin_mode(PIN_LAMP, OUTPUT);
    pin_mode(PIN_OPEN, OUTPUT);
    pin_mode(PIN_CLOSE, OUTPUT);
    write_pin(PIN_LAMP, HIGH);
}
