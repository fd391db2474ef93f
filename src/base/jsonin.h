/* JSON as a tree to look things up in. JSON is YAML's flow style, so libyaml's parser does the work
 * that reads scenarios too; what does not begin as an object is refused. */
#ifndef BASE_JSONIN_H
#define BASE_JSONIN_H

#include <stdbool.h>
#include <stddef.h>

#include "dawnlow/problems.h"

enum { DAWN_JSONIN_SIZE_MOST = 1 << 24 /* bytes */ };

struct dawn_jsonin_store; /* private */
struct dawn_jsonin {
    struct dawn_jsonin_store *store;
};
/* A value of the tree; 0 = there is none, and what is looked up in none is none. */
typedef int dawn_jsonin_node;

/* Reads text (UTF-8). name stands for the file in problems. json is {0} and must be released.
 * DAWN_ERR_USAGE with the place where it is no JSON, DAWN_ERR_NOMEM. */
enum dawn_status dawn_jsonin_read(struct dawn_jsonin *json, const char *name, const char *text,
                                  size_t size, struct dawn_problems *problems);
void dawn_jsonin_release(struct dawn_jsonin *json);

dawn_jsonin_node dawn_jsonin_root(const struct dawn_jsonin *json);
/* The value of an object's key; of several alike the first. */
dawn_jsonin_node dawn_jsonin_member(const struct dawn_jsonin *json, dawn_jsonin_node object,
                                    const char *key);
/* How many values an array holds, and one of them. */
size_t dawn_jsonin_count(const struct dawn_jsonin *json, dawn_jsonin_node array);
dawn_jsonin_node dawn_jsonin_item(const struct dawn_jsonin *json, dawn_jsonin_node array,
                                  size_t index);
/* A number; NAN for everything else. */
double dawn_jsonin_number(const struct dawn_jsonin *json, dawn_jsonin_node node);
/* A string, the tree's own; NULL for everything else. */
const char *dawn_jsonin_text(const struct dawn_jsonin *json, dawn_jsonin_node node);
/* Whether it is true. */
bool dawn_jsonin_true(const struct dawn_jsonin *json, dawn_jsonin_node node);

#endif
