/* audit with sorrel14.xml */
/* Types of one's own: word has 16 bits here, byte and u8 have 8. */
typedef unsigned char byte;
typedef unsigned int word;
typedef byte u8;
typedef volatile u8 vu8;
#define OUT_A (*(volatile byte *)0x35)
#define DIR_A (*(vu8 *)0x34)
#define OUT_B (*(volatile word *)0x38) /* finds access-width */
#define DIR_B (*(byte *)0x37) /* finds not-volatile */
#define IN_B (*(volatile u8 *)0x39)
