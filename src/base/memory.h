/* How the C library keeps what programs give back. */
#ifndef BASE_MEMORY_H
#define BASE_MEMORY_H

/* For programs that run many seasons, before the first: what one gives back serves the next. Left
 * to itself the C library hands every table of some megabytes to the kernel and asks for it again,
 * page by page: a third of a study's time. Does nothing where the C library has no such setting. */
void dawn_memory_keep(void);

#endif
