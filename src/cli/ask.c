/* Where the answers for a new scenario come from: a dialogue, a file of answers, the command line.
 */
#include "cli/ask.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/options.h"

enum { FILE_SIZE_MOST = 64 * 1024 };

/* ---- given beforehand ---- */

static int question_named(const char *key, size_t size)
{
    size_t count = 0;
    const struct dawn_draft_question *questions = dawn_draft_questions(&count);

    for (size_t i = 0; i < count; i++) {
        if (strlen(questions[i].key) == size && strncmp(questions[i].key, key, size) == 0) {
            return (int)i;
        }
    }
    return -1;
}

static void say_unknown(struct dawn_ask *ask, const char *key, struct dawn_place_in_file place)
{
    size_t count = 0;
    const struct dawn_draft_question *questions = dawn_draft_questions(&count);
    const char *nearest = dawn_options_nearest(key, &questions[0].key, count, sizeof questions[0]);
    struct dawn_text hint = {0};

    if (nearest != NULL) {
        dawn_text_add(&hint, "did you mean %s?", nearest);
    } else {
        dawn_text_add(&hint, "dawnlow new --questions lists them");
    }
    dawn_problems_add(ask->problems, DAWN_ERROR, place, hint.data, "there is no question '%s'",
                      key);
    dawn_text_release(&hint);
}

/* One "key<mark>answer"; line 0 = from the command line. */
static void keep(struct dawn_ask *ask, const char *text, char mark, int line)
{
    const struct dawn_place_in_file place = {
        .file = line > 0 ? ask->file : NULL, .line = line, .source_line = line > 0 ? text : NULL};
    const char *at = strchr(text, mark);
    char key[DAWN_DRAFT_ANSWER_SIZE];

    if (at == NULL || !dawn_draft_trimmed(key, sizeof key, text, (size_t)(at - text))) {
        dawn_problems_add(ask->problems, DAWN_ERROR, place, "as in 'size: 10 m x 6 m'",
                          "a question and its answer are expected, with '%c' between", mark);
        return;
    }
    const int question = question_named(key, strlen(key));
    if (question < 0) {
        say_unknown(ask, key, place);
        return;
    }
    if (ask->given[question].there && (ask->given[question].line == 0) == (line == 0)) {
        dawn_problems_add(ask->problems, DAWN_ERROR, place, "leave one of them out",
                          "'%s' is answered twice", key);
        return;
    }
    ask->given[question].there = dawn_draft_trimmed(ask->given[question].text,
                                                    DAWN_DRAFT_ANSWER_SIZE, at + 1, strlen(at + 1));
    ask->given[question].line = line;
    if (!ask->given[question].there) {
        dawn_problems_add(ask->problems, DAWN_ERROR, place, NULL, "the answer is too long");
    }
}

/* Lines end where they end; what is behind " #" or begins with '#' is a remark. */
static void keep_lines(struct dawn_ask *ask, char *text)
{
    int line = 0;

    for (char *at = text; at != NULL;) {
        char *end = strchr(at, '\n');
        line++;
        if (end != NULL) {
            *end = '\0';
        }
        char *remark = at[0] == '#' ? at : strstr(at, " #");
        if (remark != NULL) {
            *remark = '\0';
        }
        if (at[strspn(at, " \t\r")] != '\0') {
            keep(ask, at, ':', line);
        }
        at = end != NULL ? end + 1 : NULL;
    }
}

enum dawn_status dawn_ask_given(struct dawn_ask *ask, const char *path, const char *const *words,
                                size_t count)
{
    const size_t errors_before = ask->problems->errors;
    size_t size = 0;

    ask->file = path;
    ask->given_only = path != NULL || count > 0;
    if (path != NULL) {
        const struct dawn_place_in_file place = {.file = path};
        char *text = dawn_text_read_file(path, FILE_SIZE_MOST, &size);
        if (text == NULL) {
            dawn_problems_add(ask->problems, DAWN_ERROR, place, NULL, "cannot be read: %s",
                              strerror(errno));
            return DAWN_ERR_IO;
        }
        keep_lines(ask, text);
        free(text);
    }
    for (size_t i = 0; i < count; i++) {
        keep(ask, words[i], '=', 0);
    }
    return ask->problems->errors == errors_before ? DAWN_OK : DAWN_ERR_USAGE;
}

/* ---- the dialogue ---- */

static void put_list(void)
{
    size_t count = 0;
    const struct dawn_glazing_type *types = dawn_scenario_glazing_types(&count);

    for (size_t i = 0; i < count; i++) {
        printf("    %2zu  %-20s ", i + 1, types[i].word);
        dawn_options_put_words(stdout, types[i].meaning, 29);
    }
}

static void put_question(const struct dawn_draft_question *question, size_t number,
                         const char *usual)
{
    printf("\n%2zu  ", number);
    dawn_options_put_words(stdout, question->text, 4);
    if (question->list) {
        put_list();
    }
    printf("    [%s] ", usual);
    (void)fflush(stdout);
}

/* One line of standard input without its end; false when there is none. What does not fit is made
 * too long to be taken. */
static bool read_line(char *line, size_t size)
{
    size_t used = 0;
    int byte = getchar();

    if (byte == EOF) {
        return false;
    }
    for (; byte != EOF && byte != '\n'; byte = getchar()) {
        if (used + 1 < size && byte != '\r') {
            line[used++] = (char)(byte == '\0' ? '\1' : byte);
        }
    }
    line[used] = '\0';
    return true;
}

/* What came of one question. */
enum turn { TURN_TAKEN, TURN_BACK, TURN_STOP };

static void say_wrong(struct dawn_ask *ask, size_t question, const char *why)
{
    size_t count = 0;
    const struct dawn_draft_question *row = dawn_draft_questions(&count) + question;
    const int line = ask->given[question].line;
    const struct dawn_place_in_file place = {.file = line > 0 ? ask->file : NULL, .line = line};

    dawn_problems_add(ask->problems, DAWN_ERROR, place, row->more, "%s: %s", row->key, why);
}

static enum turn say_ended(struct dawn_ask *ask)
{
    dawn_problems_add(ask->problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                      "begin again; Enter takes what stands in brackets",
                      "the answers ended early, so nothing was written");
    return TURN_STOP;
}

/* No answer is there and nobody can be asked. */
static enum turn take_usual(struct dawn_ask *ask, size_t question)
{
    size_t count = 0;
    const struct dawn_draft_question *row = dawn_draft_questions(&count) + question;
    struct dawn_text why = {0};

    if (row->must) {
        dawn_text_add(&why, "this has to be answered here");
    } else if (dawn_draft_answer(ask->draft, question, "", &why)) {
        return TURN_TAKEN;
    }
    say_wrong(ask, question, why.data != NULL ? why.data : "");
    dawn_text_release(&why);
    return TURN_STOP;
}

static enum turn take(struct dawn_ask *ask, size_t question, const char *answer)
{
    struct dawn_text why = {0};
    const bool read = dawn_draft_answer(ask->draft, question, answer, &why);

    if (!read && ask->terminal) {
        fputs("    ", stdout);
        dawn_options_put_words(stdout, why.data != NULL ? why.data : "", 4);
    } else if (!read) {
        say_wrong(ask, question, why.data != NULL ? why.data : "");
    }
    dawn_text_release(&why);
    return read ? TURN_TAKEN : TURN_STOP;
}

/* Piped answers may be fewer than the questions; none at all were meant for somebody else. */
static enum turn say_rest(struct dawn_ask *ask, size_t question)
{
    size_t count = 0;
    const char *key = dawn_draft_questions(&count)[question].key;

    if (!ask->began) {
        dawn_problems_add(ask->problems, DAWN_ERROR, (struct dawn_place_in_file){0},
                          "answer on a terminal, send a line for each question, or take every "
                          "default: dawnlow new --answers /dev/null",
                          "standard input holds no answers, so nothing was written");
        return TURN_STOP;
    }
    dawn_problems_add(ask->problems, DAWN_NOTE, (struct dawn_place_in_file){0}, NULL,
                      "the answers ended before '%s': it and what comes behind it take their "
                      "defaults",
                      key);
    return take_usual(ask, question);
}

/* Asks until there is an answer; "?" tells more, "<" goes back. */
static enum turn talk(struct dawn_ask *ask, size_t question, size_t number)
{
    size_t count = 0;
    const struct dawn_draft_question *row = dawn_draft_questions(&count) + question;
    char line[DAWN_DRAFT_ANSWER_SIZE + 1];
    enum turn turn = TURN_STOP;

    do {
        struct dawn_text usual = {0};
        dawn_draft_usual(ask->draft, question, &usual);
        put_question(row, number, usual.data != NULL ? usual.data : "");
        dawn_text_release(&usual);
        if (!read_line(line, sizeof line)) {
            fputc('\n', stdout);
            ask->ended = true;
            return ask->terminal ? say_ended(ask) : say_rest(ask, question);
        }
        ask->began = true;
        if (!ask->terminal) {
            printf("%s\n", line);
        }
        if (strcmp(line, "<") == 0) {
            return TURN_BACK;
        }
        if (strcmp(line, "?") == 0) {
            fputs("    ", stdout);
            dawn_options_put_words(stdout, row->more, 4);
            continue;
        }
        turn = take(ask, question, line);
    } while (turn == TURN_STOP && (ask->terminal || strcmp(line, "?") == 0));
    return turn;
}

static enum turn settle(struct dawn_ask *ask, size_t question, size_t number)
{
    if (ask->given[question].there) {
        ask->given[question].used = true;
        ask->terminal = false;
        return take(ask, question, ask->given[question].text);
    }
    if (ask->given_only || ask->ended) {
        return take_usual(ask, question);
    }
    return talk(ask, question, number);
}

static void warn_of_unused(struct dawn_ask *ask)
{
    size_t count = 0;
    const struct dawn_draft_question *questions = dawn_draft_questions(&count);

    for (size_t i = 0; i < count; i++) {
        const int line = ask->given[i].line;
        const struct dawn_place_in_file place = {.file = line > 0 ? ask->file : NULL, .line = line};
        if (ask->given[i].there && !ask->given[i].used) {
            dawn_problems_add(ask->problems, DAWN_WARNING, place, NULL,
                              "'%s' was not asked after the other answers, so its answer is not "
                              "used",
                              questions[i].key);
        }
    }
}

enum dawn_status dawn_ask_all(struct dawn_ask *ask)
{
    size_t count = 0;
    size_t path[DAWN_DRAFT_QUESTIONS_MOST]; /* the questions so far, for going back */
    size_t depth = 0;

    (void)dawn_draft_questions(&count);
    for (size_t i = 0; i < count;) {
        if (!dawn_draft_applies(ask->draft, i)) {
            i++;
            continue;
        }
        const enum turn turn = settle(ask, i, depth + 1);
        if (turn == TURN_STOP) {
            return DAWN_ERR_USAGE;
        }
        if (turn == TURN_TAKEN) {
            path[depth++] = i++;
        } else if (depth > 0) {
            i = path[--depth];
        }
    }
    warn_of_unused(ask);
    return DAWN_OK;
}

/* Words as remarks of a file, broken before column 81. */
static void put_remark(const char *text)
{
    size_t column = 1;

    fputs("\n#", stdout);
    while (*text != '\0') {
        const size_t size = strcspn(text, " ");
        if (column + 1 + size > 80) {
            fputs("\n#", stdout);
            column = 1;
        }
        printf(" %.*s", (int)size, text);
        column += 1 + size;
        text += size;
        text += strspn(text, " ");
    }
    fputc('\n', stdout);
}

void dawn_ask_template(bool us, const char *demo_weather)
{
    static struct dawn_draft draft;
    size_t count = 0;
    const struct dawn_draft_question *questions = dawn_draft_questions(&count);
    struct dawn_text ignored = {0};

    dawn_draft_begin(&draft, "", us, demo_weather);
    fputs("# Answers for dawnlow new --answers FILE. Lines left out take their default.\n", stdout);
    for (size_t i = 0; i < count; i++) {
        struct dawn_text usual = {0};
        const bool asked = dawn_draft_applies(&draft, i);
        put_remark(questions[i].text);
        dawn_draft_usual(&draft, i, &usual);
        printf("%s%s: %s\n", asked ? "" : "# ", questions[i].key,
               usual.data != NULL ? usual.data : "");
        if (asked) {
            (void)dawn_draft_answer(&draft, i, "", &ignored);
        }
        dawn_text_release(&usual);
    }
    dawn_text_release(&ignored);
}
