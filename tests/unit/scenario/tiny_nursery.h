/* The smallest scenario with something of everything, and ways to spoil it. */
#ifndef TESTS_TINY_NURSERY_H
#define TESTS_TINY_NURSERY_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <math.h>
#include <setjmp.h>

#include <cmocka.h>

#include "dawnlow/scenario.h"

/* cmocka compares in single precision only. */
#define assert_near(value, expected, tolerance)                                                    \
    assert_true(fabs((value) - (expected)) <= (tolerance))

static const char TINY_NURSERY[] = /* line numbers matter to the tests */
    "dawnlow: 1\n"                 /* 1 */
    "name: Tiny\n"                 /* 2 */
    "site:\n"                      /* 3 */
    "  latitude: 45 N\n"           /* 4 */
    "  longitude: 7 E\n"           /* 5 */
    "  utc_offset: +1 h\n"         /* 6 */
    "house:\n"                     /* 7 */
    "  length: 10 m\n"             /* 8 */
    "  width: 6 m\n"               /* 9 */
    "  height: 2.5 m\n"            /* 10 */
    "moisture:\n"                  /* 11 */
    "  film: 0.2 mm\n"             /* 12 */
    "glazing:\n"                   /* 13 */
    "  - name: south roof\n"       /* 14 */
    "    area: 60 m2\n"            /* 15 */
    "    slope: 35 deg\n"          /* 16 */
    "    azimuth: S\n"             /* 17 */
    "    type: glass\n"            /* 18 */
    "  - name: end\n"              /* 19 */
    "    area: 15 m2\n"            /* 20 */
    "    slope: 90 deg\n"          /* 21 */
    "    azimuth: 90 deg\n"        /* 22 */
    "    type: twinwall-8mm\n"     /* 23 */
    "walls:\n"                     /* 24 */
    "  - name: north\n"            /* 25 */
    "    area: 25 m2\n"            /* 26 */
    "    layers:\n"                /* 27 */
    "      - name: wood\n"         /* 28 */
    "        thickness: 40 mm\n"   /* 29 */
    "        conductivity: 0.13 W/mK\n"
    "        density: 500 kg/m3\n"
    "        specific_heat: 1600 J/kgK\n" /* 32 */
    "bed:\n"                              /* 33 */
    "  area: 20 m2\n"                     /* 34 */
    "rock:\n"                             /* 35 */
    "  mass: 18 t\n"                      /* 36 */
    "fan:\n"                              /* 37 */
    "  flow: 1000 m3/h\n"                 /* 38 */
    "  power: 90 W\n"                     /* 39 */
    "barrels:\n"                          /* 40 */
    "  - count: 8\n"                      /* 41 */
    "    volume: 200 L\n"                 /* 42 */
    "trays:\n"                            /* 43 */
    "  area: 15 m2\n"                     /* 44 */
    "crops:\n"                            /* 45 */
    "  - name: tomato\n"                  /* 46 */
    "    damage_below: 0 C\n"             /* 47 */
    "ground:\n"                           /* 48 */
    "  edge_loss: 0.7 W/mK\n"             /* 49 */
    "weather:\n"                          /* 50 */
    "  file: w.csv\n"                     /* 51 */
    "start:\n"                            /* 52 */
    "  spin_up: 5 d\n"                    /* 53 */
    "ducts:\n"                            /* 54 */
    "  - length: 4 m\n"                   /* 55 */
    "    diameter: 30 cm\n"               /* 56 */
    "openings:\n"                         /* 57 */
    "  - area: 1.5 m2\n"                  /* 58 */
    "    place: ridge\n"                  /* 59 */
    "    opens_at: 30 C\n"                /* 60 */
    "outdoor_fan:\n"                      /* 61 */
    "  air_changes: 8 /h\n"               /* 62 */
    "  from: 18:00\n"                     /* 63 */
    "  until: 7 h\n"                      /* 64 */
    "covers:\n"                           /* 65 */
    "  - over: house\n"                   /* 66 */
    "fans:\n"                             /* 67 */
    "  - name: small\n"                   /* 68 */
    "    free_air: 900 m3/h\n"            /* 69 */
    "    greatest_pressure: 90 Pa\n"      /* 70 */
    "    power: 60 W\n"                   /* 71 */
    "    price: 150\n"                    /* 72 */
    "actions:\n"                          /* 73 */
    "  - name: warm\n"                    /* 74 */
    "    heater: 500 W\n"                 /* 75 */
    "snow:\n"                             /* 76 */
    "  - name: big\n"                     /* 77 */
    "    from: 03-04\n"                   /* 78 */
    "    depth: 20 cm\n";                 /* 79 */

/* The nursery with the first occurrence of find replaced; to be freed. */
static inline char *spoilt(const char *find, const char *replacement)
{
    const char *at = strstr(TINY_NURSERY, find);
    if (at == NULL)
        fail_msg("the tiny nursery does not hold '%s'", find);
    size_t size = strlen(TINY_NURSERY) + strlen(replacement) + 1;
    char *text = malloc(size);
    assert_non_null(text);
    (void)snprintf(text, size, "%.*s%s%s", (int)(at - TINY_NURSERY), TINY_NURSERY, replacement,
                   at + strlen(find));
    return text;
}

struct reading {
    struct dawn_scenario scenario;
    struct dawn_problems problems;
    enum dawn_status status;
};

static inline void read_bytes(struct reading *reading, const char *text, size_t size)
{
    memset(reading, 0, sizeof *reading);
    reading->status = dawn_scenario_parse(&reading->scenario, "tiny.yaml", text, size, NULL, 0,
                                          &reading->problems);
}

static inline void read_with(struct reading *reading, const char *text, const char *override)
{
    memset(reading, 0, sizeof *reading);
    reading->status = dawn_scenario_parse(&reading->scenario, "tiny.yaml", text, strlen(text),
                                          &override, override == NULL ? 0 : 1, &reading->problems);
}

static inline void put_away(struct reading *reading)
{
    dawn_scenario_release(&reading->scenario);
    dawn_problems_release(&reading->problems);
}

static inline void print_problems(const struct dawn_problems *problems)
{
    for (size_t i = 0; i < problems->count; i++)
        print_message("  %s:%d:%d: %s [%s]\n", problems->items[i].file, problems->items[i].line,
                      problems->items[i].column, problems->items[i].message,
                      problems->items[i].hint == NULL ? "" : problems->items[i].hint);
}

/* Whether message or hint holds every one of the words, parted by '|'. */
static inline bool says(const struct dawn_problem *problem, const char *words)
{
    char said[2048];
    char word[128];
    (void)snprintf(said, sizeof said, "%s\n%s", problem->message,
                   problem->hint == NULL ? "" : problem->hint);
    while (*words != '\0') {
        size_t length = strcspn(words, "|");
        assert_true(length < sizeof word);
        memcpy(word, words, length);
        word[length] = '\0';
        if (strstr(said, word) == NULL)
            return false;
        words += length + (words[length] == '|');
    }
    return true;
}

static inline bool is_said(const struct dawn_problems *problems, enum dawn_severity severity,
                           int line, int column, const char *words)
{
    for (size_t i = 0; i < problems->count; i++) {
        const struct dawn_problem *problem = &problems->items[i];
        if (problem->severity == severity && problem->line == line && problem->column == column &&
            says(problem, words))
            return true;
    }
    return false;
}

struct mistake {
    const char *find, *replacement; /* in the tiny nursery */
    enum dawn_severity severity;
    int line, column;
    const char *words; /* in message and hint */
};

static inline void try_mistake(const struct mistake *mistake)
{
    char *text = spoilt(mistake->find, mistake->replacement);
    struct reading r;
    read_with(&r, text, NULL);
    bool silent = mistake->words[0] == '\0';
    bool fine = silent ? r.problems.count == 0
                       : is_said(&r.problems, mistake->severity, mistake->line, mistake->column,
                                 mistake->words);
    if (!fine) {
        print_problems(&r.problems);
        fail_msg("'%s' should say '%s' at %d:%d", mistake->replacement, mistake->words,
                 mistake->line, mistake->column);
    }
    bool refused = r.status == DAWN_ERR_SCENARIO;
    if (refused != (!silent && mistake->severity == DAWN_ERROR)) {
        print_problems(&r.problems);
        fail_msg("'%s' gives status %d", mistake->replacement, (int)r.status);
    }
    assert_int_equal(refused, r.problems.errors > 0);
    put_away(&r);
    free(text);
}

#endif
