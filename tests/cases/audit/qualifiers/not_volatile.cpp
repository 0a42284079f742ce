// audit with sorrel14.xml
#include <cstdint>

namespace board {
auto &out_a = *reinterpret_cast<std::uint8_t volatile *>(0x35);
std::uint8_t &out_b = *reinterpret_cast<std::uint8_t *>(0x38); // finds not-volatile
} // namespace board

void stop()
{
    *reinterpret_cast<uint8_t *>(0x2A) = 0; // finds not-volatile
    *reinterpret_cast<volatile uint8_t *>(0x2B) = 0;
    board::out_b = 0;
}
