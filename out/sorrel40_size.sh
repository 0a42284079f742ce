#!/bin/sh
# sorrel40_size.sh: tells whether a program fits into Sorrel 40, the large 8-bit chip of the greenhouse controller
#
# Made by regwright from sorrel40.json; change that file and emit again, not this one.
#
#   SIZE=my-size sh sorrel40_size.sh program.elf
#
# SIZE is the size command of the toolchain, with columns text, data and bss. Initialised data counts
# twice: it stands in the program memory and is copied to RAM. The stack is not counted.
#
# Sections for the chip's other memories are not counted, though size has them in its columns:
#   .eeprom .config .fuse .lock .signature
# LEAVE_OUT in the environment adds names to these, with blanks between.
# A name also stands for those with a dot and more behind it. How large such sections are, SIZE -A
# tells; where SIZE knows no -A, all is counted, and the script says so. Which column has them, -A does
# not tell: they are taken from what data has beyond own_data below, then from what bss has beyond
# own_bss, then from text. That is exact when no other section is for data in RAM.
#
# Exits with 0 when it fits, 1 when it does not, 2 when that cannot be told.

own_data='.data .sdata .tdata .init_array .fini_array .got'
own_bss='.bss .sbss .tbss .noinit .stack .heap COMMON'
leave_out=".eeprom .config .fuse .lock .signature ${LEAVE_OUT-}"

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

# one_of NAMES NAME: tells whether NAME is one of NAMES, or one of them with a dot and more.
one_of() {
  for known in $1; do
    case $2 in "$known" | "$known".*) return 0 ;; esac
  done
  return 1
}

# least A B: prints the smaller, but no less than 0.
least() {
  if [ "$1" -le 0 ]; then echo 0; elif [ "$1" -le "$2" ]; then echo "$1"; else echo "$2"; fi
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
text=$2 data=$3 bss=$4

# Lines of -A: the name of a section, its size in bytes, its address; and some without a number.
left=0 left_names='' rest_of_data=$data rest_of_bss=$bss
if sections=$(LC_ALL=C "${SIZE:-size}" -A "$1" 2>/dev/null); then
  while read -r name bytes _; do
    case $bytes in '' | *[!0-9]*) continue ;; esac
    if one_of "$leave_out" "$name"; then
      left=$((left + bytes)) left_names="$left_names $name"
    elif one_of "$own_data" "$name"; then
      rest_of_data=$((rest_of_data - bytes))
    elif one_of "$own_bss" "$name"; then
      rest_of_bss=$((rest_of_bss - bytes))
    fi
  done <<LINES
$sections
LINES
elif [ "$leave_out" != " " ]; then
  printf '%s\n' "sorrel40_size.sh: ${SIZE:-size} knows no -A: no section is left out" >&2
fi
from_data=$(least "$rest_of_data" "$left")
from_bss=$(least "$rest_of_bss" $((left - from_data)))
from_text=$((left - from_data - from_bss))
[ "$from_text" -le "$text" ] || fail "${SIZE:-size} -A lists more to leave out than there is"
program=$((text - from_text + data - from_data))
memory=$((data - from_data + bss - from_bss))
fits=0
part "program in FLASH" "$program" 16384 || fits=1
part "data in SRAM" "$memory" 1280 || fits=1
[ "$left" -eq 0 ] || printf '%s\n' "not counted: $left bytes in$left_names"
[ "$fits" -eq 0 ] || printf '%s\n' "$1 does not fit into sorrel40" >&2
exit "$fits"
