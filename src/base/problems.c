/* The list of everything that was found wrong. */
#include "dawnlow/problems.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"

static char *copy(const char *text)
{
    return text ? strdup(text) : NULL;
}

static void empty(struct dawn_problem *item)
{
    free(item->file);
    free(item->message);
    free(item->source_line);
    free(item->hint);
}

static struct dawn_problem *room_for_one(struct dawn_problems *problems)
{
    if (problems->count == problems->capacity) {
        const size_t capacity = problems->capacity ? problems->capacity * 2 : 8;
        struct dawn_problem *items = realloc(problems->items, capacity * sizeof *items);
        if (!items)
            return NULL;
        problems->items = items;
        problems->capacity = capacity;
    }
    return &problems->items[problems->count];
}

void dawn_problems_add(struct dawn_problems *problems, enum dawn_severity severity,
                       struct dawn_place_in_file place, const char *hint, const char *message, ...)
{
    problems->errors += severity == DAWN_ERROR;
    problems->warnings += severity == DAWN_WARNING;
    struct dawn_problem *slot = room_for_one(problems);
    if (!slot)
        return;
    struct dawn_problem item = {.severity = severity, .line = place.line, .column = place.column};
    va_list arguments;
    va_start(arguments, message);
    item.message = dawn_text_format(message, arguments);
    va_end(arguments);
    item.file = copy(place.file ? place.file : "");
    if (!item.message || !item.file) {
        empty(&item);
        return;
    }
    /* Without these two the message is still worth showing. */
    item.source_line = copy(place.source_line);
    item.hint = copy(hint);
    *slot = item;
    problems->count++;
}

void dawn_problems_add_all(struct dawn_problems *problems, const struct dawn_problems *more)
{
    for (size_t i = 0; i < more->count; i++) {
        const struct dawn_problem *item = &more->items[i];
        const struct dawn_place_in_file place = {item->file, item->line, item->column,
                                                 item->source_line};
        dawn_problems_add(problems, item->severity, place, item->hint, "%s", item->message);
    }
}

/* What decides the order, with the old place last: qsort alone is not stable. */
struct rank {
    size_t file, old;
    struct dawn_problem item;
};

static int compare_sizes(size_t a, size_t b)
{
    return (a > b) - (a < b);
}

static int compare_ranks(const void *left, const void *right)
{
    const struct rank *a = left;
    const struct rank *b = right;
    if (a->file != b->file)
        return compare_sizes(a->file, b->file);
    if (a->item.line != b->item.line)
        return (a->item.line > b->item.line) - (a->item.line < b->item.line);
    if (a->item.column != b->item.column)
        return (a->item.column > b->item.column) - (a->item.column < b->item.column);
    return compare_sizes(a->old, b->old);
}

/* The place in the list at which this file is first named. */
static size_t first_of_file(const struct dawn_problems *problems, size_t index)
{
    size_t first = 0;
    while (strcmp(problems->items[first].file, problems->items[index].file) != 0)
        first++;
    return first;
}

void dawn_problems_sort(struct dawn_problems *problems)
{
    if (problems->count < 2)
        return;
    struct rank *rank = malloc(problems->count * sizeof *rank);
    if (!rank)
        return; /* an unsorted list is still a complete one */
    for (size_t i = 0; i < problems->count; i++)
        rank[i] = (struct rank){first_of_file(problems, i), i, problems->items[i]};
    qsort(rank, problems->count, sizeof *rank, compare_ranks);
    for (size_t i = 0; i < problems->count; i++)
        problems->items[i] = rank[i].item;
    free(rank);
}

void dawn_problems_release(struct dawn_problems *problems)
{
    for (size_t i = 0; i < problems->count; i++)
        empty(&problems->items[i]);
    free(problems->items);
    *problems = (struct dawn_problems){0};
}

static const struct {
    int exit_status;
    const char *meaning;
} statuses[] = {
#define STATUS_ROW(name, exit_status, meaning) [name] = {exit_status, meaning},
    DAWN_STATUS_LIST(STATUS_ROW)
#undef STATUS_ROW
};
enum { STATUSES = sizeof statuses / sizeof statuses[0] };

int dawn_problems_exit_status(enum dawn_status status)
{
    return (unsigned)status < STATUSES ? statuses[status].exit_status : 3;
}

const char *dawn_problems_meaning(enum dawn_status status)
{
    return (unsigned)status < STATUSES ? statuses[status].meaning : "an unknown status";
}
