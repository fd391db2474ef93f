/* Puts the program under a locale whose decimal mark is a comma, as a program around this library
 * may do, to show that nothing here asks for it. */
#ifndef SUPPORT_COMMA_LOCALE_H
#define SUPPORT_COMMA_LOCALE_H

#include <locale.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

/* False when this machine has no such locale and cannot make one. */
static inline bool comma_locale(void)
{
    static const char *const names[] = {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "fr_FR.utf8"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (setlocale(LC_ALL, names[i]) && localeconv()->decimal_point[0] == ',')
            return true;
    }
    const char *folder = getenv("TMPDIR") ? getenv("TMPDIR") : "/tmp";
    char made[1024];
    char command[2200];
    (void)snprintf(made, sizeof made, "%s/dawn-locale", folder);
    (void)snprintf(command, sizeof command,
                   "mkdir -p '%s' && localedef --no-archive -i de_DE -f UTF-8 '%s/de_DE.UTF-8' "
                   ">/dev/null 2>&1",
                   made, made);
    if (system(command) != 0 || setenv("LOCPATH", made, 1) != 0)
        return false;
    return setlocale(LC_ALL, "de_DE.UTF-8") && localeconv()->decimal_point[0] == ',';
}

static inline void plain_locale(void)
{
    (void)setlocale(LC_ALL, "C");
}

#endif
