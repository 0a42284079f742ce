// audit with sorrel14.xml
// Digit separators of C++, and casts that are not C's.
#include <cstdint>
#define OUT_B (*reinterpret_cast<volatile std::uint8_t *>(0b0001'1000)) // finds io-address-behind-pointer
#define DIR_B (*reinterpret_cast<volatile std::uint8_t *>(0b0011'0111))
#define ADC_CTRL (*(volatile uint8_t *)0x5'5u)
#define ADC_MUX (*(volatile uint8_t *)0x5'6)

void convert()
{
    ADC_CTRL = ADC_CTRL_ENABLE_MASK | ADC_CTRL_START_MASK;
}
