/* Where the answers for a new scenario come from: a dialogue, a file of answers, the command line.
 */
#ifndef CLI_ASK_H
#define CLI_ASK_H

#include "dawnlow/problems.h"
#include "scenario/draft.h"

struct dawn_ask {
    struct dawn_draft *draft;
    struct dawn_problems *problems;
    bool given_only; /* nobody is asked: what was not given takes its default */
    bool terminal;   /* somebody sits there: a wrong answer is asked again */
    bool began;      /* a line came in */
    bool ended;      /* standard input has no more lines */
    struct {
        char text[DAWN_DRAFT_ANSWER_SIZE];
        bool there, used;
        int line; /* of the file; 0 = from the command line */
    } given[DAWN_DRAFT_QUESTIONS_MOST];
    const char *file; /* of answers, for messages; NULL = none */
};

/* Takes the answers of a file ("question: answer" lines; path may be NULL), then lays the command
 * line's ("question=answer") over them. Every mistake goes to problems. */
enum dawn_status dawn_ask_given(struct dawn_ask *ask, const char *path, const char *const *words,
                                size_t count);
/* Goes through the questions until each that applies has its answer. */
enum dawn_status dawn_ask_all(struct dawn_ask *ask);

/* The questions as a file of answers, every default in its place, to be filled in. */
void dawn_ask_template(bool us, const char *demo_weather);

#endif
