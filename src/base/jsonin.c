/* JSON through libyaml's document tree. */
#include "base/jsonin.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <yaml.h>

#include "base/text.h"

struct dawn_jsonin_store {
    yaml_document_t document;
};

static enum dawn_status refuse(const char *name, int line, int column,
                               struct dawn_problems *problems, const char *reason)
{
    const struct dawn_place_in_file place = {.file = name, .line = line, .column = column};

    dawn_problems_add(problems, DAWN_ERROR, place,
                      "a result is written by --json --output FILE, and ends with a brace",
                      "this is no JSON: %s", reason);
    return DAWN_ERR_USAGE;
}

/* Whether anything follows the value that was read. */
static bool more_behind(yaml_parser_t *parser)
{
    yaml_document_t behind;

    if (yaml_parser_load(parser, &behind) == 0) {
        return true;
    }
    const bool more = yaml_document_get_root_node(&behind) != NULL;
    yaml_document_delete(&behind);
    return more;
}

static enum dawn_status load(yaml_document_t *document, const char *name, const char *text,
                             size_t size, struct dawn_problems *problems)
{
    yaml_parser_t parser;
    enum dawn_status status = DAWN_OK;

    if (yaml_parser_initialize(&parser) == 0) {
        return DAWN_ERR_NOMEM;
    }
    yaml_parser_set_encoding(&parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&parser, (const unsigned char *)text, size);
    if (yaml_parser_load(&parser, document) == 0) {
        status = parser.error == YAML_MEMORY_ERROR
                     ? DAWN_ERR_NOMEM
                     : refuse(name, (int)parser.problem_mark.line + 1,
                              (int)parser.problem_mark.column + 1, problems,
                              parser.problem != NULL ? parser.problem : "it breaks off");
    } else if (more_behind(&parser)) {
        status =
            refuse(name, (int)parser.mark.line + 1, 1, problems, "there is more behind its end");
        yaml_document_delete(document);
    }
    yaml_parser_delete(&parser);
    return status;
}

enum dawn_status dawn_jsonin_read(struct dawn_jsonin *json, const char *name, const char *text,
                                  size_t size, struct dawn_problems *problems)
{
    if (text[strspn(text, " \t\r\n")] != '{') {
        return refuse(name, 1, 1, problems, "it does not begin with a brace");
    }
    json->store = calloc(1, sizeof *json->store);
    if (json->store == NULL) {
        return DAWN_ERR_NOMEM;
    }
    const enum dawn_status status = load(&json->store->document, name, text, size, problems);
    if (status != DAWN_OK) {
        free(json->store);
        json->store = NULL;
    }
    return status;
}

void dawn_jsonin_release(struct dawn_jsonin *json)
{
    if (json->store != NULL) {
        yaml_document_delete(&json->store->document);
        free(json->store);
    }
    *json = (struct dawn_jsonin){0};
}

static yaml_node_t *node_at(const struct dawn_jsonin *json, dawn_jsonin_node node)
{
    return node > 0 && json->store != NULL ? yaml_document_get_node(&json->store->document, node)
                                           : NULL;
}

dawn_jsonin_node dawn_jsonin_root(const struct dawn_jsonin *json)
{
    return json->store != NULL && yaml_document_get_root_node(&json->store->document) != NULL;
}

static const char *scalar_text(const yaml_node_t *node)
{
    return node != NULL && node->type == YAML_SCALAR_NODE ? (const char *)node->data.scalar.value
                                                          : "";
}

dawn_jsonin_node dawn_jsonin_member(const struct dawn_jsonin *json, dawn_jsonin_node object,
                                    const char *key)
{
    const yaml_node_t *node = node_at(json, object);

    if (node == NULL || node->type != YAML_MAPPING_NODE) {
        return 0;
    }
    for (const yaml_node_pair_t *pair = node->data.mapping.pairs.start;
         pair < node->data.mapping.pairs.top; pair++) {
        if (strcmp(scalar_text(node_at(json, pair->key)), key) == 0) {
            return pair->value;
        }
    }
    return 0;
}

size_t dawn_jsonin_count(const struct dawn_jsonin *json, dawn_jsonin_node array)
{
    const yaml_node_t *node = node_at(json, array);

    return node != NULL && node->type == YAML_SEQUENCE_NODE
               ? (size_t)(node->data.sequence.items.top - node->data.sequence.items.start)
               : 0;
}

dawn_jsonin_node dawn_jsonin_item(const struct dawn_jsonin *json, dawn_jsonin_node array,
                                  size_t index)
{
    return index < dawn_jsonin_count(json, array)
               ? node_at(json, array)->data.sequence.items.start[index]
               : 0;
}

/* A plain scalar: what stands without quotation marks. */
static const char *plain(const yaml_node_t *node)
{
    return node != NULL && node->type == YAML_SCALAR_NODE &&
                   node->data.scalar.style == YAML_PLAIN_SCALAR_STYLE
               ? (const char *)node->data.scalar.value
               : "";
}

double dawn_jsonin_number(const struct dawn_jsonin *json, dawn_jsonin_node node)
{
    const char *text = plain(node_at(json, node));
    const char *end = text;
    double value = NAN;

    return dawn_text_number(text, &end, &value) && *end == '\0' ? value : NAN;
}

const char *dawn_jsonin_text(const struct dawn_jsonin *json, dawn_jsonin_node node)
{
    const yaml_node_t *it = node_at(json, node);

    return it != NULL && it->type == YAML_SCALAR_NODE &&
                   it->data.scalar.style == YAML_DOUBLE_QUOTED_SCALAR_STYLE
               ? (const char *)it->data.scalar.value
               : NULL;
}

bool dawn_jsonin_true(const struct dawn_jsonin *json, dawn_jsonin_node node)
{
    return strcmp(plain(node_at(json, node)), "true") == 0;
}
