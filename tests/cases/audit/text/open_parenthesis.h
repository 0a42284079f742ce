/* audit with sorrel14.xml */
/* The last parenthesis is missing: what cannot be read is said. */
#define OUT_B (*(volatile unsigned char *)0x18 /* finds not-understood */
#define OUT_A (*(volatile unsigned char *)0x35)
