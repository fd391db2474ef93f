/* Single pictures, for a file or a terminal. */
#include <assert.h>

#include "report/picture.h"

static bool build(struct dawn_picture *picture, enum dawn_picture_kind kind, enum dawn_units units,
                  const struct dawn_nights_story *story, const struct dawn_night *night, bool few)
{
    switch (kind) {
    case DAWN_PICTURE_NIGHT:
        return dawn_picture_night(picture, story, night, units, few);
    case DAWN_PICTURE_LOWS:
        return dawn_picture_lows(picture, story, units);
    case DAWN_PICTURE_HEAT:
        break;
    }
    return dawn_picture_heat(picture, story);
}

enum dawn_status dawn_report_picture(FILE *out, enum dawn_picture_kind kind, enum dawn_units units,
                                     const struct dawn_nights_story *story,
                                     const struct dawn_night *night)
{
    struct dawn_picture picture;
    struct dawn_xmlout xml;

    if (!build(&picture, kind, units, story, night, false)) {
        return DAWN_ERR_NOMEM;
    }
    fputs("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n", out);
    dawn_xmlout_begin(&xml, out);
    if (kind == DAWN_PICTURE_HEAT) {
        dawn_chart_bars_svg(&xml, &picture.bars, true);
    } else {
        dawn_chart_svg(&xml, &picture.chart, true);
    }
    dawn_picture_release(&picture);
    return xml.failed ? DAWN_ERR_NOMEM : DAWN_OK;
}

enum dawn_status dawn_report_screen(FILE *out, enum dawn_picture_kind kind, enum dawn_units units,
                                    const struct dawn_nights_story *story,
                                    const struct dawn_night *night, size_t columns, size_t rows,
                                    bool braille)
{
    struct dawn_picture picture;

    assert(kind != DAWN_PICTURE_HEAT);
    if (!build(&picture, kind, units, story, night, true)) {
        return DAWN_ERR_NOMEM;
    }
    fprintf(out, "%.*s\n", (int)columns, picture.title);
    dawn_chart_screen(out, &picture.chart, columns, rows, braille);
    dawn_picture_release(&picture);
    return DAWN_OK;
}
