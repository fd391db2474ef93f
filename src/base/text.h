/* Growing text, and numbers read without asking the locale. */
#ifndef BASE_TEXT_H
#define BASE_TEXT_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

/* Growing text; {0} to start, dawn_text_release to end. data is always a C string once anything was
 * added. failed stays true after the first lost allocation. */
struct dawn_text {
    char *data;
    size_t size, capacity;
    bool failed;
};
void dawn_text_add(struct dawn_text *text, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
void dawn_text_vadd(struct dawn_text *text, const char *format, va_list arguments);
void dawn_text_add_bytes(struct dawn_text *text, const char *bytes, size_t size);
void dawn_text_release(struct dawn_text *text);
/* vasprintf in the "C" locale whatever the program's locale is: allocated, NULL when memory ran
 * out. Everything in this project that prints a number goes through here or through dawn_text_add.
 */
char *dawn_text_format(const char *format, va_list arguments);

/* Reads a decimal number at the start of s (blanks before it allowed): optional sign, digits, '.'
 * or ',' as the decimal mark, optional exponent. *end is set behind it. False when there is none.
 * Never hex, never "inf" or "nan", never the locale. A comma counts as decimal mark only when
 * digits follow it and no '.' stands in the number; "1,234,567" is refused. */
bool dawn_text_number(const char *s, const char **end, double *value);

/* Writes a finite number in the "C" manner. decimals >= 0: rounded to that many; -1: the shortest
 * text that dawn_text_number reads back as the same value. Never "-0". False when value is not
 * finite (out is "" then) or does not fit; 32 bytes are always enough for decimals = -1. */
bool dawn_text_from_number(char *out, size_t size, double value, int decimals);

/* Damerau-Levenshtein distance (adjacent transposition counts one), case-insensitive ASCII, capped
 * at most + 1. */
size_t dawn_text_distance(const char *a, const char *b, size_t most);

/* Copies src into dst of size bytes, always terminated; false when it did not fit. */
bool dawn_text_copy(char *dst, size_t size, const char *src);
/* The same of from..end without the blanks around it; false also when nothing is left. */
bool dawn_text_cut(char *dst, size_t size, const char *from, const char *end);

/* The number that count decimal digits make; -1 when another character, or the end, is among them.
 * count 1..9. */
int dawn_text_digits(const char *text, int count);

/* ASCII-only case-insensitive comparisons. */
bool dawn_text_same(const char *a, const char *b);
bool dawn_text_starts(const char *s, const char *prefix);

/* The whole file as one allocated C string (NUL added, not counted in *size). NULL on failure, with
 * errno set; EFBIG when it is larger than most bytes. */
char *dawn_text_read_file(const char *path, size_t most, size_t *size);

#endif
