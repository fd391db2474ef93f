/* A file that appears whole or not at all: written beside its place, then renamed. */
/* For realpath, which POSIX counts among its XSI functions. */
#define _XOPEN_SOURCE 700 /* NOLINT(bugprone-reserved-identifier) */
#include "base/fileout.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/text.h"

static enum dawn_status refuse(struct dawn_problems *problems, const char *path, const char *doing,
                               const char *why, const char *hint)
{
    dawn_problems_add(problems, DAWN_ERROR, (struct dawn_place_in_file){.file = path}, hint,
                      "cannot %s '%s': %s", doing, path, why);
    return DAWN_ERR_IO;
}

static const char *hint_for(int error)
{
    switch (error) {
    case ENOENT:
        return "the folder does not exist: make it first, or check the spelling";
    case EACCES:
    case EPERM:
    case EROFS:
        return "choose a folder you may write to";
    case ENOSPC:
    case EDQUOT:
        return "free some space, or choose another disk";
    default:
        return NULL;
    }
}

/* A link stays a link: what it points at is replaced. */
static bool follow_link(struct dawn_fileout *file, const char *path)
{
    struct stat state;
    char *target = NULL;
    if (lstat(path, &state) == 0 && S_ISLNK(state.st_mode))
        target = realpath(path, NULL);
    const bool fits = dawn_text_copy(file->path, sizeof file->path, target ? target : path);
    free(target);
    return fits;
}

enum dawn_status dawn_fileout_open(struct dawn_fileout *file, const char *path,
                                   struct dawn_problems *problems)
{
    *file = (struct dawn_fileout){0};
    if (path[0] == '\0')
        return refuse(problems, path, "write", "the file name is empty", NULL);
    if (!follow_link(file, path))
        return refuse(problems, path, "write", "the file name is too long", NULL);
    struct stat state;
    const bool there = stat(file->path, &state) == 0;
    if (there && S_ISDIR(state.st_mode))
        return refuse(problems, path, "write", "it is a folder", "give the name of a file");
    /* A device or pipe cannot be replaced, and must not be; it is written to. */
    const bool replace = !there || S_ISREG(state.st_mode);
    if (replace)
        (void)snprintf(file->scratch, sizeof file->scratch, "%s.part", file->path);
    file->stream = fopen(replace ? file->scratch : file->path, "wb");
    if (!file->stream) {
        const int error = errno;
        file->scratch[0] = '\0';
        return refuse(problems, path, "write", strerror(error), hint_for(error));
    }
    /* Who may read the old file may read the new one, and nobody else. */
    if (there && replace)
        (void)fchmod(fileno(file->stream), state.st_mode & 07777);
    return DAWN_OK;
}

enum dawn_status dawn_fileout_keep(struct dawn_fileout *file, struct dawn_problems *problems)
{
    if (!file->stream)
        return refuse(problems, file->path, "write", "it is not open", NULL);
    errno = 0;
    bool good = fflush(file->stream) == 0 && !ferror(file->stream);
    int error = errno;
    if (fclose(file->stream) != 0 && good) {
        good = false;
        error = errno;
    }
    file->stream = NULL;
    if (good && file->scratch[0] && rename(file->scratch, file->path) != 0) {
        good = false;
        error = errno;
    }
    if (good)
        file->scratch[0] = '\0';
    else
        (void)refuse(problems, file->path, "write", error ? strerror(error) : "not all arrived",
                     hint_for(error));
    dawn_fileout_drop(file);
    return good ? DAWN_OK : DAWN_ERR_IO;
}

void dawn_fileout_drop(struct dawn_fileout *file)
{
    if (file->stream)
        (void)fclose(file->stream);
    file->stream = NULL;
    if (file->scratch[0])
        (void)unlink(file->scratch);
    file->scratch[0] = '\0';
}
