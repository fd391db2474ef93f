/* What the files of this room share while one weather file is being read: the job, the quantities,
 * and how they talk about what they find. */
#ifndef WEATHER_WEATHER_JOB_H
#define WEATHER_WEATHER_JOB_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/csvrows.h"
#include "dawnlow/weather.h"

enum dawn_weather_quantity {
    DAWN_WEATHER_AIR,
    DAWN_WEATHER_DEW,
    DAWN_WEATHER_HUMIDITY, /* share of saturation over water, 0..1 */
    DAWN_WEATHER_WIND,
    DAWN_WEATHER_GHI,
    DAWN_WEATHER_DHI,
    DAWN_WEATHER_DNI,
    DAWN_WEATHER_CLOUD, /* 0..1 */
    DAWN_WEATHER_LONGWAVE,
    DAWN_WEATHER_PRESSURE,
    DAWN_WEATHER_SNOW,
    DAWN_WEATHER_QUANTITIES
};

/* One kind of complaint is made about 20 times, then counted. */
enum dawn_weather_kind {
    DAWN_WEATHER_SAY_FILE, /* the file as a whole */
    DAWN_WEATHER_SAY_HEADER,
    DAWN_WEATHER_SAY_UNIT,
    DAWN_WEATHER_SAY_PREAMBLE,
    DAWN_WEATHER_SAY_STAMP,
    DAWN_WEATHER_SAY_DATE,
    DAWN_WEATHER_SAY_ORDER,
    DAWN_WEATHER_SAY_TWICE,
    DAWN_WEATHER_SAY_SHORT_ROW,
    DAWN_WEATHER_SAY_NUMBER,
    DAWN_WEATHER_SAY_RANGE,
    DAWN_WEATHER_SAY_STEP,
    DAWN_WEATHER_SAY_GAP,
    DAWN_WEATHER_SAY_FILLED,
    DAWN_WEATHER_SAY_SPIKE,
    DAWN_WEATHER_SAY_FLAT,
    DAWN_WEATHER_SAY_EMPTY,
    DAWN_WEATHER_SAY_CLOCK,
    DAWN_WEATHER_SAY_ESTIMATE,
    DAWN_WEATHER_SAY_CHOICE,
    DAWN_WEATHER_KINDS
};
enum { DAWN_WEATHER_SAY_MOST = 20 };

#define DAWN_WEATHER_NO_ROW ((size_t)-1)

/* Which cell: row of the job's csv rows (or DAWN_WEATHER_NO_ROW), field (or -1 for the row). */
struct dawn_weather_spot {
    size_t row;
    int field;
};

struct dawn_weather_column {
    int index;           /* field of a row; -1 = the file has none */
    bool has_unit;       /* the header (or layout) names it */
    bool sum;            /* an energy over the step, not a power */
    bool unlimited;      /* its unit is in doubt (and said): do not judge its numbers */
    double scale, shift; /* SI = value * scale + shift */
};

/* Which columns make the stamp; -1 = none. */
struct dawn_weather_when {
    int whole, date, time, year, month, day, hour, minute;
};

/* Rows as read: SI values, NAN = missing. */
struct dawn_weather_readings {
    size_t count, capacity;
    struct dawn_weather_parts *parts;
    int64_t *stamp_s;
    size_t *row;
    double *value[DAWN_WEATHER_QUANTITIES];
};

/* The same on an hourly grid without holes in time. */
struct dawn_weather_hours {
    size_t count;
    int64_t first_s, mean_first_s;
    size_t *row; /* where the hour came from; DAWN_WEATHER_NO_ROW = filled */
    double *value[DAWN_WEATHER_QUANTITIES];
    bool given[DAWN_WEATHER_QUANTITIES]; /* the file has usable values of it */
};

struct dawn_weather_unsaid {
    int line;
    size_t count;
    enum dawn_severity severity;
};

struct dawn_weather_job {
    const char *name, *text;
    size_t size;
    const struct dawn_weather_hints *hints;
    struct dawn_problems *problems;
    struct dawn_weather *weather;
    struct dawn_csvrows rows;
    size_t header, first, end; /* the header row, the data rows [first, end) */
    struct dawn_weather_column column[DAWN_WEATHER_QUANTITIES];
    struct dawn_weather_when when;
    struct dawn_weather_readings readings;
    struct dawn_weather_hours hours;
    size_t said[DAWN_WEATHER_KINDS];
    struct dawn_weather_unsaid unsaid[DAWN_WEATHER_KINDS];
    size_t errors_before; /* in the caller's list */
    double zone_h;        /* UTC offset the file names; NAN = it does not */
    double light_lead_s;  /* radiation holds this much after the stamp (PVGIS) */
    double step_s;        /* usual distance of two rows */
    bool stamps_carry_zone;
    bool daily;                  /* the stamps hold no time of day */
    bool local_standard;         /* the file says "local standard time" without a number */
    bool month_mosaic;           /* the file says it is put together from months */
    bool day_first, month_first; /* the header says how 1/2/2026 is meant */
    bool no_memory;
};

/* weather_say.c */
void dawn_weather_say(struct dawn_weather_job *job, enum dawn_weather_kind kind,
                      enum dawn_severity severity, struct dawn_weather_spot spot, const char *hint,
                      const char *format, ...) __attribute__((format(printf, 6, 7)));
/* Says how many of each kind were kept back. */
void dawn_weather_say_rest(struct dawn_weather_job *job);
bool dawn_weather_failed(const struct dawn_weather_job *job);
/* "air temperature" ... for messages */
const char *dawn_weather_quantity_words(enum dawn_weather_quantity quantity);
/* "2026-03-12 05:00" in the file's own clock */
void dawn_weather_say_time(const struct dawn_weather_job *job, int64_t utc_s, char out[24]);

/* weather_columns.c */
/* Chooses delimiter and header line, splits the text. False (with an error said) when there is
 * nothing to read. */
bool dawn_weather_columns_open(struct dawn_weather_job *job);
/* Fills column[] and when from the header row by names and units. */
void dawn_weather_columns_map(struct dawn_weather_job *job);
/* Units the header leaves open: hints, usual ones with a note, or an error. */
void dawn_weather_columns_units(struct dawn_weather_job *job);
/* Sets a column's unit from text ("C", "mbar", "tenths"); false when it is unknown. */
bool dawn_weather_columns_unit(struct dawn_weather_column *column,
                               enum dawn_weather_quantity quantity, const char *unit);
/* The field of a row with this name (ASCII case ignored), or -1. */
int dawn_weather_columns_named(const struct dawn_csvrow *row, const char *name);
/* "Dew-point (°C)" -> "dew point" in name, "C" in unit; both 64 bytes. */
void dawn_weather_columns_plain(const char *header, char name[64], char unit[64]);

/* weather_preamble.c: place, zone and stamp words in the lines before the header. */
void dawn_weather_preamble_read(struct dawn_weather_job *job);
void dawn_weather_preamble_set(struct dawn_weather_job *job, const char *key, const char *value,
                               struct dawn_weather_spot spot);

/* Named layouts: does the file wear it, and what does it say that the column map cannot know. */
bool dawn_weather_tmy3_matches(const struct dawn_weather_job *job);
void dawn_weather_tmy3_prepare(struct dawn_weather_job *job);
bool dawn_weather_nsrdb_matches(const struct dawn_weather_job *job);
void dawn_weather_nsrdb_prepare(struct dawn_weather_job *job);
bool dawn_weather_pvgis_matches(const struct dawn_weather_job *job);
void dawn_weather_pvgis_prepare(struct dawn_weather_job *job);
bool dawn_weather_eccc_matches(const struct dawn_weather_job *job);
void dawn_weather_eccc_prepare(struct dawn_weather_job *job);

/* weather_values.c: every cell to SI, every impossible one refused. */
void dawn_weather_values_read(struct dawn_weather_job *job);
/* A cell that means "no value". */
bool dawn_weather_values_missing(const char *cell);

/* weather_mend.c: readings to hours. */
void dawn_weather_mend(struct dawn_weather_job *job);
/* weather_order.c: typical years, newest-first files, double and backward rows, day and month
 * exchanged. Errors are said. */
void dawn_weather_order(struct dawn_weather_job *job);
/* weather_coarse.c: draws the hours between rows that are regularly 2 to 6 hours apart. False when
 * memory runs out. */
bool dawn_weather_coarse_refine(struct dawn_weather_job *job);
/* weather_hours.c: the hourly grid of ordered readings. */
bool dawn_weather_hours_make(struct dawn_weather_job *job);
void dawn_weather_hours_release(struct dawn_weather_hours *hours);
/* weather_clock.c: does the light fit the clock? */
void dawn_weather_clock_check(struct dawn_weather_job *job);
/* weather_fill.c: hours to the complete struct dawn_weather. */
void dawn_weather_fill(struct dawn_weather_job *job);

#endif
