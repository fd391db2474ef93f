/* How the C library gets its memory and keeps what programs give back. */
#ifndef BASE_MEMORY_H
#define BASE_MEMORY_H

/* For programs, before they ask for any memory.
 *
 * What one season gives back serves the next: left to itself the C library hands every table of
 * some megabytes to the kernel and asks for it again, page by page, a third of a study's time.
 *
 * And the first half a gigabyte comes in large pages where the kernel has them, as far as it is
 * used; all threads take from it. For a page costs a fault when it is first written to, up to 12 us
 * on a virtual machine: more than half the time to read a year of weather, a twentieth of a
 * season's, and what kept two threads from being twice as fast as one.
 *
 * Does nothing where the C library or the kernel has no such setting. */
void dawn_memory_keep(void);

#endif
