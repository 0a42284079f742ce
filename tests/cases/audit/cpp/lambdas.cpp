// audit with sorrel14.xml
#include "sorrel14.h"

template <typename F> void times(int n, F &&f)
{
    for (int i = 0; i < n; ++i)
        f(i);
}

int main()
{
    times(3, [](int i) { OUT_B = static_cast<uint8_t>(i); });
    times(2, [=](int) { OUT_B |= OUT_B_LED_BITPOS; }); // finds position-as-mask
    auto toggle = [] { OUT_B ^= OUT_B_LED_MASK; };
    toggle();
    return OUT_B & OUT_B_LED_MASK ? 1 : 0;
}
