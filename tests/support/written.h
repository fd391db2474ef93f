/* What was written to a stream, as one string. Include <cmocka.h> (and what it needs) before. */
#ifndef SUPPORT_WRITTEN_H
#define SUPPORT_WRITTEN_H

#include <stdio.h>
#include <stdlib.h>

struct written {
    FILE *stream;
    char *text;
    size_t size;
};

static inline void written_start(struct written *written)
{
    written->text = NULL;
    written->stream = open_memstream(&written->text, &written->size);
    assert_non_null(written->stream);
}

/* Closes the stream and compares; frees the text. */
static inline void written_is(struct written *written, const char *want)
{
    assert_int_equal(fclose(written->stream), 0);
    assert_string_equal(written->text, want);
    free(written->text);
}

#endif
