/* audit with sorrel14.xml */
/* Several ways to the same addresses; the assembler has the I/O numbers. */
#ifndef PORTS_H
#define PORTS_H
#ifdef __ASSEMBLER__
#define DIR_B 0x17
#define OUT_B 0x18
#else
#include <stdint.h>
#if __STDC_VERSION__ >= 199901L
#define DIR_B (*(volatile uint8_t *)0x37)
#define OUT_B (*(volatile uint8_t *)0x38)
#else
#define DIR_B (*(volatile unsigned char *)0x37)
#define OUT_B (*(volatile unsigned char *)0x38)
#endif
#endif
#endif
