/* Cells to SI numbers. What cannot be is refused here, cell by cell. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "weather/weather_job.h"

struct limits {
    double least, most;
    const char *unit; /* of least and most */
    double shown;     /* SI = shown * value in that unit */
};

/* Beyond every record on Earth. Air: -89.2 and 56.7 C (WMO archive of weather and climate
 * extremes); pressure from 6000 m to the highest ever; the rest common practice. */
static const struct limits limits_of[DAWN_WEATHER_QUANTITIES] = {
    [DAWN_WEATHER_AIR] = {-90.0, 60.0, "C", 1.0},
    [DAWN_WEATHER_DEW] = {-100.0, 40.0, "C", 1.0},
    [DAWN_WEATHER_HUMIDITY] = {0.0, 1.10, "%", 0.01},
    [DAWN_WEATHER_WIND] = {0.0, 80.0, "m/s", 1.0},
    [DAWN_WEATHER_GHI] = {-20.0, 1600.0, "W/m2", 1.0},
    [DAWN_WEATHER_DHI] = {-20.0, 1200.0, "W/m2", 1.0},
    [DAWN_WEATHER_DNI] = {-20.0, 1400.0, "W/m2", 1.0},
    [DAWN_WEATHER_CLOUD] = {0.0, 1.05, "%", 0.01},
    [DAWN_WEATHER_LONGWAVE] = {40.0, 600.0, "W/m2", 1.0},
    [DAWN_WEATHER_PRESSURE] = {45000.0, 110000.0, "hPa", 100.0},
    [DAWN_WEATHER_SNOW] = {0.0, 15.0, "m", 1.0},
};

bool dawn_weather_values_missing(const char *cell)
{
    static const char *const marks[] = {"NA",          "N/A",     "M",   "None", "nan",
                                        "null",        "NULL",    "*",   "-",    "--",
                                        "unavailable", "unknown", "NaN", "n/a",  "none"};
    if (cell[0] == '\0')
        return true;
    if ((cell[0] >= '0' && cell[0] <= '9') || (cell[0] == '-' && cell[1] >= '0' && cell[1] < '9'))
        return false;
    if (cell[0] == '-' && cell[1] == '9')
        return strcmp(cell, "-9999") == 0 || strcmp(cell, "-999") == 0 ||
               strcmp(cell, "-9900") == 0 || strcmp(cell, "-9999.0") == 0 ||
               strcmp(cell, "-999.0") == 0 || strcmp(cell, "-9900.0") == 0;
    for (size_t i = 0; i < sizeof marks / sizeof marks[0]; i++)
        if (strcmp(cell, marks[i]) == 0)
            return true;
    return false;
}

static void refuse_range(struct dawn_weather_job *job, struct dawn_weather_spot spot,
                         enum dawn_weather_quantity quantity, const char *cell, double value)
{
    const struct limits *limits = &limits_of[quantity];
    dawn_weather_say(job, DAWN_WEATHER_SAY_RANGE, DAWN_ERROR, spot,
                     quantity == DAWN_WEATHER_AIR || quantity == DAWN_WEATHER_DEW
                         ? "a broken sensor, or a wrong unit in the header; leave the cell empty "
                           "if it is not known"
                         : "leave the cell empty if it is not known",
                     "\"%.24s\" is impossible as %s: it means %.4g %s, %.4g to %.4g is expected",
                     cell, dawn_weather_quantity_words(quantity), value / limits->shown,
                     limits->unit, limits->least / limits->shown, limits->most / limits->shown);
}

static double read_cell(struct dawn_weather_job *job, size_t r, enum dawn_weather_quantity quantity)
{
    const struct dawn_weather_column *column = &job->column[quantity];
    const struct dawn_csvrow *row = &job->rows.row[r];
    struct dawn_weather_spot spot = {r, column->index};
    const char *cell = row->field[column->index];
    const char *end = NULL;
    double number = NAN;
    if (dawn_weather_values_missing(cell))
        return NAN;
    if (!dawn_text_number(cell, &end, &number) || *end != '\0') {
        dawn_weather_say(job, DAWN_WEATHER_SAY_NUMBER, DAWN_ERROR, spot,
                         "leave the cell empty if the value is not known",
                         "\"%.40s\" is no number for the %s", cell,
                         dawn_weather_quantity_words(quantity));
        return NAN;
    }
    double value = number * column->scale + column->shift;
    if (column->unlimited)
        return value;
    if (!(value >= limits_of[quantity].least && value <= limits_of[quantity].most)) {
        refuse_range(job, spot, quantity, cell, value);
        return NAN;
    }
    return value;
}

static void read_row(struct dawn_weather_job *job, size_t i)
{
    struct dawn_weather_readings *readings = &job->readings;
    size_t r = readings->row[i];
    size_t fields = job->rows.row[r].count;
    bool cut = false;
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++) {
        int index = job->column[q].index;
        if (index < 0)
            continue;
        bool there = (size_t)index < fields;
        cut = cut || !there;
        readings->value[q][i] = there ? read_cell(job, r, (enum dawn_weather_quantity)q) : NAN;
    }
    if (cut)
        dawn_weather_say(
            job, DAWN_WEATHER_SAY_SHORT_ROW, DAWN_ERROR, (struct dawn_weather_spot){r, -1},
            "the line may have been cut off; delete it or fetch the file again",
            "the row has only %zu of %zu columns", fields, job->rows.row[job->header].count);
}

/* Small excess is the instrument's; it is cut to the limit and counted. */
static void cut_excess(struct dawn_weather_job *job, enum dawn_weather_quantity quantity,
                       double least, double most, const char *words)
{
    double *value = job->readings.value[quantity];
    size_t cut = 0;
    double worst = 0.0;
    if (job->column[quantity].index < 0)
        return;
    for (size_t i = 0; i < job->readings.count; i++) {
        double kept = fmax(least, fmin(most, value[i]));
        if (isnan(value[i]) || kept == value[i])
            continue;
        cut++;
        worst = fmax(worst, fabs(kept - value[i]));
        value[i] = kept;
    }
    if (cut > 0 && worst > 1e-9)
        dawn_weather_say(job, DAWN_WEATHER_SAY_CHOICE, DAWN_NOTE,
                         (struct dawn_weather_spot){job->header, job->column[quantity].index}, NULL,
                         "the %s is a little %s in %zu rows; cut to the limit",
                         dawn_weather_quantity_words(quantity), words, cut);
}

/* Joules over the step become watts. */
static void sums_to_means(struct dawn_weather_job *job)
{
    const struct dawn_weather_readings *readings = &job->readings;
    if (readings->count < 2)
        return;
    double step = (double)(readings->stamp_s[1] - readings->stamp_s[0]);
    if (step < 60.0 || step > 3600.0)
        return; /* the step is refused, or one row is astray, and mending says so */
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++)
        if (job->column[q].index >= 0 && job->column[q].sum)
            for (size_t i = 0; i < readings->count; i++)
                readings->value[q][i] *= 3600.0 / step;
}

void dawn_weather_values_read(struct dawn_weather_job *job)
{
    struct dawn_weather_readings *readings = &job->readings;
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++) {
        if (job->column[q].index < 0)
            continue;
        readings->value[q] = malloc(readings->capacity * sizeof(double));
        if (!readings->value[q]) {
            job->no_memory = true;
            return;
        }
    }
    for (size_t i = 0; i < readings->count; i++)
        read_row(job, i);
    sums_to_means(job);
    cut_excess(job, DAWN_WEATHER_HUMIDITY, 0.0, 1.0, "over 100 %");
    cut_excess(job, DAWN_WEATHER_CLOUD, 0.0, 1.0, "over 100 %");
    cut_excess(job, DAWN_WEATHER_GHI, 0.0, INFINITY, "below zero");
    cut_excess(job, DAWN_WEATHER_DHI, 0.0, INFINITY, "below zero");
    cut_excess(job, DAWN_WEATHER_DNI, 0.0, INFINITY, "below zero");
}
