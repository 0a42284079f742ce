/* A vent of the greenhouse: opens when it is warm, closes when it is cold. */
#ifndef VENTS_H
#define VENTS_H

/* What the program is built for; from the build, which has it from the chip's fragment. */
#ifndef CPU_CLOCK_HZ
#error "define CPU_CLOCK_HZ"
#endif

#ifdef ON_A_PC
extern unsigned char board[];
#define SORREL14_REG8(address) (board[address])
#define SORREL14_READ8(address) (board[address])
#define SORREL40_REG8(address) (board[address])
#define SORREL40_READ8(address) (board[address])
#endif
#include "sorrel.h"

void vents_start(void);
void vents_tick(unsigned temperature);

#endif
