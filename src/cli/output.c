/* Where results go: standard output or a file that appears whole or not at all. */
#include "cli/output.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>

#include "base/text.h"

enum dawn_status dawn_output_open(struct dawn_output *output, const char *path,
                                  struct dawn_problems *problems)
{
    *output = (struct dawn_output){.stream = stdout};
    if (path == NULL) {
        return DAWN_OK;
    }
    const enum dawn_status status = dawn_fileout_open(&output->file, path, problems);
    output->to_file = status == DAWN_OK;
    output->stream = output->file.stream;
    return status;
}

enum dawn_status dawn_output_arrived(struct dawn_output *output, struct dawn_problems *problems)
{
    errno = 0;
    if (fflush(output->stream) == 0 && !ferror(output->stream)) {
        return DAWN_OK;
    }
    const int error = errno;
    const struct dawn_place_in_file place = {.file = output->to_file ? output->file.path : NULL};
    dawn_problems_add(problems, DAWN_ERROR, place, NULL, "cannot write %s: %s",
                      output->to_file ? "the file" : "to the standard output",
                      error != 0 ? strerror(error) : "not all of it arrived");
    return DAWN_ERR_IO;
}

enum dawn_status dawn_output_keep(struct dawn_output *output, struct dawn_problems *problems)
{
    if (!output->to_file) {
        return DAWN_OK;
    }
    output->to_file = false;
    return dawn_fileout_keep(&output->file, problems);
}

void dawn_output_drop(struct dawn_output *output)
{
    dawn_fileout_drop(&output->file);
    *output = (struct dawn_output){0};
}

/* ---- one file under two names ---- */

static bool same_place(const struct stat *a, const struct stat *b)
{
    return a->st_dev == b->st_dev && a->st_ino == b->st_ino;
}

/* Splits "folder/name"; the folder of a bare name is ".". False when it does not fit. */
static bool split(const char *path, char *folder, size_t size, const char **name)
{
    const char *slash = strrchr(path, '/');

    *name = slash != NULL ? slash + 1 : path;
    if (slash == NULL) {
        return dawn_text_copy(folder, size, ".");
    }
    if (!dawn_text_copy(folder, size, path)) {
        return false;
    }
    folder[slash - path + (slash == path)] = '\0';
    return true;
}

/* Files are written as NAME.part first (base/fileout.h): "x" passes through "x.part". */
static bool names_meet(const char *a, const char *b)
{
    const size_t a_size = strlen(a);
    const size_t b_size = strlen(b);
    const char *longer = a_size > b_size ? a : b;
    const size_t shared = a_size > b_size ? b_size : a_size;

    return strncmp(a, b, shared) == 0 &&
           (longer[shared] == '\0' || strcmp(longer + shared, ".part") == 0);
}

bool dawn_output_same(const char *a, const char *b)
{
    char a_folder[1024];
    char b_folder[1024];
    const char *a_name = NULL;
    const char *b_name = NULL;
    struct stat a_state;
    struct stat b_state;

    if (a == NULL || b == NULL) {
        return false;
    }
    if (stat(a, &a_state) == 0 && stat(b, &b_state) == 0 && same_place(&a_state, &b_state)) {
        return true;
    }
    if (!split(a, a_folder, sizeof a_folder, &a_name) ||
        !split(b, b_folder, sizeof b_folder, &b_name) || !names_meet(a_name, b_name)) {
        return false;
    }
    return stat(a_folder, &a_state) == 0 && stat(b_folder, &b_state) == 0 &&
           same_place(&a_state, &b_state);
}
