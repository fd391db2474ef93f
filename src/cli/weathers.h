/* The years of weather a study goes over: several files, or what a long file holds. */
#ifndef CLI_WEATHERS_H
#define CLI_WEATHERS_H

#include "cli/inputs.h"
#include "cli/window.h"
#include "dawnlow/studies/years.h"

/* {0} to start; released with dawn_weathers_release. */
struct dawn_weathers {
    char **path; /* every file, folders opened up; path_count may be 0 */
    size_t path_count;
    struct dawn_weather *more; /* of all files but the first, which the inputs hold */
    struct dawn_year *year;
    size_t year_count;
    struct dawn_years years;
};

/* Settles the files of --weather: a folder stands for its *.csv files, by name. */
enum dawn_status dawn_weathers_find(struct dawn_weathers *weathers,
                                    const struct dawn_options_phrases *given,
                                    struct dawn_problems *problems);
/* Reads all but the first, whose weather and window are there already, and finds their windows. One
 * that is much longer than a year is cut into calendar years, at noon of the first of January; what
 * is left at its ends, when less than two months, goes with its neighbour. */
enum dawn_status dawn_weathers_read(struct dawn_weathers *weathers,
                                    const struct dawn_inputs *inputs,
                                    const struct dawn_options *options, struct dawn_window first,
                                    struct dawn_problems *problems);
void dawn_weathers_release(struct dawn_weathers *weathers);

#endif
