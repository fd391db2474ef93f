/* What the screen can show. */
#include "cli/terminal.h"

#include <langinfo.h>
#include <locale.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

bool dawn_terminal_boxes(void)
{
    if (isatty(STDOUT_FILENO) == 0 || setlocale(LC_CTYPE, "") == NULL) {
        return false;
    }
    return strcmp(nl_langinfo(CODESET), "UTF-8") == 0;
}

size_t dawn_terminal_columns(void)
{
    const size_t usual_columns = 80;
    struct winsize size = {0};

    if (isatty(STDOUT_FILENO) != 1 || ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 ||
        size.ws_col == 0) {
        return usual_columns;
    }
    return size.ws_col;
}
