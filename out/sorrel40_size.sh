#!/bin/sh
# sorrel40_size.sh: tells whether a program fits into Sorrel 40, the large 8-bit chip of the greenhouse controller
#
# Made by regwright from sorrel40.json; change that file and emit again, not this one.
#
#   SIZE=my-size sh sorrel40_size.sh program.elf
#
# SIZE is the size command of the toolchain, with columns text, data and bss. Initialised data counts
# twice: it stands in the program memory and is copied to RAM. The stack is not counted.
# Exits with 0 when it fits, 1 when it does not, 2 when that cannot be told.

fail() {
  printf '%s\n' "sorrel40_size.sh: $1" >&2
  exit 2
}

# part WHAT USED HELD: prints a line, and fails when more is used than is held.
part() {
  tenths=$((($2 * 1000 + $3 / 2) / $3))
  printf '%s: %s of %s bytes, %s.%s %%\n' "$1" "$2" "$3" $((tenths / 10)) $((tenths % 10))
  [ "$2" -le "$3" ]
}

[ $# -eq 1 ] || fail "give one program"
[ -r "$1" ] || fail "$1 cannot be read"
sizes=$(LC_ALL=C "${SIZE:-size}" "$1") || fail "${SIZE:-size} cannot tell the size of $1"
set -f
# The second line has the numbers; words are split on purpose.
# shellcheck disable=SC2046
set -- "$1" $(printf '%s\n' "$sizes" | sed -n '2p')
for number in "${2:-none}" "${3:-none}" "${4:-none}"; do
  case $number in
    *[!0-9]*) fail "${SIZE:-size} does not print text, data and bss in its second line" ;;
  esac
done
program=$(($2 + $3))
memory=$(($3 + $4))
fits=0
part "program in FLASH" "$program" 16384 || fits=1
part "data in SRAM" "$memory" 1280 || fits=1
[ "$fits" -eq 0 ] || printf '%s\n' "$1 does not fit into sorrel40" >&2
exit "$fits"
