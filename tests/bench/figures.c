#include "bench/figures.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

static void write_row(const char *key, double value, const char *unit, const char *words)
{
    const char *path = getenv("DAWNLOW_BENCH_CSV");
    FILE *csv = path ? fopen(path, "a") : NULL;
    if (!csv)
        return;
    (void)fprintf(csv, "%s,%.6g,%s,\"%s\"\n", key, value, unit, words);
    if (fclose(csv) != 0)
        perror(path);
}

void bench_figure(const char *key, double value, const char *unit, const char *what, ...)
{
    char words[160];
    va_list arguments;
    va_start(arguments, what);
    (void)vsnprintf(words, sizeof words, what, arguments);
    va_end(arguments);
    printf("  %-72s %10.4g %s\n", words, value, unit);
    (void)fflush(stdout);
    write_row(key, value, unit, words);
}

int bench_failed(const char *what)
{
    (void)fprintf(stderr, "bench: %s\n", what);
    return 1;
}
