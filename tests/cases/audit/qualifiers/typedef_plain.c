/* audit with sorrel14.xml */
/* The typedef sounds as if it were volatile. */
typedef unsigned char reg8;
typedef volatile reg8 vreg8;
#define OUT_A (*(vreg8 *)0x35)
#define OUT_B (*(reg8 *)0x38) /* finds not-volatile */
#define DIR_B (*(vreg8 *)0x37)
