# sorrel14.cmake: what a CMake build needs to know of Sorrel 14, the small 8-bit chip of the greenhouse controller
#
# Made by regwright from sorrel14.xml; change that file and emit again, not this one.
# For CMake 3.17 and later. No flag of any compiler is set here: give your own those names.
#
#   include(sorrel14.cmake)
#   target_link_libraries(program PRIVATE regwright_sorrel14)     # finds the header
#   regwright_check_size(program)      # fails the build when the program does not fit
#
# REGWRIGHT_SIZE is the size command of the toolchain that the program is built with,
# REGWRIGHT_LEAVE_OUT names further sections that lie in neither memory, with a blank between.

set(REGWRIGHT_CHIP "sorrel14")
set(REGWRIGHT_HEADERS "${CMAKE_CURRENT_LIST_DIR}")
set(REGWRIGHT_TARGET "sorrel14")
set(REGWRIGHT_INSTRUCTION_SET "sorrel8")
set(REGWRIGHT_PROGRAMMER_PART "s14")
# The clock of the CPU as the chip is delivered.
set(REGWRIGHT_CPU_DEFAULT_HZ 1000000)

# Where each memory starts in its space, and what it holds, in bytes.
# FLASH: program memory, 0x400 units of 16 bits in program space
set(REGWRIGHT_MEMORY_FLASH_FIRST 0x0000)
set(REGWRIGHT_MEMORY_FLASH_BYTES 2048)
# SRAM: SRAM
set(REGWRIGHT_MEMORY_SRAM_FIRST 0x0060)
set(REGWRIGHT_MEMORY_SRAM_BYTES 256)
# EEPROM: EEPROM
set(REGWRIGHT_MEMORY_EEPROM_FIRST 0x0000)
set(REGWRIGHT_MEMORY_EEPROM_BYTES 64)
# CONFIG: configuration bytes
set(REGWRIGHT_MEMORY_CONFIG_FIRST 0x0000)
set(REGWRIGHT_MEMORY_CONFIG_BYTES 3)

if(NOT TARGET regwright_sorrel14)
  add_library(regwright_sorrel14 INTERFACE)
  target_include_directories(regwright_sorrel14 INTERFACE "${REGWRIGHT_HEADERS}")
endif()

if(NOT DEFINED REGWRIGHT_SIZE)
  set(REGWRIGHT_SIZE "size")
endif()
if(NOT DEFINED REGWRIGHT_LEAVE_OUT)
  set(REGWRIGHT_LEAVE_OUT "$ENV{LEAVE_OUT}")
endif()

# The same for each chip: it looks at the variables where it is called.
function(regwright_check_size program)
  if(NOT DEFINED REGWRIGHT_CHIP)
    message(FATAL_ERROR "regwright_check_size: include the fragment of a chip in this folder first")
  endif()
  add_custom_command(
    TARGET ${program}
    POST_BUILD
    COMMAND
      "${CMAKE_COMMAND}" -E env "SIZE=${REGWRIGHT_SIZE}" "LEAVE_OUT=${REGWRIGHT_LEAVE_OUT}" sh
      "${REGWRIGHT_HEADERS}/${REGWRIGHT_CHIP}_size.sh" "$<TARGET_FILE:${program}>"
    VERBATIM)
endfunction()
