/* What the screen can show. */
#include "cli/terminal.h"

#include <langinfo.h>
#include <locale.h>
#include <string.h>
#include <unistd.h>

bool dawn_terminal_boxes(void)
{
    if (isatty(STDOUT_FILENO) == 0 || setlocale(LC_CTYPE, "") == NULL) {
        return false;
    }
    return strcmp(nl_langinfo(CODESET), "UTF-8") == 0;
}
