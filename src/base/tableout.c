/* Aligned text columns for a fixed-width screen. */
#include "base/tableout.h"

#include <assert.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"

/* Characters, taking every UTF-8 sequence for one column wide: degree signs and names with accents,
 * not Chinese. */
static size_t width(const char *text)
{
    size_t characters = 0;
    for (; *text; text++)
        characters += ((unsigned char)*text & 0xC0u) != 0x80u;
    return characters;
}

void dawn_tableout_drop(struct dawn_tableout *table)
{
    for (size_t i = 0; i < table->cells; i++)
        free(table->cell[i]);
    free(table->cell);
    *table = (struct dawn_tableout){0};
}

void dawn_tableout_begin(struct dawn_tableout *table, size_t columns, const char *alignment)
{
    assert(columns >= 1 && columns <= DAWN_TABLE_COLUMNS && strlen(alignment) == columns);
    *table = (struct dawn_tableout){.columns = columns};
    for (size_t i = 0; i < columns; i++)
        table->left[i] = alignment[i] == 'l';
}

void dawn_tableout_cell(struct dawn_tableout *table, const char *format, ...)
{
    if (table->failed)
        return;
    if (table->cells == table->capacity) {
        const size_t capacity = table->capacity ? table->capacity * 2 : 64;
        char **cell = realloc(table->cell, capacity * sizeof *cell);
        if (!cell) {
            table->failed = true;
            return;
        }
        table->cell = cell;
        table->capacity = capacity;
    }
    va_list arguments;
    va_start(arguments, format);
    char *text = dawn_text_format(format, arguments);
    va_end(arguments);
    if (text)
        table->cell[table->cells++] = text;
    else
        table->failed = true;
}

/* Bytes up to the last one that is not blank. */
static size_t solid(const char *text)
{
    size_t size = strlen(text);
    while (size > 0 && text[size - 1] == ' ')
        size--;
    return size;
}

/* Blanks, those at a cell's end too, are owed until something stands behind them. */
static void write_row(const struct dawn_tableout *table, size_t first, const size_t *widest,
                      FILE *out)
{
    size_t owed = 0;
    for (size_t column = 0; column < table->columns && first + column < table->cells; column++) {
        const char *text = table->cell[first + column];
        const size_t size = solid(text);
        const size_t pad = widest[column] - width(text);
        owed += (column ? 2 : 0) + (table->left[column] ? 0 : pad);
        if (size) {
            (void)fprintf(out, "%*s%.*s", (int)owed, "", (int)size, text);
            owed = 0;
        }
        owed += strlen(text) - size + (table->left[column] ? pad : 0);
    }
    (void)fputc('\n', out);
}

void dawn_tableout_end(struct dawn_tableout *table, FILE *out)
{
    size_t widest[DAWN_TABLE_COLUMNS] = {0};
    for (size_t i = 0; i < table->cells; i++) {
        const size_t size = width(table->cell[i]);
        if (size > widest[i % table->columns])
            widest[i % table->columns] = size;
    }
    if (table->failed)
        (void)fputs("(no table: out of memory)\n", out);
    else
        for (size_t i = 0; i < table->cells; i += table->columns)
            write_row(table, i, widest, out);
    dawn_tableout_drop(table);
}
