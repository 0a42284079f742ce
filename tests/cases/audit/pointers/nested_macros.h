/* audit with sorrel14.xml */
/* The distance is in one macro; the last line goes around it. */
#ifndef BOARD_H
#define BOARD_H
#include <stdint.h>
#define IO_START 0x20
#define MEM8(address) (*(volatile uint8_t *)(address))
#define IO8(number) MEM8((number) + IO_START)
#define DIR_A IO8(0x14)
#define OUT_A IO8(0x15)
#define IN_A IO8(0x16)
#define DIR_B IO8(0x17)
#define OUT_B MEM8(0x18) /* finds io-address-behind-pointer */
#endif
