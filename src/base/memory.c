/* Memory that is kept, where the GNU C library is asked to. */
#define _DEFAULT_SOURCE /* madvise; NOLINT(bugprone-reserved-identifier) */
#include "base/memory.h"

#include <stdlib.h> /* tells which C library it is */

#if defined(__GLIBC__)
#include <malloc.h>
#include <stdint.h>
#include <sys/mman.h>
#include <unistd.h>

enum { TABLE_MOST_BYTES = 1 << 25, IDLE_MOST_BYTES = 1 << 30, HEAP_BYTES = 1 << 29 };

/* The heap begins anywhere in a large page. What lies before the next one is kept out of use, but
 * for the little that a program needs which only shows its version. */
static void ask_large_pages(void)
{
#if defined(MADV_HUGEPAGE)
    enum { LARGE_PAGE = 1 << 21, LITTLE = 1 << 14, MORE_THAN_THERE_IS = 1 << 18 };
    static char *unused;
    if (unused || !mallopt(M_ARENA_MAX, 1) || !mallopt(M_TOP_PAD, HEAP_BYTES))
        return;
    unused = malloc(MORE_THAN_THERE_IS);
    (void)mallopt(M_TOP_PAD, MORE_THAN_THERE_IS); /* later, or where so much is refused */
    const char *end = sbrk(0);
    if (!unused || end < unused || end - unused < HEAP_BYTES)
        return; /* it comes from elsewhere */
    /* A large page that has been written to already stays a lot of small ones. */
    char *first = unused + MORE_THAN_THERE_IS + LITTLE;
    first += LARGE_PAGE - (uintptr_t)first % LARGE_PAGE;
    (void)madvise(first, (size_t)(end - first) / LARGE_PAGE * LARGE_PAGE, MADV_HUGEPAGE);
    unused = realloc(unused, (size_t)(first - unused) - LITTLE);
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
