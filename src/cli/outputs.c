/* The files one command writes: all of them appear, or none. */
#include "cli/outputs.h"

#include <assert.h>

static const struct dawn_place_in_file nowhere = {0};

FILE *dawn_outputs_open(struct dawn_outputs *outputs, const char *path,
                        struct dawn_problems *problems)
{
    assert(outputs->count < DAWN_OUTPUTS_MOST);
    struct dawn_output *output = &outputs->item[outputs->count];
    if (dawn_output_open(output, path, problems) != DAWN_OK) {
        return NULL;
    }
    outputs->count++;
    return output->stream;
}

enum dawn_status dawn_outputs_keep(struct dawn_outputs *outputs, struct dawn_problems *problems)
{
    enum dawn_status status = DAWN_OK;

    for (size_t i = 0; i < outputs->count && status == DAWN_OK; i++) {
        status = dawn_output_arrived(&outputs->item[i], problems);
    }
    for (size_t i = 0; i < outputs->count && status == DAWN_OK; i++) {
        status = dawn_output_keep(&outputs->item[i], problems);
    }
    return status;
}

void dawn_outputs_drop(struct dawn_outputs *outputs)
{
    for (size_t i = 0; i < outputs->count; i++) {
        dawn_output_drop(&outputs->item[i]);
    }
    outputs->count = 0;
}

enum dawn_status dawn_outputs_apart(const struct dawn_outputs_wish *wish, size_t count,
                                    struct dawn_problems *problems)
{
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; k < i; k++) {
            if (dawn_output_same(wish[i].path, wish[k].path)) {
                dawn_problems_add(problems, DAWN_ERROR, nowhere, "give them different names",
                                  "--%s and --%s are one file", wish[i].option, wish[k].option);
                return DAWN_ERR_USAGE;
            }
        }
    }
    return DAWN_OK;
}

enum dawn_status dawn_outputs_spare(const struct dawn_outputs_wish *wish, size_t count,
                                    const char *const *read, size_t read_count,
                                    struct dawn_problems *problems)
{
    for (size_t i = 0; i < count * read_count; i++) {
        const struct dawn_outputs_wish *written = &wish[i / read_count];
        if (dawn_output_same(written->path, read[i % read_count])) {
            dawn_problems_add(problems, DAWN_ERROR, nowhere, "give the result another name",
                              "--%s would write over '%s'", written->option, read[i % read_count]);
            return DAWN_ERR_USAGE;
        }
    }
    return DAWN_OK;
}
