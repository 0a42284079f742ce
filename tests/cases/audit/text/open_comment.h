/* audit with sorrel14.xml */
/* finds-next not-understood */
/* and this comment never ends,
#define OUT_B (*(volatile unsigned char *)0x18)
