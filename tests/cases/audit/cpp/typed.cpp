// audit with sorrel14.xml
// Registers as types; the address is an argument of a template.
#include <cstdint>

template <std::uintptr_t Address, typename T = std::uint8_t>
struct Register {
    static volatile T &value() { return *reinterpret_cast<volatile T *>(Address); }
    static void set(T mask) { value() |= mask; }
    static void clear(T mask) { value() &= static_cast<T>(~mask); }
};

using OutB = Register<0x38>;
using DirB = Register<0x37>;

int main()
{
    DirB::set(0x07);
    OutB::clear(1u << 2);
    OutB::value() = 0;
}
