; audit with sorrel40.json
; The equates are right: for load and store. Ports take other numbers.
        .equ    OUT_B, 0x30
        .equ    DIR_B, 0x2F
        .equ    IN_B, 0x11

start:  store   DIR_B, r16
        store   OUT_B, r16
        in      r17, IN_B
        out     OUT_B, r16              ; finds data-address-in-instruction
        bset    DIR_B, 7                ; finds data-address-in-instruction
        ret
