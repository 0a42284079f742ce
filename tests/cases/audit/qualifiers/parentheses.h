/* audit with sorrel14.xml */
#include <stdint.h>
#define OUT_A *(volatile uint8_t *)0x35 /* finds macro-without-parentheses */
#define DIR_B_DATA_ADDR 0x17 + 0x20 /* finds macro-without-parentheses */
#define OUT_B_LED_MASK 1 << 2 /* finds macro-without-parentheses */
#define OUT_B_PULLS_MASK 0x08 | 0x10 | 0x20 /* finds macro-without-parentheses */
#define OUT_B_VENT_OPEN_MASK (1 << 0)
#define OUT_B_VENT_CLOSE_MASK 0x02
#define DIR_B (*(volatile uint8_t *)(DIR_B_DATA_ADDR))
