/* What the screen can show. */
#ifndef CLI_TERMINAL_H
#define CLI_TERMINAL_H

#include <stdbool.h>
#include <stddef.h>

/* Standard output is a terminal and its locale is UTF-8: box-drawing characters and braille will be
 * seen as such. In a pipe or a file never, so that the same input gives the same bytes. */
bool dawn_terminal_boxes(void);

/* The width of the terminal in characters; in a pipe or a file 80, wherever it was made. */
size_t dawn_terminal_columns(void);
/* Rows of a picture: what leaves room for a prompt and the answer's first lines. */
enum { DAWN_TERMINAL_ROWS = 20 };

#endif
