/* The one file that opens <yaml.h>: libyaml's events made into the strict subset of yamlin.h.
 *
 * Places are kept by byte: libyaml's mark.index counts characters, not bytes, and its lines also
 * end at marks (NEL, LS, PS) that no editor counts. */
#include "base/yamlin.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <yaml.h>

enum {
    LINE_SHOWN_MOST = 300, /* bytes; a caret under a longer line helps nobody */
    FLOW_DEPTH_MOST = 64
};

struct line {
    size_t start;      /* byte */
    size_t characters; /* before the line */
};

struct words {
    struct words *next;
    char text[];
};

struct level {
    bool section;   /* or a list */
    bool wants_key; /* in a section: the next event is a key */
};

struct dawn_yamlin_store {
    const char *name;
    struct dawn_problems *problems;
    size_t problems_before;
    char *text; /* a copy whose line ends are NUL */
    size_t size;
    size_t skipped; /* bytes of the byte order mark */
    struct line *line;
    size_t line_count;
    struct dawn_yamlin_event *event;
    size_t count, capacity;
    struct words *words; /* of the events */
    struct level level[DAWN_YAMLIN_DEPTH_MOST];
    size_t depth;
    size_t skip; /* depth inside something refused */
    bool broken, no_memory;
};

/* ---- problems ---- */

static const char *shown_line(const struct dawn_yamlin_store *store, int line)
{
    if (line < 1 || (size_t)line > store->line_count)
        return NULL;
    const char *text = store->text + store->line[line - 1].start;
    return strlen(text) > LINE_SHOWN_MOST ? NULL : text;
}

static void complain(struct dawn_yamlin_store *store, int line, int column, const char *hint,
                     const char *message)
{
    if (store->problems->count - store->problems_before >= DAWN_YAMLIN_PROBLEMS_MOST) {
        store->broken = true;
        return;
    }
    struct dawn_place_in_file place = {store->name, line, column, shown_line(store, line)};
    dawn_problems_add(store->problems, DAWN_ERROR, place, hint, "%s", message);
}

/* ---- lines ---- */

static bool continues(char byte)
{
    return ((unsigned char)byte & 0xC0) == 0x80;
}

static size_t count_lines(const char *text, size_t size)
{
    size_t count = 1;
    for (size_t i = 0; i < size; i++)
        if (text[i] == '\n' || (text[i] == '\r' && (i + 1 == size || text[i + 1] != '\n')))
            count++;
    return count;
}

static void split_lines(struct dawn_yamlin_store *store)
{
    size_t characters = 0;
    store->line[0] = (struct line){0, 0};
    store->line_count = 1;
    for (size_t i = 0; i < store->size; i++) {
        char byte = store->text[i];
        if (!continues(byte))
            characters++;
        if (byte == '\r')
            store->text[i] = '\0';
        if (byte == '\n' || (byte == '\r' && store->text[i + 1] != '\n')) {
            store->text[i] = '\0';
            store->line[store->line_count++] = (struct line){i + 1, characters};
        }
    }
}

static size_t line_of_character(const struct dawn_yamlin_store *store, size_t character)
{
    size_t low = 0;
    size_t high = store->line_count;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (store->line[middle].characters <= character)
            low = middle;
        else
            high = middle;
    }
    return low;
}

struct place {
    int line, column;
    size_t byte;
};

static struct place place_of(const struct dawn_yamlin_store *store, yaml_mark_t mark)
{
    size_t line = line_of_character(store, mark.index);
    size_t byte = store->line[line].start;
    for (size_t left = mark.index - store->line[line].characters; left > 0 && byte < store->size;
         left--) {
        byte++;
        while (byte < store->size && continues(store->text[byte]))
            byte++;
    }
    return (struct place){(int)(line + 1), (int)(byte - store->line[line].start) + 1, byte};
}

static void complain_at(struct dawn_yamlin_store *store, yaml_mark_t mark, const char *hint,
                        const char *message)
{
    struct place place = place_of(store, mark);
    complain(store, place.line, place.column, hint, message);
}

/* ---- text that is no text ---- */

/* Bytes of the UTF-8 character at s, 0 when it is not one (also for overlong forms, surrogates). */
static size_t character_at(const unsigned char *s, size_t left, uint32_t *code)
{
    static const uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    size_t length = 0;
    if (s[0] < 0x80)
        length = 1;
    else if ((s[0] & 0xE0) == 0xC0)
        length = 2;
    else if ((s[0] & 0xF0) == 0xE0)
        length = 3;
    else if ((s[0] & 0xF8) == 0xF0)
        length = 4;
    if (length == 0 || length > left)
        return 0;
    *code = length == 1 ? s[0] : s[0] & (0x7Fu >> length);
    for (size_t i = 1; i < length; i++) {
        if ((s[i] & 0xC0) != 0x80)
            return 0;
        *code = *code << 6 | (s[i] & 0x3Fu);
    }
    bool surrogate = *code >= 0xD800 && *code <= 0xDFFF;
    return *code < least[length] || *code > 0x10FFFF || surrogate ? 0 : length;
}

static bool is_binary(uint32_t code)
{
    return (code < 0x20 && code != '\t' && code != '\n' && code != '\r') || code == 0x7F;
}

/* Line marks that editors do not count, C1 controls, byte order marks within, non-characters. */
static bool is_odd(uint32_t code)
{
    return (code >= 0x80 && code < 0xA0) || code == 0x2028 || code == 0x2029 || code == 0xFEFF ||
           code == 0xFFFE || code == 0xFFFF;
}

static void complain_of_byte(struct dawn_yamlin_store *store, const char *text, size_t byte,
                             const char *hint, const char *message)
{
    size_t line = 1;
    size_t start = 0;
    for (size_t i = 0; i < byte; i++) {
        if (text[i] == '\n' || (text[i] == '\r' && text[i + 1] != '\n')) {
            line++;
            start = i + 1;
        }
    }
    struct dawn_place_in_file place = {store->name, (int)line, (int)(byte - start) + 1, NULL};
    dawn_problems_add(store->problems, DAWN_ERROR, place, hint, "%s", message);
}

static bool is_text(struct dawn_yamlin_store *store, const char *text, size_t size)
{
    size_t length = 0;
    for (size_t i = 0; i < size; i += length) {
        uint32_t code = 0;
        length = character_at((const unsigned char *)text + i, size - i, &code);
        if (length == 0) {
            complain_of_byte(store, text, i, "save the file as UTF-8 in your editor",
                             "this is not UTF-8 text");
            return false;
        }
        if (is_binary(code)) {
            complain_of_byte(store, text, i, "a scenario is plain text, written in a text editor",
                             "this is not a text file: it holds a control character");
            return false;
        }
        if (is_odd(code)) {
            complain_of_byte(store, text, i, "delete it and type a blank or a new line instead",
                             "there is an invisible character here that a scenario may not hold");
            return false;
        }
    }
    return true;
}

static bool is_utf16(const char *text, size_t size)
{
    return size >= 2 && (memcmp(text, "\xFF\xFE", 2) == 0 || memcmp(text, "\xFE\xFF", 2) == 0);
}

/* ---- tabs before the text of a line ---- */

static bool says_nothing(const char *line)
{
    char first = line[strspn(line, " \t")];
    return first == '\0' || first == '#';
}

static bool check_tabs(struct dawn_yamlin_store *store)
{
    bool clean = true;
    for (size_t i = 0; i < store->line_count; i++) {
        const char *line = store->text + store->line[i].start;
        size_t blank = strspn(line, " \t-");
        size_t tab = strcspn(line, "\t");
        if (tab < blank && !says_nothing(line)) {
            complain(store, (int)(i + 1), (int)tab + 1,
                     "set your editor to put two blanks for each step inwards",
                     "indent with blanks, not tabs");
            clean = false;
        }
    }
    return clean;
}

/* Nobody sees a tab on an empty line or before a remark, but libyaml minds it. */
static void blank_unseen_tabs(const struct dawn_yamlin_store *store, char *input)
{
    for (size_t i = 0; i < store->line_count; i++) {
        const char *line = store->text + store->line[i].start;
        if (!says_nothing(line))
            continue;
        for (size_t j = 0; line[j] == ' ' || line[j] == '\t'; j++)
            input[store->line[i].start + j] = ' ';
    }
}

/* ---- events ---- */

static void push(struct dawn_yamlin_store *store, struct dawn_yamlin_event event)
{
    if (store->count == store->capacity) {
        size_t capacity = store->capacity == 0 ? 256 : 2 * store->capacity;
        struct dawn_yamlin_event *grown = realloc(store->event, capacity * sizeof *grown);
        if (grown == NULL) {
            store->no_memory = true;
            return;
        }
        store->event = grown;
        store->capacity = capacity;
    }
    store->event[store->count++] = event;
}

static struct level *top(struct dawn_yamlin_store *store)
{
    return store->depth == 0 ? NULL : &store->level[store->depth - 1];
}

static bool at_key(struct dawn_yamlin_store *store)
{
    const struct level *level = top(store);
    return level != NULL && level->section && level->wants_key;
}

/* A whole key or value has gone by: in a section the other one is next. */
static void turn(struct dawn_yamlin_store *store)
{
    struct level *level = top(store);
    if (level != NULL && level->section)
        level->wants_key = !level->wants_key;
}

static void push_refused(struct dawn_yamlin_store *store, struct place place)
{
    enum dawn_yamlin_kind kind = at_key(store) ? DAWN_YAMLIN_KEY : DAWN_YAMLIN_VALUE;
    push(store, (struct dawn_yamlin_event){kind, true, place.line, place.column, place.byte,
                                           place.byte, ""});
    turn(store);
}

static char *copy_text(const char *text, size_t size)
{
    char *copy = malloc(size + 1);
    if (copy != NULL) {
        memcpy(copy, text, size);
        copy[size] = '\0';
    }
    return copy;
}

static void note_dressing(struct dawn_yamlin_store *store, yaml_mark_t mark, const void *anchor,
                          const void *tag)
{
    if (anchor != NULL)
        complain_at(store, mark, "write the value out at each place",
                    "anchors (&name) are not used in a scenario");
    if (tag != NULL)
        complain_at(store, mark, "leave it out; if the text starts with '!', put it in quotes",
                    "type tags (!name) are not used in a scenario");
}

static void on_scalar(struct dawn_yamlin_store *store, const yaml_event_t *event)
{
    const char *value = (const char *)event->data.scalar.value;
    struct place start = place_of(store, event->start_mark);
    struct place end = place_of(store, event->end_mark);
    bool block = event->data.scalar.style == YAML_LITERAL_SCALAR_STYLE ||
                 event->data.scalar.style == YAML_FOLDED_SCALAR_STYLE;
    note_dressing(store, event->start_mark, event->data.scalar.anchor, event->data.scalar.tag);
    if (block || start.line != end.line) {
        complain(store, start.line, start.column, "write it on one line behind its key",
                 block ? "texts over several lines (| or >) are not used in a scenario"
                       : "this value runs on to the next line");
        push_refused(store, start);
        return;
    }
    if (memchr(value, '\0', event->data.scalar.length) != NULL) {
        complain(store, start.line, start.column, "leave it out", "this text holds a NUL");
        push_refused(store, start);
        return;
    }
    struct words *words = malloc(sizeof *words + event->data.scalar.length + 1);
    if (words == NULL) {
        store->no_memory = true;
        return;
    }
    memcpy(words->text, value, event->data.scalar.length + 1);
    words->next = store->words;
    store->words = words;
    push(store,
         (struct dawn_yamlin_event){at_key(store) ? DAWN_YAMLIN_KEY : DAWN_YAMLIN_VALUE, false,
                                    start.line, start.column, start.byte + store->skipped,
                                    end.byte + store->skipped, words->text});
    turn(store);
}

static void refuse_opening(struct dawn_yamlin_store *store, const yaml_event_t *event,
                           const char *hint, const char *message)
{
    struct place place = place_of(store, event->start_mark);
    complain(store, place.line, place.column, hint, message);
    push_refused(store, place);
    store->skip = 1;
}

static void on_opening(struct dawn_yamlin_store *store, const yaml_event_t *event)
{
    bool section = event->type == YAML_MAPPING_START_EVENT;
    bool flow = section ? event->data.mapping_start.style == YAML_FLOW_MAPPING_STYLE
                        : event->data.sequence_start.style == YAML_FLOW_SEQUENCE_STYLE;
    if (section)
        note_dressing(store, event->start_mark, event->data.mapping_start.anchor,
                      event->data.mapping_start.tag);
    else
        note_dressing(store, event->start_mark, event->data.sequence_start.anchor,
                      event->data.sequence_start.tag);
    if (flow) {
        refuse_opening(store, event,
                       section ? "write each key on its own line below, indented"
                               : "write each item on its own line below, beginning with '- '",
                       section ? "braces { } are not used in a scenario"
                               : "brackets [ ] are not used in a scenario");
        return;
    }
    if (at_key(store)) {
        refuse_opening(store, event, "write 'key: value'", "a key must be a plain word");
        return;
    }
    struct place place = place_of(store, event->start_mark);
    if (store->depth == DAWN_YAMLIN_DEPTH_MOST) {
        complain(store, place.line, place.column, "check the indentation",
                 "sections stand in sections here, deeper than any scenario needs");
        store->broken = true;
        return;
    }
    push(store, (struct dawn_yamlin_event){section ? DAWN_YAMLIN_SECTION : DAWN_YAMLIN_LIST, false,
                                           place.line, place.column, place.byte + store->skipped,
                                           place.byte + store->skipped, ""});
    store->level[store->depth++] = (struct level){section, true};
}

static void close_level(struct dawn_yamlin_store *store, struct place place)
{
    const struct level *level = top(store);
    if (level == NULL)
        return;
    if (level->section && !level->wants_key)
        push_refused(store, place);
    push(store,
         (struct dawn_yamlin_event){level->section ? DAWN_YAMLIN_SECTION_END : DAWN_YAMLIN_LIST_END,
                                    false, place.line, place.column, place.byte + store->skipped,
                                    place.byte + store->skipped, ""});
    store->depth--;
    turn(store);
}

static void on_skipped(struct dawn_yamlin_store *store, const yaml_event_t *event)
{
    if (event->type == YAML_MAPPING_START_EVENT || event->type == YAML_SEQUENCE_START_EVENT)
        store->skip++;
    if (event->type == YAML_MAPPING_END_EVENT || event->type == YAML_SEQUENCE_END_EVENT)
        store->skip--;
    if (store->skip > FLOW_DEPTH_MOST)
        store->broken = true; /* the opening bracket has been complained of */
}

static void on_alias(struct dawn_yamlin_store *store, const yaml_event_t *event)
{
    struct place place = place_of(store, event->start_mark);
    complain(store, place.line, place.column,
             "write the value out; if the text starts with '*', put it in quotes",
             "references (*name) are not used in a scenario");
    push_refused(store, place);
}

static void on_document(struct dawn_yamlin_store *store, const yaml_event_t *event, bool second)
{
    if (event->data.document_start.version_directive != NULL ||
        event->data.document_start.tag_directives.start !=
            event->data.document_start.tag_directives.end)
        complain_at(store, event->start_mark, "leave the line out",
                    "lines starting with % are not used in a scenario");
    if (second) {
        complain_at(store, event->start_mark, "put the other nursery into a file of its own",
                    "a second document starts here; a scenario file holds one");
        store->broken = true;
    }
}

/* ---- libyaml's own complaints, in words a grower can use ---- */

struct saying {
    const char *theirs, *ours, *hint;
};

static const struct saying SAYINGS[] = {
    {"mapping values are not allowed",
     "a second ': ' stands in this line, or it is indented wrongly",
     "put a text that holds ': ' in quotes; keys of one section start in the same column"},
    {"could not find expected ':'", "this line is neither 'key: value' nor a list item",
     "write a colon and a blank between key and value"},
    {"did not find expected key", "this line is not indented like the lines it belongs to",
     "keys of one section start in the same column"},
    {"did not find expected '-' indicator", "this line is not indented like the list it follows",
     "items of one list start with '-' in the same column"},
    {"block sequence entries are not allowed", "a list item cannot start here",
     "put '- ' at the start of a line of its own"},
    {"found unexpected end of stream", "a quotation mark is opened here and never closed",
     "close it on the same line"},
    {"found unexpected document indicator", "a quotation mark is opened here and never closed",
     "close it on the same line"},
    {"found unknown escape character", "a backslash in double quotes means something special",
     "use single quotes, or no quotes"},
    {"found undefined tag handle", "type tags (!name) are not used in a scenario", "leave it out"},
    {"did not find expected alphabetic or numeric character",
     "a value cannot start with '&' or '*'", "put the text in quotes"},
    {"did not find expected <document start>", "this does not belong to the lines above",
     "check its indentation"},
    {"did not find expected ',' or", "brackets and braces are not used in a scenario",
     "write each item on its own line below, beginning with '- '"},
    {"did not find expected node content", "brackets and braces are not used in a scenario",
     "write each item on its own line below, beginning with '- '"},
};

static bool points_at_start(const yaml_parser_t *parser)
{
    const char *context = parser->context;
    return context != NULL && (strcmp(context, "while scanning a simple key") == 0 ||
                               strcmp(context, "while scanning a quoted scalar") == 0);
}

static void complain_of_token(struct dawn_yamlin_store *store, struct place place)
{
    if (place.byte < store->size && store->text[place.byte] == '\t')
        complain(store, place.line, place.column,
                 "set your editor to put two blanks for each step inwards",
                 "indent with blanks, not tabs");
    else
        complain(store, place.line, place.column, "put the text in quotes",
                 "a value cannot start with this character");
}

static void on_failure(struct dawn_yamlin_store *store, const yaml_parser_t *parser)
{
    store->broken = true;
    if (parser->error == YAML_MEMORY_ERROR || parser->problem == NULL) {
        store->no_memory = true;
        return;
    }
    yaml_mark_t mark = points_at_start(parser) ? parser->context_mark : parser->problem_mark;
    struct place place = place_of(store, mark);
    if (strstr(parser->problem, "cannot start any token") != NULL) {
        complain_of_token(store, place);
        return;
    }
    for (size_t i = 0; i < sizeof SAYINGS / sizeof SAYINGS[0]; i++) {
        if (strstr(parser->problem, SAYINGS[i].theirs) != NULL) {
            complain(store, place.line, place.column, SAYINGS[i].hint, SAYINGS[i].ours);
            return;
        }
    }
    complain(store, place.line, place.column,
             "compare the line with its neighbours: indentation, colons, quotes",
             "this line cannot be understood");
}

/* ---- the loop ---- */

static void on_event(struct dawn_yamlin_store *store, const yaml_event_t *event, size_t *documents)
{
    if (store->skip > 0) {
        on_skipped(store, event);
        return;
    }
    switch (event->type) {
    case YAML_DOCUMENT_START_EVENT:
        on_document(store, event, (*documents)++ > 0);
        break;
    case YAML_SCALAR_EVENT:
        on_scalar(store, event);
        break;
    case YAML_ALIAS_EVENT:
        on_alias(store, event);
        break;
    case YAML_MAPPING_START_EVENT:
    case YAML_SEQUENCE_START_EVENT:
        on_opening(store, event);
        break;
    case YAML_MAPPING_END_EVENT:
    case YAML_SEQUENCE_END_EVENT:
        close_level(store, place_of(store, event->start_mark));
        break;
    default:
        break;
    }
    if (store->count >= DAWN_YAMLIN_EVENTS_MOST && !store->broken) {
        complain_at(store, event->start_mark, "split the nursery into several scenarios",
                    "there is more here than any scenario needs");
        store->broken = true;
    }
}

static void run(struct dawn_yamlin_store *store, yaml_parser_t *parser)
{
    size_t documents = 0;
    bool done = false;
    while (!done && !store->broken && !store->no_memory) {
        yaml_event_t event;
        if (!yaml_parser_parse(parser, &event)) {
            on_failure(store, parser);
            return;
        }
        done = event.type == YAML_STREAM_END_EVENT;
        on_event(store, &event, &documents);
        yaml_event_delete(&event);
    }
}

/* Closes what is open, so that a list that broke off is well formed too. */
static void finish(struct dawn_yamlin_store *store)
{
    struct place end = {(int)store->line_count, 1, store->size};
    while (store->depth > 0)
        close_level(store, end);
    push(store,
         (struct dawn_yamlin_event){DAWN_YAMLIN_END, false, end.line, end.column,
                                    end.byte + store->skipped, end.byte + store->skipped, ""});
}

static void parse(struct dawn_yamlin_store *store, const char *text)
{
    yaml_parser_t parser;
    char *input = copy_text(text, store->size);
    if (input == NULL || !yaml_parser_initialize(&parser)) {
        free(input);
        store->no_memory = true;
        return;
    }
    blank_unseen_tabs(store, input);
    yaml_parser_set_encoding(&parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&parser, (const unsigned char *)input, store->size);
    run(store, &parser);
    yaml_parser_delete(&parser);
    free(input);
}

static bool take_text(struct dawn_yamlin_store *store, const char *text, size_t size)
{
    store->text = copy_text(text, size);
    store->size = size;
    store->line = calloc(count_lines(text, size), sizeof *store->line);
    if (store->text == NULL || store->line == NULL) {
        store->no_memory = true;
        return false;
    }
    split_lines(store);
    return true;
}

static bool is_acceptable(struct dawn_yamlin_store *store, const char *text, size_t size)
{
    struct dawn_place_in_file whole_file = {store->name, 0, 0, NULL};
    if (size > DAWN_YAMLIN_SIZE_MOST) {
        dawn_problems_add(store->problems, DAWN_ERROR, whole_file,
                          "a scenario is a page or two of text; is this the right file?",
                          "the file is larger than 1 MB");
        return false;
    }
    if (is_utf16(text, size)) {
        dawn_problems_add(store->problems, DAWN_ERROR, whole_file,
                          "save the file as UTF-8 in your editor",
                          "the file is UTF-16 text, not UTF-8");
        return false;
    }
    return is_text(store, text, size);
}

enum dawn_status dawn_yamlin_read(struct dawn_yamlin *yaml, const char *name, const char *text,
                                  size_t size, struct dawn_problems *problems)
{
    *yaml = (struct dawn_yamlin){0};
    struct dawn_yamlin_store *store = calloc(1, sizeof *store);
    if (store == NULL)
        return DAWN_ERR_NOMEM;
    yaml->store = store;
    store->name = name;
    store->problems = problems;
    store->problems_before = problems->count;
    if (size >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0)
        store->skipped = 3;
    text += store->skipped;
    size -= store->skipped;
    store->broken = !is_acceptable(store, text, size);
    if (!store->broken && take_text(store, text, size)) {
        if (check_tabs(store))
            parse(store, text);
        else
            store->broken = true;
    }
    if (!store->no_memory)
        finish(store);
    yaml->event = store->event;
    yaml->count = store->count;
    yaml->whole = !store->broken && !store->no_memory;
    return store->no_memory ? DAWN_ERR_NOMEM : DAWN_OK;
}

const char *dawn_yamlin_line(const struct dawn_yamlin *yaml, int line)
{
    return yaml == NULL || yaml->store == NULL ? NULL : shown_line(yaml->store, line);
}

void dawn_yamlin_release(struct dawn_yamlin *yaml)
{
    struct dawn_yamlin_store *store = yaml->store;
    if (store != NULL) {
        for (struct words *words = store->words; words != NULL; words = store->words) {
            store->words = words->next;
            free(words);
        }
        free(store->event);
        free(store->line);
        free(store->text);
        free(store);
    }
    *yaml = (struct dawn_yamlin){0};
}
