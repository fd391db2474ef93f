/* What the screen can show. */
#ifndef CLI_TERMINAL_H
#define CLI_TERMINAL_H

#include <stdbool.h>

/* Standard output is a terminal and its locale is UTF-8: box-drawing characters will be seen as
 * such. In a pipe or a file never, so that the same input gives the same bytes. */
bool dawn_terminal_boxes(void);

#endif
