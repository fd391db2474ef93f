/* The run's series: every node's temperature, step by step, as CSV. */
#include <math.h>
#include <string.h>

#include "base/civil.h"
#include "base/text.h"
#include "report/report_parts.h"

/* "south roof" becomes the column "south_roof_C". */
static void put_column_name(FILE *out, const char *node)
{
    struct dawn_text name = {0};

    dawn_text_add(&name, "%s_C", node);
    if (!name.failed) {
        for (char *c = strchr(name.data, ' '); c != NULL; c = strchr(c, ' ')) {
            *c = '_';
        }
        dawn_report_csv_field(out, name.data);
    }
    dawn_text_release(&name);
}

void dawn_report_series(FILE *out, const struct dawn_nights_story *story)
{
    const size_t nodes = dawn_network_node_count(story->network);
    const size_t rows = dawn_trajectory_series_count(story->run);
    const bool fan = dawn_network_has_fan(story->network);
    const double mean_s = dawn_trajectory_series_mean_s(story->run);
    char number[DAWN_REPORT_ROOM];

    fputs("time,outside_C", out);
    for (size_t i = 0; i < nodes; i++) {
        fputc(',', out);
        put_column_name(out, dawn_network_node(story->network, i)->name);
    }
    fputs(fan ? ",fan_on\r\n" : "\r\n", out);

    const size_t every = story->series_every > 0 ? story->series_every : 1;
    for (size_t row = 0; row < rows; row += every) {
        const double t_s = dawn_trajectory_series_time_s(story->run, row);
        const double *node_C = dawn_trajectory_series_C(story->run, row);
        char stamp[32];
        dawn_civil_iso((int64_t)llround(t_s), story->scenario->site.utc_offset_h, stamp);
        const double outside_C =
            mean_s > 0.0 ? dawn_network_outside_mean_C(story->network, t_s - mean_s, t_s)
                         : dawn_network_outside_C(story->network, t_s);
        fprintf(out, "%s,%s", stamp, dawn_report_fixed(outside_C, 3, number));
        for (size_t i = 0; i < nodes; i++) {
            fprintf(out, ",%s", dawn_report_fixed(node_C[i], 3, number));
        }
        if (fan && mean_s > 0.0) {
            const double share = dawn_trajectory_fan_s(story->run, t_s - mean_s, t_s) / mean_s;
            fprintf(out, ",%s", dawn_report_fixed(share, 3, number));
        } else if (fan) {
            fputs(dawn_trajectory_series_fan_on(story->run, row) ? ",1" : ",0", out);
        }
        fputs("\r\n", out);
    }
}
