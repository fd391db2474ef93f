/* Words that growers meet in what the program prints, and what its commonest complaints mean. */
#ifndef CLI_LEXICON_H
#define CLI_LEXICON_H

#include <stddef.h>

struct dawn_lexicon {
    const char *term; /* a word as printed, or the steady part of a complaint */
    const char *meaning;
};
const struct dawn_lexicon *dawn_lexicon_words(size_t *count);
/* term: words of the message as it is printed. meaning: why it is said, and what to do. */
const struct dawn_lexicon *dawn_lexicon_complaints(size_t *count);

/* The word (any case), or NULL. */
const struct dawn_lexicon *dawn_lexicon_word(const char *asked);
/* The complaint whose words stand in a message that was copied from the screen, or that begins with
 * what was asked; NULL when there is none. */
const struct dawn_lexicon *dawn_lexicon_complaint(const char *asked);

#endif
