# sorrel32.mk: what a Makefile needs to know of Sorrel 32, the 32-bit chip of the greenhouse gateway
#
# Made by regwright from sorrel32.xml; change that file and emit again, not this one.
#
#   include sorrel32.mk
#   CFLAGS += -I$(REGWRIGHT_HEADERS)
#   all: program.elf.fits       # holds the program's size against the chip's memories
#
# In a recipe, $(REGWRIGHT_CHECK_SIZE) and a program do the same. REGWRIGHT_SIZE is the size
# command of the toolchain that the program is built with, REGWRIGHT_LEAVE_OUT names further sections
# that lie in neither memory.

ifeq ($(origin REGWRIGHT_CHIP),file)
ifneq ($(REGWRIGHT_CHIP),sorrel32)
$(error sorrel32.mk comes behind $(REGWRIGHT_CHIP).mk, but a program is built for one chip)
endif
endif

REGWRIGHT_CHIP := sorrel32
REGWRIGHT_HEADERS := $(patsubst %/,%,$(dir $(lastword $(MAKEFILE_LIST))))
# The clock of the CPU as the chip is delivered.
REGWRIGHT_CPU_DEFAULT_HZ := 12000000

# Where each memory starts in its space, and what it holds, in bytes.
# ROM: program memory
REGWRIGHT_MEMORY_ROM_FIRST := 0x10000000
REGWRIGHT_MEMORY_ROM_BYTES := 262144
# RAM: RAM
REGWRIGHT_MEMORY_RAM_FIRST := 0x30000000
REGWRIGHT_MEMORY_RAM_BYTES := 49152

REGWRIGHT_SIZE ?= size
REGWRIGHT_LEAVE_OUT ?= $(LEAVE_OUT)
REGWRIGHT_CHECK_SIZE = SIZE='$(REGWRIGHT_SIZE)' LEAVE_OUT='$(REGWRIGHT_LEAVE_OUT)' sh '$(REGWRIGHT_HEADERS)/sorrel32_size.sh'

# A pattern, so that including this file does not decide what make builds first.
%.fits: %
	$(REGWRIGHT_CHECK_SIZE) '$<'
	@: > '$@'
