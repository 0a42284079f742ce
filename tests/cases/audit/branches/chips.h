/* audit with sorrel14.xml */
/* A file for two chips, held against one of them: the other's arm is told with its condition. */
#include <stdint.h>
#ifdef CHIP_SORREL14
#define OUT_B (*(volatile uint8_t *)0x38)
#define DIR_B (*(volatile uint8_t *)0x37)
#endif
#ifdef CHIP_SORREL40
#define OUT_B (*(volatile uint8_t *)0x30) /* finds name-at-other-address */
#define DIR_B (*(volatile uint8_t *)0x2F) /* finds name-at-other-address */
#endif
