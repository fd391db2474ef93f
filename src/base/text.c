/* Growing text, and numbers read without asking the locale. */
#include "base/text.h"

#include <ctype.h>
#include <errno.h>
#include <locale.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static char lower(char c)
{
    if (c >= 'A' && c <= 'Z')
        return (char)(c - 'A' + 'a');
    return c;
}

/* The C locale for this thread only, so that a program around us may set what it likes. */
static locale_t enter_c_locale(locale_t *c)
{
    *c = newlocale(LC_ALL_MASK, "C", (locale_t)0);
    return *c == (locale_t)0 ? (locale_t)0 : uselocale(*c);
}

static void leave_c_locale(locale_t c, locale_t before)
{
    if (c == (locale_t)0)
        return;
    (void)uselocale(before);
    freelocale(c);
}

/* ---- growing text -------------------------------------------------------------------------- */

char *dawn_text_format(const char *format, va_list arguments)
{
    locale_t c = (locale_t)0;
    const locale_t before = enter_c_locale(&c);
    va_list again;
    va_copy(again, arguments);
    const int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    char *out = length < 0 ? NULL : malloc((size_t)length + 1);
    if (out)
        (void)vsnprintf(out, (size_t)length + 1, format, arguments);
    leave_c_locale(c, before);
    return out;
}

static bool text_reserve(struct dawn_text *text, size_t more)
{
    if (more >= SIZE_MAX / 2 - text->size) {
        text->failed = true;
        return false;
    }
    const size_t need = text->size + more + 1;
    if (need <= text->capacity)
        return true;
    size_t capacity = text->capacity ? text->capacity : 64;
    while (capacity < need)
        capacity *= 2;
    char *data = realloc(text->data, capacity);
    if (!data) {
        text->failed = true;
        return false;
    }
    text->data = data;
    text->capacity = capacity;
    return true;
}

void dawn_text_add_bytes(struct dawn_text *text, const char *bytes, size_t size)
{
    if (!text_reserve(text, size))
        return;
    if (size)
        memcpy(text->data + text->size, bytes, size);
    text->size += size;
    text->data[text->size] = '\0';
}

void dawn_text_vadd(struct dawn_text *text, const char *format, va_list arguments)
{
    char *more = dawn_text_format(format, arguments);
    if (!more) {
        text->failed = true;
        return;
    }
    dawn_text_add_bytes(text, more, strlen(more));
    free(more);
}

void dawn_text_add(struct dawn_text *text, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    dawn_text_vadd(text, format, arguments);
    va_end(arguments);
}

void dawn_text_release(struct dawn_text *text)
{
    free(text->data);
    *text = (struct dawn_text){0};
}

/* ---- numbers ------------------------------------------------------------------------------- */

/* A number taken apart. */
struct parts {
    uint64_t digits; /* all digits as one whole number ... */
    int significant; /* ... which is exact while there are at most 18 of them */
    int exponent;    /* of ten */
    bool negative;
};

/* Takes a run of digits, perhaps none. */
static const char *take_digits(struct parts *parts, const char *s)
{
    for (; is_digit(*s); s++) {
        parts->significant += parts->significant > 0 || *s != '0';
        if (parts->significant <= 18)
            parts->digits = parts->digits * 10 + (uint64_t)(*s - '0');
    }
    return s;
}

static const char *take_sign(struct parts *parts, const char *s)
{
    static const char minus_sign[] = "\xE2\x88\x92"; /* U+2212, what word processors make of '-' */
    if (strncmp(s, minus_sign, 3) == 0 || *s == '-') {
        parts->negative = true;
        return s + (*s == '-' ? 1 : 3);
    }
    return *s == '+' ? s + 1 : s;
}

/* Whole digits, the mark and what stands behind it. NULL when this is no number. */
static const char *take_mantissa(struct parts *parts, const char *s)
{
    const char *from = s;
    s = take_digits(parts, s);
    bool any = s > from;
    const char mark = *s;
    if (mark == '.' ? any || is_digit(s[1]) : mark == ',' && any && is_digit(s[1])) {
        const char *behind = s + 1;
        s = take_digits(parts, behind);
        parts->exponent = -(int)(s - behind);
        any = any || s > behind;
        /* "1,234,567", "1,234.5", "12.03.2026": not what a decimal mark looks like. */
        if ((*s == '.' || (*s == ',' && mark == ',')) && is_digit(s[1]))
            return NULL;
    }
    return any ? s : NULL;
}

static const char *take_exponent(struct parts *parts, const char *s)
{
    if (*s != 'e' && *s != 'E')
        return s;
    const char *digit = s + 1 + (s[1] == '+' || s[1] == '-');
    if (!is_digit(*digit))
        return s;
    int exponent = 0;
    for (; is_digit(*digit); digit++)
        if (exponent < 100000)
            exponent = exponent * 10 + (*digit - '0');
    parts->exponent += s[1] == '-' ? -exponent : exponent;
    return digit;
}

/* No number that means anything is written longer. */
enum { NUMBER_LENGTH = 400 };

/* The slow but always correctly rounded way. */
static double library_value(const char *from, size_t length)
{
    char plain[NUMBER_LENGTH];
    memcpy(plain, from, length);
    plain[length] = '\0';
    char *comma = strchr(plain, ',');
    if (comma)
        *comma = '.';
    locale_t c = (locale_t)0;
    const locale_t before = enter_c_locale(&c);
    if (c == (locale_t)0)
        return (double)NAN;
    const int kept = errno;
    const double value = strtod(plain, NULL);
    errno = kept;
    leave_c_locale(c, before);
    return value;
}

/* from: what the parts were taken from, without its sign. */
static double parts_value(const struct parts *parts, const char *from, size_t length)
{
    static const double ten[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                 1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
    /* Up to 15 digits and ten to the 22nd are exact doubles, so one operation rounds once: the
     * right answer without asking the C library. Nearly every number in a weather file is one. */
    if (parts->significant <= 15 && parts->exponent >= -22 && parts->exponent <= 22) {
        const double whole = (double)parts->digits;
        return parts->exponent < 0 ? whole / ten[-parts->exponent] : whole * ten[parts->exponent];
    }
    return library_value(from, length);
}

bool dawn_text_number(const char *s, const char **end, double *value)
{
    struct parts parts = {0};
    while (*s == ' ' || *s == '\t')
        s++;
    const char *from = take_sign(&parts, s);
    s = take_mantissa(&parts, from);
    if (!s)
        return false;
    s = take_exponent(&parts, s);
    const size_t length = (size_t)(s - from);
    if (length >= NUMBER_LENGTH)
        return false;
    const double size = parts_value(&parts, from, length);
    if (!isfinite(size))
        return false;
    *value = parts.negative ? -size : size;
    *end = s;
    return true;
}

static bool print_number(char *out, size_t size, const char *format, int digits, double value)
{
    locale_t c = (locale_t)0;
    const locale_t before = enter_c_locale(&c);
    const int length = snprintf(out, size, format, digits, value);
    leave_c_locale(c, before);
    return c != (locale_t)0 && length >= 0 && (size_t)length < size;
}

/* "-0.00" says nothing a reader could use, and two equal results must print alike. */
static void drop_minus_of_zero(char *out)
{
    if (out[0] == '-' && out[1 + strspn(out + 1, "0.")] == '\0')
        memmove(out, out + 1, strlen(out));
}

bool dawn_text_from_number(char *out, size_t size, double value, int decimals)
{
    if (size == 0)
        return false;
    out[0] = '\0';
    if (!isfinite(value))
        return false;
    bool fits = true;
    if (decimals >= 0) {
        fits = print_number(out, size, "%.*f", decimals, value);
    } else {
        double back = 0;
        const char *end = NULL;
        for (int digits = 15; digits <= 17 && fits; digits++) {
            fits = print_number(out, size, "%.*g", digits, value);
            if (fits && dawn_text_number(out, &end, &back) && back == value)
                break;
        }
    }
    if (fits)
        drop_minus_of_zero(out);
    else
        out[0] = '\0';
    return fits;
}

/* ---- comparing ----------------------------------------------------------------------------- */

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

size_t dawn_text_distance(const char *a, const char *b, size_t most)
{
    enum { LONGEST = 127 };
    const size_t a_size = strlen(a);
    const size_t b_size = strlen(b);
    const size_t apart = a_size > b_size ? a_size - b_size : b_size - a_size;
    if (apart > most)
        return most + 1;
    if (a_size > LONGEST || b_size > LONGEST)
        return dawn_text_same(a, b) ? 0 : most + 1;
    /* The optimal string alignment table, of which three rows are enough. */
    size_t table[3][LONGEST + 1];
    for (size_t j = 0; j <= b_size; j++)
        table[0][j] = j;
    for (size_t i = 1; i <= a_size; i++) {
        size_t *now = table[i % 3];
        const size_t *above = table[(i + 2) % 3];
        const size_t *two_above = table[(i + 1) % 3];
        now[0] = i;
        for (size_t j = 1; j <= b_size; j++) {
            const char ca = lower(a[i - 1]);
            const char cb = lower(b[j - 1]);
            now[j] = least(above[j - 1] + (ca != cb), least(above[j], now[j - 1]) + 1);
            if (i > 1 && j > 1 && ca == lower(b[j - 2]) && lower(a[i - 2]) == cb)
                now[j] = least(now[j], two_above[j - 2] + 1);
        }
    }
    return least(table[a_size % 3][b_size], most + 1);
}

bool dawn_text_copy(char *dst, size_t size, const char *src)
{
    if (size == 0)
        return false;
    const size_t length = strlen(src);
    const size_t kept = least(length, size - 1);
    memcpy(dst, src, kept);
    dst[kept] = '\0';
    return kept == length;
}

bool dawn_text_cut(char *dst, size_t size, const char *from, const char *end)
{
    while (from < end && isspace((unsigned char)*from))
        from++;
    while (end > from && isspace((unsigned char)end[-1]))
        end--;
    const size_t length = (size_t)(end - from);
    dst[0] = '\0';
    /* cppcheck-suppress knownConditionTrueFalse ; a text may be longer than it thinks */
    if (length == 0 || length >= size)
        return false;
    memcpy(dst, from, length);
    dst[length] = '\0';
    return true;
}

int dawn_text_digits(const char *text, int count)
{
    int value = 0;
    for (int i = 0; i < count; i++) {
        if (text[i] < '0' || text[i] > '9')
            return -1;
        value = 10 * value + (text[i] - '0');
    }
    return value;
}

bool dawn_text_same(const char *a, const char *b)
{
    while (*a && lower(*a) == lower(*b)) {
        a++;
        b++;
    }
    return lower(*a) == lower(*b);
}

bool dawn_text_starts(const char *s, const char *prefix)
{
    while (*prefix && lower(*s) == lower(*prefix)) {
        s++;
        prefix++;
    }
    return *prefix == '\0';
}

/* ---- files --------------------------------------------------------------------------------- */

/* Everything up to one byte more than most, so that a file that is too large shows. */
static bool read_all(FILE *in, size_t most, struct dawn_text *text)
{
    char block[16384];
    size_t got = 0;
    errno = 0;
    while (text->size <= most && (got = fread(block, 1, sizeof block, in)) > 0) {
        dawn_text_add_bytes(text, block, got);
        if (text->failed) {
            errno = ENOMEM;
            return false;
        }
    }
    if (ferror(in)) {
        errno = errno ? errno : EIO;
        return false;
    }
    if (text->size > most) {
        errno = EFBIG;
        return false;
    }
    return true;
}

char *dawn_text_read_file(const char *path, size_t most, size_t *size)
{
    FILE *in = fopen(path, "rb");
    if (!in)
        return NULL;
    struct dawn_text text = {0};
    dawn_text_add_bytes(&text, "", 0); /* an empty file is an empty string, not NULL */
    const bool good = read_all(in, most, &text);
    const int kept = errno;
    (void)fclose(in);
    if (!good || !text.data) {
        dawn_text_release(&text);
        errno = good ? ENOMEM : kept;
        return NULL;
    }
    *size = text.size;
    return text.data;
}
