/* Problems as compilers print them: place, what is wrong, the line, a caret, what to do next. */
#include <stdbool.h>
#include <string.h>

#include "report/report_parts.h"

/* A weather row can be hundreds of characters long; more than this is shown in part. */
enum { LINE_MOST = 120, BEFORE_CARET = 60 };

static const char *severity_words(enum dawn_severity severity)
{
    switch (severity) {
    case DAWN_ERROR:
        return "error";
    case DAWN_WARNING:
        return "warning";
    case DAWN_NOTE:
        break;
    }
    return "note";
}

static bool is_continuation(char byte)
{
    return ((unsigned char)byte & 0xC0U) == 0x80U;
}

/* Text from a file may hold anything; control characters would reach the reader's terminal. */
static void put_clean(FILE *out, const char *text, size_t bytes)
{
    for (size_t i = 0; i < bytes; i++) {
        const unsigned char c = (unsigned char)text[i];
        fputc((c < 0x20U && c != '\t') || c == 0x7FU ? '?' : c, out);
    }
}

static void put_clean_text(FILE *out, const char *text)
{
    put_clean(out, text, strlen(text));
}

struct window {
    size_t from, to; /* bytes of the line that are shown */
};

/* The part of a line around the caret, cut between characters. */
static struct window window_around(const char *line, size_t size, size_t caret)
{
    struct window window = {0, size};

    if (size <= LINE_MOST) {
        return window;
    }
    if (caret > BEFORE_CARET) {
        window.from = caret - BEFORE_CARET;
    }
    if (window.from + LINE_MOST < size) {
        window.to = window.from + LINE_MOST;
    }
    while (window.from > 0 && is_continuation(line[window.from])) {
        window.from--;
    }
    while (window.to < size && is_continuation(line[window.to])) {
        window.to++;
    }
    return window;
}

/* Blanks up to the caret; a tab stays a tab, so the caret stands right at any tab width. */
static void put_caret(FILE *out, const char *line, struct window window, size_t caret)
{
    fputs(window.from > 0 ? "    " : "", out);
    for (size_t i = window.from; i < caret; i++) {
        if (line[i] == '\t') {
            fputc('\t', out);
        } else if (!is_continuation(line[i])) {
            fputc(' ', out);
        }
    }
    fputs("^\n", out);
}

static void put_source_line(FILE *out, const struct dawn_problem *problem)
{
    const char *line = problem->source_line;
    const size_t size = strcspn(line, "\r\n");
    const size_t column = problem->column > 0 ? (size_t)problem->column - 1 : 0;
    size_t caret = column < size ? column : size;
    while (caret > 0 && caret < size && is_continuation(line[caret])) {
        caret--;
    }
    const struct window window = window_around(line, size, caret);

    fputs("  ", out);
    fputs(window.from > 0 ? "... " : "", out);
    put_clean(out, line + window.from, window.to - window.from);
    fputs(window.to < size ? " ...\n" : "\n", out);
    if (problem->column > 0) {
        fputs("  ", out);
        put_caret(out, line, window, caret);
    }
}

static void put_problem(FILE *out, const struct dawn_problem *problem)
{
    const bool has_file = problem->file != NULL && problem->file[0] != '\0';

    put_clean_text(out, has_file ? problem->file : "dawnlow");
    if (has_file && problem->line > 0) {
        fprintf(out, ":%d", problem->line);
    }
    if (has_file && problem->line > 0 && problem->column > 0) {
        fprintf(out, ":%d", problem->column);
    }
    fprintf(out, ": %s: ", severity_words(problem->severity));
    put_clean_text(out, problem->message != NULL ? problem->message : "");
    fputc('\n', out);
    if (problem->source_line != NULL) {
        put_source_line(out, problem);
    }
    if (problem->hint != NULL) {
        fputs("  hint: ", out);
        put_clean_text(out, problem->hint);
        fputc('\n', out);
    }
}

void dawn_report_problems(FILE *out, const struct dawn_problems *problems)
{
    size_t errors = 0;

    for (size_t i = 0; i < problems->count; i++) {
        if (!problems->errors_only || problems->items[i].severity == DAWN_ERROR) {
            put_problem(out, &problems->items[i]);
        }
        errors += problems->items[i].severity == DAWN_ERROR;
    }
    if (problems->errors > errors) {
        fprintf(out, "dawnlow: error: %zu more, lost for want of memory\n",
                problems->errors - errors);
    }
}
