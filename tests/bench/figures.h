/* A figure of the bench: shown on the screen and added to the CSV whose path stands in
 * DAWNLOW_BENCH_CSV (run_bench.sh begins it). Its columns: key, value, unit, what. */
#ifndef BENCH_FIGURES_H
#define BENCH_FIGURES_H

/* The key is for programs ("engines.ratio"), the words behind it for people, printf-like. */
void bench_figure(const char *key, double value, const char *unit, const char *what, ...)
    __attribute__((format(printf, 4, 5)));
/* Why something is not measured, on standard error. Returns 1, for main to end with. */
int bench_failed(const char *what);

#endif
