/* Where one night's heat came from and went, as bars. */
#include <math.h>
#include <stdlib.h>

#include "physics/constants.h"
#include "report/picture.h"

/* What would be printed as 0.0 only takes room. */
static const double shown_kWh = 0.05;

static size_t add_rows(struct dawn_chart_bar bar[], size_t count, const char *heading,
                       const struct dawn_ledger_row *row, size_t rows)
{
    bar[count++] = (struct dawn_chart_bar){heading, NAN};
    for (size_t i = 0; i < rows; i++) {
        const double kWh = row[i].J / PHYSICS_J_PER_kWh;
        if (fabs(kWh) >= shown_kWh) {
            bar[count++] = (struct dawn_chart_bar){row[i].name, kWh};
        }
    }
    return count;
}

bool dawn_picture_heat(struct dawn_picture *picture, const struct dawn_nights_story *story)
{
    const struct dawn_ledger *ledger = story->ledger;
    const double offset_h = story->scenario->site.utc_offset_h;
    char name[DAWN_REPORT_ROOM];
    char from[DAWN_REPORT_ROOM];
    char to[DAWN_REPORT_ROOM];
    size_t count = 0;

    *picture = (struct dawn_picture){0};
    picture->bar = calloc(ledger->boundary_count + ledger->store_count + 2, sizeof *picture->bar);
    if (picture->bar == NULL) {
        return false;
    }
    count = add_rows(picture->bar, count, "given back (+) or taken up by", ledger->stores,
                     ledger->store_count);
    count = add_rows(picture->bar, count, "into the house (+) or out of it", ledger->boundary,
                     ledger->boundary_count);
    dawn_report_night_name(story->explained, offset_h, name);
    dawn_report_clock((double)ledger->from_s, offset_h, from);
    dawn_report_clock((double)ledger->to_s, offset_h, to);
    snprintf(picture->title, sizeof picture->title, "Heat of the night %.40s, %.8s to %.8s", name,
             from, to);
    snprintf(picture->description, sizeof picture->description,
             "Bars of the heat each store gave back and of what came into the house or left it, in "
             "kWh, between %.8s and %.8s of the night %.40s.",
             from, to, name);
    picture->bars = (struct dawn_chart_bars){.id = "heat",
                                             .title = picture->title,
                                             .description = picture->description,
                                             .unit = "kWh",
                                             .decimals = 1,
                                             .signs = true,
                                             .bar = picture->bar,
                                             .count = count};
    return true;
}
