/* Manual pages are written in mdoc; here is what keeps any text from being taken for markup. */
#include "cli/mdoc.h"

#include <ctype.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

/* Pages carry a date; it is that of the words, not of the build. */
#define MANUAL_DATE "November 25, 2026"

enum { LINE_MOST = 78, WORD_ROOM = 512 };

/* A word so that it is shown as it is, in out; its size there. A name of a macro is no macro behind
 * the mark that is put before it when guarded. */
static size_t plain_word(char out[WORD_ROOM], const char *word, size_t size, bool guarded)
{
    size_t used = 0;

    if (guarded || word[0] == '.' || word[0] == '\'') {
        used = (size_t)snprintf(out, WORD_ROOM, "\\&");
    }
    for (size_t i = 0; i < size && used + 5 < WORD_ROOM; i++) {
        const char *escape = word[i] == '"'                                 ? "\\(dq"
                             : word[i] == '\\'                              ? "\\e"
                             : word[i] == '-' && (i == 0 || word[0] == '-') ? "\\-"
                                                                            : NULL;
        if (escape != NULL) {
            used += (size_t)snprintf(out + used, WORD_ROOM - used, "%s", escape);
        } else {
            out[used++] = word[i];
        }
    }
    out[used] = '\0';
    return used;
}

void dawn_mdoc_macro(const char *macro, const char *words)
{
    char word[WORD_ROOM];

    printf(".%s", macro);
    for (const char *at = words + strspn(words, " "); *at != '\0';) {
        const size_t size = strcspn(at, " ");
        (void)plain_word(word, at, size, true);
        printf(" %s", word);
        at += size;
        at += strspn(at, " ");
    }
    putchar('\n');
}

static bool ends_sentence(const char *word, size_t size, const char *next)
{
    return size > 2 && strchr(".?!", word[size - 1]) != NULL && *next != '\0' &&
           !islower((unsigned char)*next);
}

void dawn_mdoc_text(const char *text)
{
    size_t column = 0;
    char word[WORD_ROOM];

    for (const char *at = text + strspn(text, " "); *at != '\0';) {
        const size_t size = strcspn(at, " ");
        const size_t width = plain_word(word, at, size, false);
        if (column > 0) {
            putchar(column + 1 + width > LINE_MOST ? '\n' : ' ');
            column = column + 1 + width > LINE_MOST ? 0 : column + 1;
        }
        fputs(word, stdout);
        column += width;
        const char *end = at + size;
        at = end + strspn(end, " ");
        if (ends_sentence(end - size, size, at)) {
            putchar('\n');
            column = 0;
        }
    }
    putchar('\n');
}

void dawn_mdoc_code(const char *line)
{
    dawn_mdoc_macro("Dl", line);
}

void dawn_mdoc_line(const char *line)
{
    char plain[WORD_ROOM];

    (void)plain_word(plain, line, strlen(line), *line != '\0');
    puts(plain);
}

void dawn_mdoc_list(void)
{
    puts(".Bl -tag -width Ds");
}

void dawn_mdoc_entry(const char *term)
{
    dawn_mdoc_macro("It", term);
}

void dawn_mdoc_list_end(void)
{
    puts(".El");
}

void dawn_mdoc_head(const char *name, int section, const char *what, const char *synopsis)
{
    puts(".Dd " MANUAL_DATE);
    printf(".Dt ");
    for (const char *c = name; *c != '\0'; c++) {
        putchar(toupper((unsigned char)*c));
    }
    printf(" %d\n.Os\n.Sh NAME\n.Nm %s\n.Nd %s\n", section, name, what);
    if (synopsis != NULL) {
        printf(".Sh SYNOPSIS\n%s", synopsis);
    }
    puts(".Sh DESCRIPTION");
}

void dawn_mdoc_see(const char *const *pages)
{
    puts(".Sh SEE ALSO");
    for (size_t i = 0; pages[i] != NULL; i++) {
        printf(".Xr %s%s\n", pages[i], pages[i + 1] != NULL ? " ," : "");
    }
}
