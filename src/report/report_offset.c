/* The site's offset from the station, as words and as keys of a scenario. */
#include <math.h>

#include "base/jsonout.h"
#include "base/text.h"
#include "report/report_parts.h"

static void put_json(FILE *out, const struct dawn_offset *offset)
{
    struct dawn_jsonout json;

    dawn_jsonout_begin(&json, out);
    dawn_jsonout_object(&json, NULL);
    dawn_report_json_head(&json, "offset");
    dawn_jsonout_integer(&json, "nights", (int64_t)offset->nights);
    dawn_jsonout_number(&json, "offset_K", offset->always_K, 3);
    dawn_jsonout_number(&json, "offset_clear_calm_K", offset->clear_K, 3);
    dawn_jsonout_number(&json, "offset_spread_K", offset->spread_K, 3);
    dawn_jsonout_bool(&json, "clear_calm_told", offset->clear_told);
    dawn_jsonout_number(&json, "mean_K", offset->mean_K, 3);
    dawn_jsonout_number(&json, "least_K", offset->least_K, 3);
    dawn_jsonout_number(&json, "most_K", offset->most_K, 3);
    dawn_jsonout_close_object(&json);
    dawn_jsonout_end(&json);
}

static const char *difference(double value_K, enum dawn_units units, char out[DAWN_REPORT_ROOM])
{
    char number[DAWN_REPORT_ROOM];

    snprintf(out, DAWN_REPORT_ROOM, "%.40s %s",
             dawn_report_fixed(units == DAWN_US ? value_K * 1.8 : value_K, 1, number),
             units == DAWN_US ? "F" : "K");
    return out;
}

void dawn_report_offset(FILE *out, enum dawn_format format, enum dawn_units units,
                        const struct dawn_offset *offset)
{
    struct dawn_text text = {0};
    char first[DAWN_REPORT_ROOM];
    char second[DAWN_REPORT_ROOM];

    if (format == DAWN_JSON) {
        put_json(out, offset);
        return;
    }
    dawn_text_add(&text, "your nights are %s %s than the station's, ",
                  difference(fabs(offset->mean_K), units, first),
                  offset->mean_K < 0.0 ? "warmer" : "colder");
    dawn_text_add(&text, "%s to ", difference(offset->least_K, units, first));
    dawn_text_add(
        &text, "%s, in %zu nights%s", difference(offset->most_K, units, first), offset->nights,
        offset->clear_told ? "" : "; they are too alike in cloud and wind to tell what those do");
    if (!text.failed) {
        dawn_report_wrapped(out, "     ", text.data);
    }
    dawn_text_release(&text);
    fprintf(out, "\nsite:                       # into your scenario, beside what stands there\n");
    fprintf(out, "  offset: %s\n", difference(offset->always_K, units, first));
    fprintf(out, "  offset_clear_calm: %s\n", difference(offset->clear_K, units, first));
    fprintf(out, "  offset_spread: %s\n", difference(offset->spread_K, units, second));
}
