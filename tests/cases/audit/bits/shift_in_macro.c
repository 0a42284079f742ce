/* audit with sorrel32.xml */
/* The macro is wrong, not the line that uses it. */
#include "sorrel32.h"
#define RUN (1 << 31) /* finds shift-overflows */
#define RIGHT (1U << 31)

void start(void)
{
    COPY_LANE0_SETUP = RUN;
    COPY_LANE1_SETUP = RIGHT;
}
