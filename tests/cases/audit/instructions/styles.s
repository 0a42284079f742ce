# audit with sorrel14.xml
# Labels, strings, local numbers, comments of every kind: nothing in them is an instruction's.
/* out 0x38, r16 */
        .ascii  "out 0x38, r16"
        .byte   0x18, 0x38
        .section .text
1:      in      r16, 0x19       ; out 0x38, r16
        out     0x18, r16       // bset 0x38, 2
2:      BSET    0x18, 2
        .if 0x38 > 0x20
        nop
        .endif
        load_number r16, 0x38      ; a number like any other
        cmp     r16, 0x18
        go      1b
