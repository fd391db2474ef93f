/* Aligned text columns for a fixed-width screen; widths count characters, not bytes (UTF-8). */
#ifndef BASE_TABLEOUT_H
#define BASE_TABLEOUT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

enum { DAWN_TABLE_COLUMNS = 24 };
struct dawn_tableout {
    size_t columns, cells, capacity;
    bool left[DAWN_TABLE_COLUMNS]; /* flush left; numbers are flush right */
    char **cell;
    bool failed;
};
void dawn_tableout_begin(struct dawn_tableout *table, size_t columns, const char *alignment);
/* alignment: one letter a column, 'l' or 'r'. Cells go row by row; the first row is the heading. */
void dawn_tableout_cell(struct dawn_tableout *table, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
/* Writes with two blanks between columns and no trailing blanks, then empties the table. */
void dawn_tableout_end(struct dawn_tableout *table, FILE *out);
/* Empties it unwritten. */
void dawn_tableout_drop(struct dawn_tableout *table);

#endif
