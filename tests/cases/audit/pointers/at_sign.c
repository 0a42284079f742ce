/* audit with sorrel14.xml */
/* The placement that some compilers for small chips have. */
volatile unsigned char DIR_B @ 0x37;
volatile unsigned char OUT_B @ 0x18; /* finds io-address-behind-pointer */
volatile unsigned char IN_B @ 57;
