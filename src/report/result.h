/* Of the files that draw a result again: what is held of it, and the picture of each kind. */
#ifndef REPORT_RESULT_H
#define REPORT_RESULT_H

#include "base/jsonin.h"
#include "report/picture.h"

enum { DAWN_RESULT_HELD = 8 };
struct dawn_result {
    struct dawn_jsonin json;
    dawn_jsonin_node root;
    char *text, *path;
    void *held[DAWN_RESULT_HELD]; /* what pictures point to */
    size_t held_count;
};

/* Zeroed room for so many, held by the result; NULL when memory ran out. At least one byte. */
void *dawn_result_hold(struct dawn_result *result, size_t count, size_t size);
/* A member's number or text, NAN or "" without one; a member that is a list of at least one. */
double dawn_result_number(const struct dawn_result *result, dawn_jsonin_node object,
                          const char *key);
const char *dawn_result_text(const struct dawn_result *result, dawn_jsonin_node object,
                             const char *key);
/* A moment as ISO 8601 with its offset, which goes to *offset_h; NAN without one. */
double dawn_result_moment(const struct dawn_result *result, dawn_jsonin_node object,
                          const char *key, double *offset_h);
/* A night's dusk and dawn; false where one is missing. */
bool dawn_result_night(const struct dawn_result *result, dawn_jsonin_node night, int64_t *dusk_s,
                       int64_t *dawn_s, double *offset_h);
/* The result lacks something; DAWN_ERR_USAGE. */
enum dawn_status dawn_result_lacks(const struct dawn_result *result, const char *what,
                                   struct dawn_problems *problems);

/* Each builds the picture of one kind of result. */
typedef enum dawn_status dawn_result_build(struct dawn_picture *picture, struct dawn_result *result,
                                           enum dawn_units units, struct dawn_problems *problems);
dawn_result_build dawn_result_nights_lows, dawn_result_nights_heat;
dawn_result_build dawn_result_coming_forecast, dawn_result_coming_chances,
    dawn_result_coming_tonight;
dawn_result_build dawn_result_studies_size, dawn_result_studies_setpoint, dawn_result_studies_worth,
    dawn_result_studies_guesses, dawn_result_studies_effects, dawn_result_studies_compare,
    dawn_result_studies_sweep;

#endif
