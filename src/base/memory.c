/* Memory that is kept, where the GNU C library is asked to. */
#define _DEFAULT_SOURCE /* madvise; NOLINT(bugprone-reserved-identifier) */
#include "base/memory.h"

#include <stdlib.h> /* tells which C library it is */

#if defined(__GLIBC__)
#include <malloc.h>
#include <stdint.h>
#include <sys/mman.h>

enum { TABLE_MOST_BYTES = 1 << 25, IDLE_MOST_BYTES = 1 << 30 };

/* The heap begins anywhere in a large page. What lies before the next one is kept out of use, but
 * for the little that a program needs which only shows its version. */
static void ask_large_pages(void)
{
#if defined(MADV_HUGEPAGE)
    enum { LARGE_PAGE = 1 << 21, ROOM = TABLE_MOST_BYTES - LARGE_PAGE, LITTLE = 1 << 14 };
    static char *unused;
    char *room = unused ? NULL : malloc(ROOM);
    if (!room)
        return;
    const size_t before = LARGE_PAGE - (uintptr_t)room % LARGE_PAGE;
    (void)madvise(room + before, (ROOM - before) / LARGE_PAGE * LARGE_PAGE, MADV_HUGEPAGE);
    unused = realloc(room, before > LITTLE ? before - LITTLE : 1);
#endif
}
#endif

void dawn_memory_keep(void)
{
#if defined(__GLIBC__)
    (void)mallopt(M_MMAP_THRESHOLD, TABLE_MOST_BYTES);
    (void)mallopt(M_TRIM_THRESHOLD, IDLE_MOST_BYTES);
    ask_large_pages();
#endif
}
