/* What the reports of studies have in common: what they went through, and differences. */
#include <math.h>

#include "base/jsonout.h"
#include "base/text.h"
#include "dawnlow/studies/return_level.h"
#include "dawnlow/version.h"
#include "report/report_parts.h"

const char *dawn_report_change_unit(enum dawn_units units)
{
    return units == DAWN_US ? "F" : "K";
}

const char *dawn_report_change(double change_K, int decimals, enum dawn_units units,
                               char out[DAWN_REPORT_ROOM])
{
    char number[DAWN_REPORT_ROOM];
    const double change = units == DAWN_US ? change_K * 1.8 : change_K;
    const double shown = fabs(change) < 0.5 * pow(10.0, -decimals) ? 0.0 : change;

    snprintf(out, DAWN_REPORT_ROOM, "%s%.40s", shown > 0.0 ? "+" : "",
             dawn_report_fixed(shown, decimals, number));
    return out;
}

static void add_days(struct dawn_text *text, const struct dawn_study_story *story)
{
    const double offset_h = story->scenario->site.utc_offset_h;
    char first[DAWN_REPORT_ROOM];
    char last[DAWN_REPORT_ROOM];

    for (size_t i = 0; i < story->years->count;) {
        const struct dawn_year *year = &story->years->year[i];
        size_t joined = 1; /* years of one file, one after another */
        while (i + joined < story->years->count && year[joined].weather == year->weather &&
               year[joined].from_s == year[joined - 1].to_s) {
            joined++;
        }
        dawn_text_add(text, "%s%s to %s", i == 0 ? "" : "; ",
                      dawn_report_day(year->from_s, offset_h, first),
                      dawn_report_day(year[joined - 1].to_s, offset_h, last));
        if (joined > 1) {
            dawn_text_add(text, ", %zu years", joined);
        }
        dawn_text_add(text, ", weather %s", year->weather->path);
        i += joined;
    }
}

void dawn_report_study_words(struct dawn_text *text, const struct dawn_study_story *story,
                             double nights)
{
    dawn_text_add(text, "%s, %.0f %s, ",
                  story->scenario->name[0] != '\0' ? story->scenario->name : "this nursery", nights,
                  nights < 1.5 ? "night" : "nights");
    add_days(text, story);
    for (size_t i = 0; i < story->override_count; i++) {
        dawn_text_add(text, "%s%s", i == 0 ? "; set for this run: " : ", ", story->overrides[i]);
    }
}

void dawn_report_study_for(FILE *out, const struct dawn_study_story *story, double nights)
{
    struct dawn_text text = {0};

    dawn_text_add(&text, "for: ");
    dawn_report_study_words(&text, story, nights);
    if (!text.failed) {
        dawn_report_wrapped(out, "     ", text.data);
    }
    dawn_text_release(&text);
}

void dawn_report_return_level(FILE *out, enum dawn_units units, size_t years, const char *place,
                              double level_C)
{
    struct dawn_text text = {0};
    char low[DAWN_REPORT_ROOM];

    if (years < 2) {
        return;
    }
    dawn_text_add(&text, "1 year in 10: ");
    if (years < DAWN_RETURN_LEVEL_LEAST_YEARS) {
        dawn_text_add(&text, "%zu years of weather are too few to tell it; 3 do, poorly", years);
    } else {
        if (!isnan(level_C)) {
            dawn_text_add(&text, "as it is, below %s at the %s; ",
                          dawn_report_degrees_unit(level_C, units, low), place);
        }
        dawn_text_add(&text, "from the coldest night of each of %zu years, %s%s", years,
                      dawn_return_level_words(years),
                      years < DAWN_RETURN_LEVEL_FEW_YEARS
                          ? "; fewer than 10 years are weak: it may be kelvins off"
                          : "");
    }
    if (!text.failed) {
        dawn_report_wrapped(out, "     ", text.data);
    }
    dawn_text_release(&text);
}

void dawn_report_return_level_json(struct dawn_jsonout *json, size_t years)
{
    if (years < DAWN_RETURN_LEVEL_LEAST_YEARS) {
        dawn_jsonout_null(json, "return_level");
        return;
    }
    dawn_jsonout_object(json, "return_level");
    dawn_jsonout_integer(json, "years", (int64_t)years);
    dawn_jsonout_text(json, "method", dawn_return_level_method(years));
    dawn_jsonout_bool(json, "weak", years < DAWN_RETURN_LEVEL_FEW_YEARS);
    dawn_jsonout_close_object(json);
}

void dawn_report_texts_json(struct dawn_jsonout *json, const char *key, const char *const *text,
                            size_t count)
{
    dawn_jsonout_array(json, key);
    for (size_t i = 0; i < count; i++) {
        dawn_jsonout_text(json, NULL, text[i]);
    }
    dawn_jsonout_close_array(json);
}

void dawn_report_json_head(struct dawn_jsonout *json, const char *report)
{
    dawn_jsonout_integer(json, "schema", 1);
    dawn_jsonout_text(json, "report", report);
    dawn_jsonout_text(json, "version", DAWN_VERSION);
}

void dawn_report_study_json(struct dawn_jsonout *json, const char *report,
                            const struct dawn_study_story *story, const char *decision,
                            double nights)
{
    const double offset_h = story->scenario->site.utc_offset_h;
    char date[DAWN_REPORT_ROOM];

    dawn_report_json_head(json, report);
    dawn_jsonout_text(json, "decision", decision);
    dawn_jsonout_integer(json, "nights", (int64_t)nights);
    dawn_jsonout_object(json, "scenario");
    dawn_jsonout_text(json, "name", story->scenario->name);
    dawn_jsonout_text(json, "path", story->scenario->path);
    dawn_report_texts_json(json, "set", story->overrides, story->override_count);
    dawn_jsonout_close_object(json);
    dawn_jsonout_array(json, "years");
    for (size_t i = 0; i < story->years->count; i++) {
        const struct dawn_year *year = &story->years->year[i];
        dawn_jsonout_object(json, NULL);
        dawn_jsonout_text(json, "weather", year->weather->path);
        dawn_jsonout_text(json, "from", dawn_report_date(year->from_s, offset_h, date));
        dawn_jsonout_text(json, "to", dawn_report_date(year->to_s, offset_h, date));
        dawn_jsonout_close_object(json);
    }
    dawn_jsonout_close_array(json);
    dawn_report_return_level_json(json, story->years->count);
}

void dawn_report_csv_number(FILE *out, double value, int decimals)
{
    char number[DAWN_REPORT_ROOM];

    fputc(',', out);
    if (isfinite(value)) {
        fputs(dawn_report_fixed(value, decimals, number), out);
    }
}
