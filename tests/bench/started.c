/* wait4 tells what one child used; POSIX has the sum over all children only. */
#define _DEFAULT_SOURCE
#include "bench/started.h"

#include <fcntl.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

extern char **environ;

static long wait_for(pid_t child)
{
    struct rusage used;
    int ended = 0;
    if (child < 0 || wait4(child, &ended, 0, &used) != child || !WIFEXITED(ended) ||
        WEXITSTATUS(ended) != 0)
        return 0;
    return used.ru_maxrss;
}

/* Not by fork: copying this process, a good millisecond here, is not the program's time. */
static pid_t start(const char *const words[])
{
    pid_t child = -1;
    posix_spawn_file_actions_t silent;
    if (posix_spawn_file_actions_init(&silent) != 0)
        return -1;
    if (posix_spawn_file_actions_addopen(&silent, 1, "/dev/null", O_WRONLY, 0) != 0 ||
        posix_spawn_file_actions_adddup2(&silent, 1, 2) != 0 ||
        posix_spawn(&child, words[0], &silent, NULL, (char *const *)words, environ) != 0)
        child = -1;
    (void)posix_spawn_file_actions_destroy(&silent);
    return child;
}

bool started_run(void *user)
{
    struct started *started = user;
    const char *path = getenv("DAWNLOW");
    const char *words[STARTED_WORDS + 2] = {path ? path : "build/dawnlow"};
    for (int i = 0; i < STARTED_WORDS && started->words[i]; ++i)
        words[i + 1] = started->words[i];
    started->peak_kB = wait_for(start(words));
    return started->peak_kB > 0;
}

long started_peak_kB(bool (*run)(void *user), void *user)
{
    (void)fflush(NULL);
    const pid_t child = fork();
    if (child == 0)
        _exit(run(user) ? 0 : 1);
    return wait_for(child);
}
