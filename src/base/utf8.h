/* Whole characters in UTF-8 text. */
#ifndef BASE_UTF8_H
#define BASE_UTF8_H

#include <stddef.h>

/* The length of the character at s, 1 to 4 bytes; 0 when the bytes there are none. Surrogates,
 * overlong forms and what lies beyond U+10FFFF are none (RFC 3629). */
size_t dawn_utf8_length(const char *s);

#endif
