// audit with sorrel14.xml
#include <cstdint>

struct Port {
    volatile std::uint8_t dir;
    volatile std::uint8_t out;
    volatile std::uint8_t in;
};

static Port &first = *reinterpret_cast<Port *>(0x34);
static Port *const second = reinterpret_cast<Port *>(0x17); // finds io-address-behind-pointer

void start()
{
    first.dir = 0xFF;
    second->dir = 0x07;
}
