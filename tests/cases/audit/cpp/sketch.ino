// audit with sorrel14.xml
// No includes, no prototypes: the builder adds them.
#define LAMP_LATCH (*(volatile uint8_t *)0x38)

void setup() {
  DIR_B |= 1 << OUT_B_LED_BITPOS;
}

void loop() {
  LAMP_LATCH ^= 1 << OUT_B_LED_BITPOS;
  delay(500);
  *(volatile uint8_t *)0x18 ^= 4;  // finds io-address-behind-pointer
}
