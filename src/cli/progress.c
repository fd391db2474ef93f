/* A line on the terminal that says how far a long study is. */
#include "cli/progress.h"

#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const double quiet_at_first_s = 1.0;
static const double between_s = 0.2;

static double seconds_between(struct timespec from, struct timespec to)
{
    return difftime(to.tv_sec, from.tv_sec) + 1e-9 * (double)(to.tv_nsec - from.tv_nsec);
}

static struct timespec now(void)
{
    struct timespec at = {0};

    (void)clock_gettime(CLOCK_MONOTONIC, &at);
    return at;
}

/* ---- Ctrl-C ---- */

static volatile sig_atomic_t stopped;

static void note_stop(int signal_number)
{
    (void)signal_number;
    stopped = 1;
}

static void heed_stop(bool heed)
{
    /* A second Ctrl-C ends the program at once, should the study not come back. */
    const struct sigaction action = {.sa_handler = heed ? note_stop : SIG_DFL,
                                     .sa_flags = heed ? (int)SA_RESETHAND : 0};

    (void)sigaction(SIGINT, &action, NULL);
}

bool dawn_progress_stopped(void)
{
    return stopped != 0;
}

/* ---- the line ---- */

void dawn_progress_begin(struct dawn_progress *progress, const char *what, bool quiet)
{
    *progress = (struct dawn_progress){.what = what, .began = now()};
    progress->last = progress->began;
    progress->watched = !quiet && isatty(STDERR_FILENO) == 1;
    stopped = 0;
    heed_stop(true);
}

/* Whole seconds below two minutes, whole minutes below two hours: nobody needs it closer. */
static void write_left(double left_s, char *out, size_t size)
{
    if (left_s < 120.0) {
        snprintf(out, size, "%.0f s", ceil(left_s));
    } else if (left_s < 7200.0) {
        snprintf(out, size, "%.0f min", ceil(left_s / 60.0));
    } else {
        snprintf(out, size, "%.0f h", ceil(left_s / 3600.0));
    }
}

const char *dawn_progress_words(const char *what, size_t done, size_t all, double elapsed_s,
                                char out[DAWN_PROGRESS_ROOM])
{
    char left[32] = "";
    const size_t current = done < all ? done + 1 : all;

    if (done > 0 && done < all) {
        write_left(elapsed_s / (double)done * (double)(all - done), left, sizeof left);
    }
    snprintf(out, DAWN_PROGRESS_ROOM, "%.24s %zu of %zu%s%s%s", what, current, all,
             left[0] != '\0' ? ", " : "", left, left[0] != '\0' ? " left" : "");
    return out;
}

static void put_line(struct dawn_progress *progress, const char *words)
{
    const size_t size = strlen(words);
    const size_t rest = progress->shown > size ? progress->shown - size : 0;

    fprintf(stderr, "\r%s%*s", words, (int)rest, "");
    (void)fflush(stderr);
    progress->shown = size;
}

bool dawn_progress_step(size_t done, size_t all, void *user)
{
    struct dawn_progress *progress = user;

    if (!progress->watched || dawn_progress_stopped()) {
        return !dawn_progress_stopped();
    }
    const struct timespec at = now();
    const double elapsed_s = seconds_between(progress->began, at);
    if (elapsed_s >= quiet_at_first_s && seconds_between(progress->last, at) >= between_s) {
        char words[DAWN_PROGRESS_ROOM];
        put_line(progress, dawn_progress_words(progress->what, done, all, elapsed_s, words));
        progress->last = at;
    }
    return true;
}

void dawn_progress_end(struct dawn_progress *progress)
{
    if (progress->shown > 0) {
        fprintf(stderr, "\r%*s\r", (int)progress->shown, "");
        (void)fflush(stderr);
    }
    *progress = (struct dawn_progress){0};
    heed_stop(false);
}
