; audit with sorrel14.xml
; Numbers by hand, as assembler files had them before there were headers.
        .equ    DIR_B, 0x17
        .equ    OUT_B, 0x19             ; finds name-at-other-address
        .set    IN_B, 0x39
TMR0_CTRL = 0x0A
TMR0_COUNT = 0x0C                       ; finds name-at-other-address
        .equ    LIMIT, 200
        .equ    LED, 2

start:  bset    DIR_B, LED
        ret
