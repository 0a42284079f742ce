# sorrel32.cmake: what a CMake build needs to know of Sorrel 32, the 32-bit chip of the greenhouse gateway
#
# Made by regwright from sorrel32.xml; change that file and emit again, not this one.
# For CMake 3.17 and later. No flag of any compiler is set here: give your own those names.
#
#   include(sorrel32.cmake)
#   target_link_libraries(program PRIVATE regwright_sorrel32)     # finds the header
#   regwright_check_size(program)      # fails the build when the program does not fit
#
# REGWRIGHT_SIZE is the size command of the toolchain that the program is built with,
# REGWRIGHT_LEAVE_OUT names further sections that lie in neither memory, with a blank between.

set(REGWRIGHT_CHIP "sorrel32")
set(REGWRIGHT_HEADERS "${CMAKE_CURRENT_LIST_DIR}")
# The clock of the CPU as the chip is delivered.
set(REGWRIGHT_CPU_DEFAULT_HZ 12000000)

# Where each memory starts in its space, and what it holds, in bytes.
# ROM: program memory
set(REGWRIGHT_MEMORY_ROM_FIRST 0x10000000)
set(REGWRIGHT_MEMORY_ROM_BYTES 262144)
# RAM: RAM
set(REGWRIGHT_MEMORY_RAM_FIRST 0x30000000)
set(REGWRIGHT_MEMORY_RAM_BYTES 49152)

if(NOT TARGET regwright_sorrel32)
  add_library(regwright_sorrel32 INTERFACE)
  target_include_directories(regwright_sorrel32 INTERFACE "${REGWRIGHT_HEADERS}")
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
