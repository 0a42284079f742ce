// audit with sorrel14.xml
#include <cstdint>

namespace sorrel {
constexpr std::uintptr_t kDirB = 0x37;
constexpr std::uintptr_t kOutB = 0x20 + 0x18;
inline volatile std::uint8_t &reg(std::uintptr_t at) { return *reinterpret_cast<volatile std::uint8_t *>(at); }
enum class Bits : std::uint8_t { Lamp = 2, Open = 0, Close = 1 };
constexpr std::uint8_t mask(Bits bit) { return static_cast<std::uint8_t>(1u << static_cast<unsigned>(bit)); }
} // namespace sorrel

void lamp()
{
    *reinterpret_cast<volatile std::uint8_t *>(sorrel::kDirB) |= 4;
    *reinterpret_cast<volatile std::uint8_t *>(sorrel::kOutB) |= 4;
    sorrel::reg(sorrel::kOutB) &= 0x3B;
    *(volatile std::uint8_t *)(sorrel::kOutB - 0x20) |= 4; // finds io-address-behind-pointer
}
