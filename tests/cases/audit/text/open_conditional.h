/* audit with sorrel14.xml */
#if defined(LAMP) /* finds not-understood */
#define OUT_B (*(volatile unsigned char *)0x38)
