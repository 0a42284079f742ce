// audit with sorrel14.xml
#include <cstdint>

class Lamp {
public:
    static constexpr std::uint8_t OUT_B_LED_BITPOS = 2;
    static constexpr std::uint8_t OUT_B_LED_MASK = 1 << 3; // finds bit-of-another-name
    void on() const { *latch |= 4; }

private:
    volatile std::uint8_t *const latch = reinterpret_cast<volatile std::uint8_t *>(0x18); // finds io-address-behind-pointer
};
