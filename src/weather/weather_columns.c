/* Which column is what, by the words and units in its name: the reader for every file that has a
 * header line, whoever wrote it. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "base/unit.h"
#include "weather/weather_job.h"

/* Words that make a column one quantity. The name must hold the phrase as whole words; "=" in front
 * asks for nothing else in the name. The first phrases of a list are the better ones. */
struct naming {
    const char *const *phrases;
    const char *const *strangers; /* words that make it something else */
};
static const char *const air_phrases[] = {"dry bulb",
                                          "drybulb",
                                          "hourlydrybulbtemperature",
                                          "outdoor temperature",
                                          "outdoor temp",
                                          "outside temperature",
                                          "outside temp",
                                          "temperature 2m",
                                          "2m temperature",
                                          "t2m",
                                          "air temperature",
                                          "air temp",
                                          "ambient",
                                          "temperature",
                                          "temp",
                                          "=air",
                                          "=outside",
                                          "=outdoor",
                                          "tair",
                                          "=ta",
                                          "=t",
                                          "=celsius",
                                          "=fahrenheit",
                                          NULL};
static const char *const air_strangers[] = {
    "dew",       "wet",   "soil",    "ground",  "surface", "water",     "leaf",       "apparent",
    "feels",     "chill", "heat",    "index",   "indoor",  "inside",    "inner",      "room",
    "min",       "max",   "minimum", "maximum", "sky",     "80m",       "120m",       "180m",
    "bed",       "rock",  "barrel",  "globe",   "virtual", "substrate", "greenhouse", "tunnel",
    "potential", "wetb",  "road",    "ch2",     NULL};
static const char *const dew_phrases[] = {
    "dew point", "dewpoint", "dewpt", "hourlydewpointtemperature", "dew", "=td", "=tdew", NULL};
static const char *const dew_strangers[] = {"depression", "spread", "indoor", "inside", NULL};
static const char *const humidity_phrases[] = {
    "relative humidity",      "rel hum",  "rel humidity", "rhum", "rh",
    "hourlyrelativehumidity", "humidity", "humid",        NULL};
static const char *const humidity_strangers[] = {"specific", "absolute", "indoor", "inside", "min",
                                                 "max",      "ratio",    "mixing", NULL};
static const char *const wind_phrases[] = {
    "wind speed 10m", "wind speed",      "windspeed", "wind spd",  "wspd", "wdsp", "ws10m",
    "ws2m",           "hourlywindspeed", "=wind",     "=wind 10m", "=ws",  "=ff",  NULL};
static const char *const wind_strangers[] = {"gust", "gusts", "chill",   "80m",  "100m", "120m",
                                             "180m", "max",   "maximum", "peak", NULL};
static const char *const ghi_phrases[] = {"ghi",
                                          "global horizontal",
                                          "global radiation",
                                          "global irradiance",
                                          "global",
                                          "shortwave",
                                          "short wave",
                                          "solar radiation",
                                          "solar irradiance",
                                          "=solar",
                                          "=sun",
                                          "=radiation",
                                          "=irradiance",
                                          "=glo",
                                          NULL};
static const char *const light_strangers[] = {
    "clearsky",    "clear",    "illum",    "illuminance", "lum",      "tilted",
    "net",         "up",       "upward",   "reflected",   "inclined", "extraterrestrial",
    "terrestrial", "instant",  "toa",      "zenith",      "angle",    "max",
    "long",        "longwave", "infrared", NULL};
static const char *const ghi_strangers[] = {"direct", "diffuse", "beam", "normal", NULL};
static const char *const dhi_phrases[] = {"dhi", "diffuse horizontal", "diffuse radiation",
                                          "diffuse", NULL};
static const char *const dni_phrases[] = {
    "dni", "direct normal", "beam normal", "normal beam", "normal direct", "=beam", NULL};
static const char *const none[] = {NULL};
static const char *const cloud_phrases[] = {
    "opqcld",   "opaque",     "totcld", "total cloud", "cloud cover", "cloudcover", "sky cover",
    "skycover", "cloudiness", "=cloud", "=clouds",     "=nebulosity", NULL};
static const char *const cloud_strangers[] = {"low",  "mid",    "high", "middle", "type",
                                              "base", "height", "ceil", "fill",   NULL};
static const char *const longwave_phrases[] = {
    "long wave", "longwave", "infrared", "ir horizontal", "thermal radiation", "lw down", NULL};
static const char *const longwave_strangers[] = {"up", "upward", "net", "outgoing", NULL};
static const char *const pressure_phrases[] = {"station pressure",
                                               "stn press",
                                               "surface pressure",
                                               "hourlystationpressure",
                                               "air pressure",
                                               "pressure",
                                               "=press",
                                               "barometer",
                                               "=sp",
                                               NULL};
static const char *const pressure_strangers[] = {
    "msl", "sea", "vapour", "vapor", "vpd", "deficit", "altimeter", "change", "tendency", NULL};
static const char *const snow_phrases[] = {
    "snow depth", "depth of snow", "snow on ground", "snow on grnd", "snow on the ground", "=snow",
    NULL};
static const char *const snow_strangers[] = {"fall", "snowfall", "rate", "water", NULL};

static const struct naming namings[DAWN_WEATHER_QUANTITIES] = {
    [DAWN_WEATHER_AIR] = {air_phrases, air_strangers},
    [DAWN_WEATHER_DEW] = {dew_phrases, dew_strangers},
    [DAWN_WEATHER_HUMIDITY] = {humidity_phrases, humidity_strangers},
    [DAWN_WEATHER_WIND] = {wind_phrases, wind_strangers},
    [DAWN_WEATHER_GHI] = {ghi_phrases, ghi_strangers},
    [DAWN_WEATHER_DHI] = {dhi_phrases, none},
    [DAWN_WEATHER_DNI] = {dni_phrases, none},
    [DAWN_WEATHER_CLOUD] = {cloud_phrases, cloud_strangers},
    [DAWN_WEATHER_LONGWAVE] = {longwave_phrases, longwave_strangers},
    [DAWN_WEATHER_PRESSURE] = {pressure_phrases, pressure_strangers},
    [DAWN_WEATHER_SNOW] = {snow_phrases, snow_strangers},
};
/* Companions of a measurement that are not the measurement. */
static const char *const companions[] = {
    "flag",   "source", "uncert", "uncertainty", "quality",     "code",
    "qc",     "units",  "dir",    "direction",   "probability", "forecast error",
    "sensor", "ind",    "error",  "count",       NULL};

/* Reads one lower-case letter or digit of a name; 0 = anything else. Bytes beyond ASCII (a degree
 * sign in whatever encoding) are dropped by the caller. */
static char plain_letter(char c)
{
    if (c >= 'A' && c <= 'Z')
        return (char)(c - 'A' + 'a');
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
        return c;
    return 0;
}

static void plain_name(const char *from, size_t size, char out[64])
{
    size_t used = 0;
    bool gap = false;
    for (size_t i = 0; i < size && used < 62; i++) {
        if ((unsigned char)from[i] >= 0x80)
            continue;
        char c = plain_letter(from[i]);
        if (!c) {
            gap = used > 0;
            continue;
        }
        if (gap)
            out[used++] = ' ';
        gap = false;
        out[used++] = c;
    }
    out[used] = '\0';
}

/* A unit with everything but ASCII dropped, except that a raised 2 or 3 (UTF-8 or Latin-1) counts.
 */
static void plain_unit(const char *from, size_t size, char out[64])
{
    size_t used = 0;
    for (size_t i = 0; i < size && used < 62; i++) {
        unsigned char c = (unsigned char)from[i];
        if (c == 0xB2 || c == 0xB3)
            out[used++] = c == 0xB2 ? '2' : '3';
        else if (c < 0x80 && c != '?' && (c != ' ' || used > 0))
            out[used++] = (char)c;
    }
    while (used > 0 && out[used - 1] == ' ')
        used--;
    out[used] = '\0';
}

void dawn_weather_columns_plain(const char *header, char name[64], char unit[64])
{
    size_t size = strlen(header);
    const char *close =
        size && (header[size - 1] == ')' || header[size - 1] == ']') ? &header[size - 1] : NULL;
    const char *open = NULL;
    for (const char *s = header; close && s < close; s++)
        if (*s == '(' || *s == '[')
            open = s;
    const char *comma = strchr(header, ',');
    const char *first_open = strpbrk(header, "([");
    unit[0] = '\0';
    if (comma && (!first_open || comma < first_open)) {
        const char *until = first_open ? first_open : header + size;
        plain_name(header, (size_t)(comma - header), name);
        plain_unit(comma + 1, (size_t)(until - comma - 1), unit);
        return;
    }
    if (open)
        plain_unit(open + 1, (size_t)(close - open - 1), unit);
    plain_name(header, open ? (size_t)(open - header) : size, name);
    if (name[0] == '\0')
        plain_name(header, size, name);
}

static bool has_word(const char *name, const char *words)
{
    size_t size = strlen(words);
    for (const char *at = strstr(name, words); at; at = strstr(at + 1, words))
        if ((at == name || at[-1] == ' ') && (at[size] == '\0' || at[size] == ' '))
            return true;
    return false;
}

static bool has_any(const char *name, const char *const *list)
{
    for (; *list; list++)
        if (has_word(name, *list))
            return true;
    return false;
}

static enum dawn_measure measure_of(enum dawn_weather_quantity quantity)
{
    static const enum dawn_measure measures[DAWN_WEATHER_QUANTITIES] = {
        [DAWN_WEATHER_AIR] = DAWN_MEASURE_TEMPERATURE,
        [DAWN_WEATHER_DEW] = DAWN_MEASURE_TEMPERATURE,
        [DAWN_WEATHER_HUMIDITY] = DAWN_MEASURE_NONE,
        [DAWN_WEATHER_WIND] = DAWN_MEASURE_SPEED,
        [DAWN_WEATHER_GHI] = DAWN_MEASURE_IRRADIANCE,
        [DAWN_WEATHER_DHI] = DAWN_MEASURE_IRRADIANCE,
        [DAWN_WEATHER_DNI] = DAWN_MEASURE_IRRADIANCE,
        [DAWN_WEATHER_CLOUD] = DAWN_MEASURE_NONE,
        [DAWN_WEATHER_LONGWAVE] = DAWN_MEASURE_IRRADIANCE,
        [DAWN_WEATHER_PRESSURE] = DAWN_MEASURE_PRESSURE,
        [DAWN_WEATHER_SNOW] = DAWN_MEASURE_LENGTH,
    };
    return measures[quantity];
}

struct alias {
    const char *written, *meant;
};
static const struct alias aliases[] = {
    {"c", "C"},
    {"f", "F"},
    {"k", "K"},
    {"celsius", "C"},
    {"degrees celsius", "C"},
    {"degree celsius", "C"},
    {"deg c", "C"},
    {"fahrenheit", "F"},
    {"degrees fahrenheit", "F"},
    {"deg f", "F"},
    {"kelvin", "K"},
    {"w m2", "W/m2"},
    {"w m-2", "W/m2"},
    {"wm2", "W/m2"},
    {"wm-2", "W/m2"},
    {"w/m**2", "W/m2"},
    {"m s", "m/s"},
    {"ms", "m/s"},
    {"m s-1", "m/s"},
    {"km h", "km/h"},
    {"kmh", "km/h"},
    {"kph", "km/h"},
    {"kt", "knots"},
    {"kn", "knots"},
    {"kts", "knots"},
    {"millibar", "mbar"},
    {"millibars", "mbar"},
    {"inches", "in"},
    {"feet", "ft"},
    {"metres", "m"},
    {"meters", "m"},
};

static const char *unit_meant(const char *unit)
{
    char plain[64];
    plain_name(unit, strlen(unit), plain);
    for (size_t i = 0; i < sizeof aliases / sizeof aliases[0]; i++)
        if (dawn_text_same(unit, aliases[i].written) || strcmp(plain, aliases[i].written) == 0)
            return aliases[i].meant;
    return unit;
}

/* Shares of a whole: cloud cover and humidity. */
static bool share_unit(const char *unit, double *scale)
{
    static const struct {
        const char *name;
        double scale;
    } shares[] = {{"%", 0.01},      {"%rh", 0.01},     {"% rh", 0.01},     {"percent", 0.01},
                  {"pct", 0.01},    {"tenths", 0.1},   {"tenth", 0.1},     {"1/10", 0.1},
                  {"oktas", 0.125}, {"okta", 0.125},   {"eighths", 0.125}, {"1/8", 0.125},
                  {"8ths", 0.125},  {"fraction", 1.0}, {"share", 1.0},     {"0-1", 1.0},
                  {"0..1", 1.0},    {"1", 1.0}};
    for (size_t i = 0; i < sizeof shares / sizeof shares[0]; i++)
        if (dawn_text_same(unit, shares[i].name)) {
            *scale = shares[i].scale;
            return true;
        }
    return false;
}

bool dawn_weather_columns_unit(struct dawn_weather_column *column,
                               enum dawn_weather_quantity quantity, const char *unit)
{
    enum dawn_measure measure = measure_of(quantity);
    if (!unit[0])
        return false;
    if (measure == DAWN_MEASURE_NONE) {
        if (!share_unit(unit, &column->scale))
            return false;
        column->shift = 0.0;
        column->has_unit = true;
        return true;
    }
    const char *meant = unit_meant(unit);
    const struct dawn_unit *found = dawn_unit_find(measure, meant);
    if (!found)
        return false;
    column->scale = found->scale;
    column->shift = found->shift;
    column->has_unit = true;
    /* joules and watt hours are counted over the step, watts are not */
    column->sum = measure == DAWN_MEASURE_IRRADIANCE &&
                  (strchr(meant, 'J') || strstr(meant, "Wh") || strstr(meant, "wh"));
    return true;
}

/* "temp c", "wind m s", "pressure hpa": a unit as the last words of the name. */
static bool unit_at_end(struct dawn_weather_column *column, enum dawn_weather_quantity quantity,
                        const char *name)
{
    const char *last = strrchr(name, ' ');
    for (int words = 0; last && words < 2; words++) {
        if (dawn_weather_columns_unit(column, quantity, last + 1))
            return true;
        const char *before = last;
        while (before > name && before[-1] != ' ')
            before--;
        last = before > name ? before - 1 : NULL;
    }
    return false;
}

/* How well a name fits a quantity: 0 = not at all, more is better. */
static int fit(const char *name, enum dawn_weather_quantity quantity)
{
    const struct naming *naming = &namings[quantity];
    if (has_any(name, companions) || has_any(name, naming->strangers))
        return 0;
    bool light = quantity == DAWN_WEATHER_GHI || quantity == DAWN_WEATHER_DHI ||
                 quantity == DAWN_WEATHER_DNI;
    if (light && has_any(name, light_strangers))
        return 0;
    for (int i = 0; naming->phrases[i]; i++) {
        const char *phrase = naming->phrases[i];
        bool whole = phrase[0] == '=';
        if (whole ? strcmp(name, phrase + 1) == 0 : has_word(name, phrase))
            return 100 - i;
    }
    return 0;
}

/* "temp f" fits "temp"; "t c" and "air C" fit "=t" and "=air" once their unit is taken off. */
static int fit_with_unit(const char *name, const char *unit, enum dawn_weather_quantity quantity)
{
    int best = fit(name, quantity);
    if (best > 0 || unit[0])
        return best;
    struct dawn_weather_column scratch = {0};
    char shorter[64];
    (void)dawn_text_copy(shorter, sizeof shorter, name);
    char *last = strrchr(shorter, ' ');
    for (int words = 0; last && best == 0 && words < 2; words++) {
        *last = '\0';
        if (unit_at_end(&scratch, quantity, name))
            best = fit(shorter, quantity);
        last = strrchr(shorter, ' ');
    }
    return best;
}

enum role { NO_ROLE, WHOLE, DATE, TIME, YEAR, MONTH, DAY, HOUR, MINUTE };

static enum role role_of(const char *name)
{
    static const struct {
        const char *name;
        enum role role;
    } roles[] = {{"datetime", WHOLE},
                 {"date time", WHOLE},
                 {"timestamp", WHOLE},
                 {"time stamp", WHOLE},
                 {"date and time", WHOLE},
                 {"date time utc", WHOLE},
                 {"date time lst", WHOLE},
                 {"date time local", WHOLE},
                 {"valid time", WHOLE},
                 {"reference timestamp", WHOLE},
                 {"last changed", WHOLE},
                 {"date", DATE},
                 {"day month year", DATE},
                 {"datum", DATE},
                 {"time", TIME},
                 {"time utc", TIME},
                 {"time lst", TIME},
                 {"local time", TIME},
                 {"time local", TIME},
                 {"utc", TIME},
                 {"year", YEAR},
                 {"yr", YEAR},
                 {"month", MONTH},
                 {"mo", MONTH},
                 {"day", DAY},
                 {"hour", HOUR},
                 {"hr", HOUR},
                 {"hh", HOUR},
                 {"minute", MINUTE},
                 {"min", MINUTE}};
    for (size_t i = 0; i < sizeof roles / sizeof roles[0]; i++)
        if (name[0] == roles[i].name[0] && strcmp(name, roles[i].name) == 0)
            return roles[i].role;
    return strncmp(name, "timestamp", 9) == 0 ? WHOLE : NO_ROLE;
}

static int stamp_columns(const struct dawn_csvrow *row)
{
    int stamps = 0;
    for (size_t i = 0; i < row->count; i++) {
        char name[64];
        char unit[64];
        char c = row->field[i][0];
        if (c == '\0' || (c >= '0' && c <= '9') || c == '-')
            continue;
        dawn_weather_columns_plain(row->field[i], name, unit);
        stamps += role_of(name) != NO_ROLE;
    }
    return stamps;
}

/* A row as a header: 2 for a stamp column, 1 for each known quantity, 4 more for the air
 * temperature. Looks for the stamp first: it is the cheap question, and data rows end there. */
static int header_score(const struct dawn_csvrow *row)
{
    int quantities = 0;
    bool air = false;
    if (stamp_columns(row) == 0)
        return 0;
    for (size_t i = 0; i < row->count; i++) {
        char name[64];
        char unit[64];
        dawn_weather_columns_plain(row->field[i], name, unit);
        for (int q = 0; name[0] && q < DAWN_WEATHER_QUANTITIES; q++)
            if (fit_with_unit(name, unit, (enum dawn_weather_quantity)q) > 0) {
                quantities++;
                air = air || q == DAWN_WEATHER_AIR;
                break;
            }
    }
    return quantities == 0 ? 0 : 2 + quantities + (air ? 4 : 0);
}

static bool is_comment(const struct dawn_csvrow *row)
{
    return row->count > 0 && row->field[0][0] == '#' && row->field[0][1] != '\0';
}

enum { PREAMBLE_BYTES = 32768, PREAMBLE_ROWS = 120 };

/* The best header row among the first; *score 0 when there is none. */
static size_t find_header(const struct dawn_csvrows *rows, int *score)
{
    size_t best = 0;
    *score = 0;
    for (size_t r = 0; r < rows->count && r < PREAMBLE_ROWS; r++) {
        if (is_comment(&rows->row[r]))
            continue;
        int here = header_score(&rows->row[r]);
        if (here > *score) {
            *score = here;
            best = r;
        }
    }
    return best;
}

static const char delimiters[] = {',', ';', '\t', '|'};

/* The delimiter that makes the best header out of the beginning of the file. */
static char find_delimiter(struct dawn_weather_job *job)
{
    size_t size = job->size;
    if (size > PREAMBLE_BYTES) {
        size = PREAMBLE_BYTES;
        while (size > 0 && job->text[size - 1] != '\n')
            size--;
        if (size == 0)
            size = PREAMBLE_BYTES;
    }
    char best = ',';
    int best_score = 0;
    for (size_t d = 0; d < sizeof delimiters; d++) {
        struct dawn_csvrows rows = {0};
        int score = 0;
        if (dawn_csvrows_split_first(&rows, job->text, size, delimiters[d], PREAMBLE_ROWS) != 0)
            job->no_memory = true;
        else
            (void)find_header(&rows, &score);
        dawn_csvrows_release(&rows);
        if (score > best_score) {
            best_score = score;
            best = delimiters[d];
        }
    }
    return best;
}

/* A header has no numbers; a row has some among its first fields. */
static bool looks_like_data(const struct dawn_csvrow *row)
{
    for (size_t i = 0; i < row->count && i < 8; i++) {
        const char *s = row->field[i];
        if (*s == '-' || *s == '+')
            s++;
        if (*s >= '0' && *s <= '9')
            return true;
    }
    return false;
}

/* There is no header line: say what the file does have. */
static void complain_no_header(struct dawn_weather_job *job)
{
    static const char hint[] =
        "write a first line that names the columns, for example: time,temperature (C),"
        "relative humidity (%),wind (m/s),global radiation (W/m2)";
    struct dawn_weather_spot spot = {job->rows.count ? 0 : DAWN_WEATHER_NO_ROW, -1};
    if (job->rows.count && looks_like_data(&job->rows.row[0]))
        dawn_weather_say(job, DAWN_WEATHER_SAY_HEADER, DAWN_ERROR, spot, hint,
                         "the file begins with numbers; a header line that names the columns is "
                         "expected before them");
    else
        dawn_weather_say(job, DAWN_WEATHER_SAY_HEADER, DAWN_ERROR, spot, hint,
                         "no header line found in the first %d lines: none names both a time or "
                         "date column and a weather quantity",
                         PREAMBLE_ROWS);
}

/* Footers and second tables: the data end at the first row that holds no stamp while no later one
 * does. */
static bool may_be_stamp(const struct dawn_csvrow *row)
{
    for (size_t i = 0; i < row->count && i < 12; i++)
        for (const char *s = row->field[i]; *s; s++)
            if (*s >= '0' && *s <= '9')
                return true;
    return false;
}

static void find_end(struct dawn_weather_job *job)
{
    job->end = job->rows.count;
    for (size_t r = job->first; r < job->rows.count; r++)
        if (!looks_like_data(&job->rows.row[r]) && header_score(&job->rows.row[r]) > 2) {
            dawn_weather_say(job, DAWN_WEATHER_SAY_CHOICE, DAWN_NOTE,
                             (struct dawn_weather_spot){r, -1}, NULL,
                             "a second table begins here; only the first one is read");
            job->end = r;
            break;
        }
    while (job->end > job->first && !may_be_stamp(&job->rows.row[job->end - 1]))
        job->end--;
}

bool dawn_weather_columns_open(struct dawn_weather_job *job)
{
    char delimiter = find_delimiter(job);
    if (job->no_memory)
        return false;
    if (dawn_csvrows_split(&job->rows, job->text, job->size, delimiter) != 0) {
        job->no_memory = true;
        return false;
    }
    int score = 0;
    job->header = find_header(&job->rows, &score);
    if (score == 0) {
        complain_no_header(job);
        return false;
    }
    job->first = job->header + 1;
    find_end(job);
    return true;
}

int dawn_weather_columns_named(const struct dawn_csvrow *row, const char *name)
{
    for (size_t i = 0; i < row->count; i++)
        if (dawn_text_same(row->field[i], name))
            return (int)i;
    return -1;
}

static void place_role(struct dawn_weather_when *when, enum role role, int index)
{
    int *slot = NULL;
    switch (role) {
    case WHOLE:
        slot = &when->whole;
        break;
    case DATE:
        slot = &when->date;
        break;
    case TIME:
        slot = &when->time;
        break;
    case YEAR:
        slot = &when->year;
        break;
    case MONTH:
        slot = &when->month;
        break;
    case DAY:
        slot = &when->day;
        break;
    case HOUR:
        slot = &when->hour;
        break;
    case MINUTE:
        slot = &when->minute;
        break;
    case NO_ROLE:
        break;
    }
    if (slot && *slot < 0)
        *slot = index;
}

static void map_when(struct dawn_weather_job *job, const struct dawn_csvrow *header)
{
    job->when = (struct dawn_weather_when){-1, -1, -1, -1, -1, -1, -1, -1};
    for (size_t i = 0; i < header->count; i++) {
        char name[64];
        char unit[64];
        dawn_weather_columns_plain(header->field[i], name, unit);
        place_role(&job->when, role_of(name), (int)i);
    }
}

/* One quantity: its best column, or a complaint when two fit equally well. */
static void map_quantity(struct dawn_weather_job *job, const struct dawn_csvrow *header,
                         enum dawn_weather_quantity quantity)
{
    struct dawn_weather_column *column = &job->column[quantity];
    int best = 0;
    int rival = -1;
    *column = (struct dawn_weather_column){.index = -1, .scale = 1.0};
    for (size_t i = 0; i < header->count; i++) {
        char name[64];
        char unit[64];
        dawn_weather_columns_plain(header->field[i], name, unit);
        int here = role_of(name) == NO_ROLE ? fit_with_unit(name, unit, quantity) : 0;
        if (here > best) {
            best = here;
            rival = -1;
            column->index = (int)i;
        } else if (here == best && here > 0 && rival < 0) {
            rival = (int)i;
        }
    }
    if (rival >= 0)
        dawn_weather_say(job, DAWN_WEATHER_SAY_HEADER, DAWN_ERROR,
                         (struct dawn_weather_spot){job->header, rival},
                         "keep one of them, or rename the other (for example to \"indoor ...\")",
                         "\"%.40s\" and \"%.40s\" both look like the %s",
                         header->field[column->index], header->field[rival],
                         dawn_weather_quantity_words(quantity));
}

/* The unit is unknown and that has been said: no more questions, no limits on its numbers. */
static void doubt_unit(struct dawn_weather_column *column)
{
    column->has_unit = true;
    column->unlimited = true;
}

/* The unit written in a header, wherever it stands in it. */
static void map_unit(struct dawn_weather_job *job, const struct dawn_csvrow *header,
                     enum dawn_weather_quantity quantity)
{
    struct dawn_weather_column *column = &job->column[quantity];
    char name[64];
    char unit[64];
    if (column->index < 0)
        return;
    dawn_weather_columns_plain(header->field[column->index], name, unit);
    if (dawn_weather_columns_unit(column, quantity, unit) || unit_at_end(column, quantity, name) ||
        dawn_weather_columns_unit(column, quantity, name))
        return;
    const char *group = strpbrk(header->field[column->index], "([,");
    if (!unit[0] || !group || dawn_text_same(unit, "2m") || dawn_text_same(unit, "10m"))
        return;
    enum dawn_measure measure = measure_of(quantity);
    dawn_weather_say(job, DAWN_WEATHER_SAY_UNIT, DAWN_ERROR,
                     (struct dawn_weather_spot){job->header, column->index},
                     "correct the unit in the header line",
                     "the unit \"%.24s\" of the %s is not known; %s is expected", unit,
                     dawn_weather_quantity_words(quantity),
                     measure == DAWN_MEASURE_NONE ? "%, tenths, oktas or fraction"
                                                  : dawn_unit_list(measure));
    doubt_unit(column);
}

/* Lists what the header does have, for someone whose temperature column was not found. */
static void complain_no_air(struct dawn_weather_job *job, const struct dawn_csvrow *header)
{
    struct dawn_text list = {0};
    for (size_t i = 0; i < header->count && i < 12; i++)
        dawn_text_add(&list, "%s%.32s", i ? ", " : "", header->field[i]);
    if (header->count > 12)
        dawn_text_add(&list, ", ...");
    dawn_weather_say(job, DAWN_WEATHER_SAY_HEADER, DAWN_ERROR,
                     (struct dawn_weather_spot){job->header, -1},
                     "the outside air temperature is needed; name its column \"temperature (C)\" "
                     "or \"temperature (F)\", or download the file again with it",
                     "the file has no column of air temperature; its columns are: %.400s",
                     list.data ? list.data : "");
    dawn_text_release(&list);
}

void dawn_weather_columns_map(struct dawn_weather_job *job)
{
    const struct dawn_csvrow *header = &job->rows.row[job->header];
    map_when(job, header);
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++) {
        map_quantity(job, header, (enum dawn_weather_quantity)q);
        map_unit(job, header, (enum dawn_weather_quantity)q);
    }
    if (job->column[DAWN_WEATHER_AIR].index < 0)
        complain_no_air(job, header);
}

/* Largest and smallest number of a column among the first rows. */
static void column_span(const struct dawn_weather_job *job, int index, double *least, double *most)
{
    *least = INFINITY;
    *most = -INFINITY;
    for (size_t r = job->first; r < job->end; r++) {
        const struct dawn_csvrow *row = &job->rows.row[r];
        const char *end = NULL;
        double value = NAN;
        if ((size_t)index >= row->count || dawn_weather_values_missing(row->field[index]) ||
            !dawn_text_number(row->field[index], &end, &value))
            continue;
        *least = fmin(*least, value);
        *most = fmax(*most, value);
    }
}

static void temperature_unit(struct dawn_weather_job *job, enum dawn_weather_quantity quantity)
{
    struct dawn_weather_column *column = &job->column[quantity];
    const struct dawn_weather_column *air = &job->column[DAWN_WEATHER_AIR];
    const char *hint = job->hints->temperature_unit;
    struct dawn_weather_spot spot = {job->header, column->index};
    const char *name = job->rows.row[job->header].field[column->index];
    if (hint && hint[0]) {
        if (!dawn_weather_columns_unit(column, quantity, hint)) {
            dawn_weather_say(job, DAWN_WEATHER_SAY_UNIT, DAWN_ERROR, spot, NULL,
                             "\"%.16s\" is no unit of temperature; C, F or K is expected", hint);
            doubt_unit(column);
        }
        return;
    }
    if (quantity == DAWN_WEATHER_DEW && air->has_unit) {
        column->scale = air->scale;
        column->shift = air->shift;
        column->has_unit = true;
        return;
    }
    dawn_weather_say(job, DAWN_WEATHER_SAY_UNIT, DAWN_ERROR, spot,
                     "say weather.temperature_unit in the scenario or --temperature-unit (C, F or "
                     "K), or write it into the header: \"temperature (C)\"",
                     "the column \"%.40s\" (%s) does not say its unit", name,
                     dawn_weather_quantity_words(quantity));
    doubt_unit(column);
}

/* The unit a column without one most likely has, by the size of its numbers; NULL = cannot tell. */
static const char *likely_unit(enum dawn_weather_quantity quantity, double least, double most)
{
    switch (quantity) {
    case DAWN_WEATHER_HUMIDITY:
        return most <= 1.0 ? "fraction" : "%";
    case DAWN_WEATHER_CLOUD:
        return most <= 1.0 ? "fraction" : most > 10.0 ? "%" : NULL;
    case DAWN_WEATHER_PRESSURE:
        if (least >= 50000.0 && most <= 110000.0)
            return "Pa";
        if (least >= 500.0 && most <= 1100.0)
            return "hPa";
        if (least >= 50.0 && most <= 110.0)
            return "kPa";
        return least >= 15.0 && most <= 33.0 ? "inHg" : NULL;
    case DAWN_WEATHER_SNOW:
        return most <= 5.0 ? "m" : NULL;
    case DAWN_WEATHER_WIND:
        return "m/s";
    default:
        return "W/m2";
    }
}

static void usual_unit(struct dawn_weather_job *job, enum dawn_weather_quantity quantity)
{
    struct dawn_weather_column *column = &job->column[quantity];
    struct dawn_weather_spot spot = {job->header, column->index};
    double least = 0.0;
    double most = 0.0;
    column_span(job, column->index, &least, &most);
    if (most < least) /* not one number in it */
        return;
    const char *unit = likely_unit(quantity, least, most);
    const char *name = job->rows.row[job->header].field[column->index];
    if (!unit) {
        dawn_weather_say(job, DAWN_WEATHER_SAY_UNIT, DAWN_ERROR, spot,
                         "write the unit into the header, in parentheses",
                         "the column \"%.40s\" (%s) does not say its unit, and its numbers "
                         "(%g to %g) leave it open",
                         name, dawn_weather_quantity_words(quantity), least, most);
        doubt_unit(column);
        return;
    }
    (void)dawn_weather_columns_unit(column, quantity, unit);
    dawn_weather_say(job, DAWN_WEATHER_SAY_CHOICE, DAWN_NOTE, spot, NULL,
                     "the column \"%.40s\" (%s) does not say its unit; taken as %s", name,
                     dawn_weather_quantity_words(quantity), unit);
}

void dawn_weather_columns_units(struct dawn_weather_job *job)
{
    for (int q = 0; q < DAWN_WEATHER_QUANTITIES; q++) {
        enum dawn_weather_quantity quantity = (enum dawn_weather_quantity)q;
        const struct dawn_weather_column *column = &job->column[q];
        if (column->index < 0 || column->has_unit)
            continue;
        if (measure_of(quantity) == DAWN_MEASURE_TEMPERATURE)
            temperature_unit(job, quantity);
        else
            usual_unit(job, quantity);
    }
}

size_t dawn_weather_column_names(size_t quantity, const char **what, const char *const **names)
{
    if (quantity < DAWN_WEATHER_QUANTITIES) {
        *what = dawn_weather_quantity_words((enum dawn_weather_quantity)quantity);
        *names = namings[quantity].phrases;
    }
    return DAWN_WEATHER_QUANTITIES;
}
