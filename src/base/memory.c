/* Memory that is kept, where the GNU C library is asked to. */
#include "base/memory.h"

#include <stdlib.h> /* tells which C library it is */

#if defined(__GLIBC__)
#include <malloc.h>
#endif

void dawn_memory_keep(void)
{
#if defined(__GLIBC__)
    enum { TABLE_MOST_BYTES = 1 << 25, IDLE_MOST_BYTES = 1 << 30 };
    (void)mallopt(M_MMAP_THRESHOLD, TABLE_MOST_BYTES);
    (void)mallopt(M_TRIM_THRESHOLD, IDLE_MOST_BYTES);
#endif
}
