# sorrel14.mk: what a Makefile needs to know of Sorrel 14, the small 8-bit chip of the greenhouse controller
#
# Made by regwright from sorrel14.xml; change that file and emit again, not this one.
#
#   include sorrel14.mk
#   CFLAGS += -I$(REGWRIGHT_HEADERS)
#   all: program.elf.fits       # holds the program's size against the chip's memories
#
# In a recipe, $(REGWRIGHT_CHECK_SIZE) and a program do the same. REGWRIGHT_SIZE is the size
# command of the toolchain that the program is built with, REGWRIGHT_LEAVE_OUT names further sections
# that lie in neither memory.

ifeq ($(origin REGWRIGHT_CHIP),file)
ifneq ($(REGWRIGHT_CHIP),sorrel14)
$(error sorrel14.mk comes behind $(REGWRIGHT_CHIP).mk, but a program is built for one chip)
endif
endif

REGWRIGHT_CHIP := sorrel14
REGWRIGHT_HEADERS := $(patsubst %/,%,$(dir $(lastword $(MAKEFILE_LIST))))
REGWRIGHT_TARGET := sorrel14
REGWRIGHT_INSTRUCTION_SET := sorrel8
REGWRIGHT_PROGRAMMER_PART := s14
# The clock of the CPU as the chip is delivered.
REGWRIGHT_CPU_DEFAULT_HZ := 1000000

# Where each memory starts in its space, and what it holds, in bytes.
# FLASH: program memory, 0x400 units of 16 bits in program space
REGWRIGHT_MEMORY_FLASH_FIRST := 0x0000
REGWRIGHT_MEMORY_FLASH_BYTES := 2048
# SRAM: SRAM
REGWRIGHT_MEMORY_SRAM_FIRST := 0x0060
REGWRIGHT_MEMORY_SRAM_BYTES := 256
# EEPROM: EEPROM
REGWRIGHT_MEMORY_EEPROM_FIRST := 0x0000
REGWRIGHT_MEMORY_EEPROM_BYTES := 64
# CONFIG: configuration bytes
REGWRIGHT_MEMORY_CONFIG_FIRST := 0x0000
REGWRIGHT_MEMORY_CONFIG_BYTES := 3

REGWRIGHT_SIZE ?= size
REGWRIGHT_LEAVE_OUT ?= $(LEAVE_OUT)
REGWRIGHT_CHECK_SIZE = SIZE='$(REGWRIGHT_SIZE)' LEAVE_OUT='$(REGWRIGHT_LEAVE_OUT)' sh '$(REGWRIGHT_HEADERS)/sorrel14_size.sh'

# A pattern, so that including this file does not decide what make builds first.
%.fits: %
	$(REGWRIGHT_CHECK_SIZE) '$<'
	@: > '$@'
