# sorrel40.mk: what a Makefile needs to know of Sorrel 40, the large 8-bit chip of the greenhouse controller
#
# Made by regwright from sorrel40.json; change that file and emit again, not this one.
#
#   include sorrel40.mk
#   CFLAGS += -I$(REGWRIGHT_HEADERS)
#   all: program.elf.fits       # holds the program's size against the chip's memories
#
# In a recipe, $(REGWRIGHT_CHECK_SIZE) and a program do the same. REGWRIGHT_SIZE is the size
# command of the toolchain that the program is built with, REGWRIGHT_LEAVE_OUT names further sections
# that lie in neither memory.

ifeq ($(origin REGWRIGHT_CHIP),file)
ifneq ($(REGWRIGHT_CHIP),sorrel40)
$(error sorrel40.mk comes behind $(REGWRIGHT_CHIP).mk, but a program is built for one chip)
endif
endif

REGWRIGHT_CHIP := sorrel40
REGWRIGHT_HEADERS := $(patsubst %/,%,$(dir $(lastword $(MAKEFILE_LIST))))
REGWRIGHT_TARGET := sorrel40
REGWRIGHT_INSTRUCTION_SET := sorrel8x
REGWRIGHT_PROGRAMMER_PART := s40
# The clock of the CPU as the chip is delivered.
REGWRIGHT_CPU_DEFAULT_HZ := 1000000

# Where each memory starts in its space, and what it holds, in bytes.
# FLASH: program memory, 0x2000 units of 16 bits in program space
REGWRIGHT_MEMORY_FLASH_FIRST := 0x0000
REGWRIGHT_MEMORY_FLASH_BYTES := 16384
# SRAM: SRAM
REGWRIGHT_MEMORY_SRAM_FIRST := 0x0140
REGWRIGHT_MEMORY_SRAM_BYTES := 1280
# EEPROM: EEPROM
REGWRIGHT_MEMORY_EEPROM_FIRST := 0x0000
REGWRIGHT_MEMORY_EEPROM_BYTES := 512
# CONFIG: configuration bytes
REGWRIGHT_MEMORY_CONFIG_FIRST := 0x0000
REGWRIGHT_MEMORY_CONFIG_BYTES := 4

REGWRIGHT_SIZE ?= size
REGWRIGHT_LEAVE_OUT ?= $(LEAVE_OUT)
REGWRIGHT_CHECK_SIZE = SIZE='$(REGWRIGHT_SIZE)' LEAVE_OUT='$(REGWRIGHT_LEAVE_OUT)' sh '$(REGWRIGHT_HEADERS)/sorrel40_size.sh'

# A pattern, so that including this file does not decide what make builds first.
%.fits: %
	$(REGWRIGHT_CHECK_SIZE) '$<'
	@: > '$@'
