/* What a sheet lets through by the angle of the light, as its maker tells it. */

#include "base/text.h"
#include "scenario/scenario_parts.h"

static const char *past_blanks(const char *s)
{
    while (*s == ' ')
        s++;
    return s;
}

/* "60 deg 0.7" or "60 70 %" at the start of *s, and what parts it from the next. */
static bool read_pair(const char **s, double *angle_deg, double *share)
{
    const char *end = *s;
    if (!dawn_text_number(end, &end, angle_deg))
        return false;
    end = past_blanks(end);
    if (dawn_text_starts(end, "deg"))
        end += 3;
    if (!dawn_text_number(end, &end, share))
        return false;
    end = past_blanks(end);
    if (*end == '%') {
        *share /= 100.0;
        end = past_blanks(end + 1);
    }
    if (*end != '\0' && *end != ',' && *end != ';')
        return false;
    *s = *end == '\0' ? end : end + 1;
    return true;
}

/* Why a pair does not fit behind those before it; NULL when it does. */
static const char *wrong_with(const struct dawn_glazing_angles *before, double angle_deg,
                              double share)
{
    if (before->count == 0 && angle_deg != 0.0)
        return "it must begin with 0 deg, light that comes straight on";
    if (before->count > 0 && angle_deg <= before->angle_deg[before->count - 1])
        return "its angles must rise";
    if (angle_deg > 90.0)
        return "light along the sheet comes at 90 deg, more there is not";
    if (share < 0.0 || share > 0.98)
        return "shares of light go from 0 to 0.98";
    return before->count == DAWN_GLAZING_ANGLES_MOST - 1 ? "11 angles are the most" : NULL;
}

const char *dawn_scenario_angles_of(const char *text, struct dawn_glazing_angles *angles)
{
    *angles = (struct dawn_glazing_angles){0};
    while (*past_blanks(text) != '\0') {
        double angle_deg = 0;
        double share = 0;
        if (!read_pair(&text, &angle_deg, &share))
            return "it is written as 0 deg 0.82, 60 deg 0.70, 80 deg 0.35";
        const char *wrong = wrong_with(angles, angle_deg, share);
        if (wrong != NULL)
            return wrong;
        angles->angle_deg[angles->count] = angle_deg;
        angles->transmittance[angles->count++] = share;
    }
    if (angles->count == 1)
        return "one angle is no table: leave it out, solar_transmittance is enough";
    if (angles->count > 0 && angles->angle_deg[angles->count - 1] < 90.0) {
        angles->angle_deg[angles->count] = 90.0;
        angles->transmittance[angles->count++] = 0.0;
    }
    return NULL;
}
