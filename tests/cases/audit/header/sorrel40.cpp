// audit with sorrel40.json
#include "sorrel40.h"

namespace {

void send(std::uint8_t byte)
{
    while (!(UART0_STATUS & UART0_STATUS_EMPTY_MASK)) {
    }
    UART0_TX = byte;
}

std::uint8_t receive()
{
    while (!(UART0_STATUS & UART0_STATUS_RECEIVED_MASK)) {
    }
    return UART0_RX;
}

} // namespace

int main()
{
    std::uint16_t captured;
    CLOCK_ENABLE |= CLOCK_ENABLE_UART0_MASK | CLOCK_ENABLE_TMR1_MASK;
    UART0_DIVISOR = 103;
    UART0_CTRL = UART0_CTRL_RX_ENABLE_MASK | UART0_CTRL_TX_ENABLE_MASK;
    TMR1_COMPARE_WRITE(0x1234U);
    TMR1_CTRL = TMR1_CTRL_CLOCK_DIV64 | TMR1_CTRL_CLEAR_MASK;
    UART0_STATUS_SENT_CLEAR();
    for (;;) {
        TMR1_CAPTURE_READ_INTO(captured);
        send(static_cast<std::uint8_t>(captured >> 8));
        send(receive());
        TMR_FLAGS_CAPTURE_CLEAR();
        OUT_B = static_cast<std::uint8_t>(OUT_B ^ OUT_B_LED_MASK);
    }
}
