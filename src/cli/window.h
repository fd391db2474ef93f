/* From days on the command line to the stretch of weather a run goes over. */
#ifndef CLI_WINDOW_H
#define CLI_WINDOW_H

#include <stdint.h>

#include "cli/options.h"
#include "dawnlow/network.h"
#include "dawnlow/nights.h"
#include "dawnlow/weather.h"

struct dawn_window {
    int64_t from_s, to_s;
};

/* What the weather covers: from its first instant (radiation may reach back an hour further, into a
 * day the grower would not call covered) to the end of the forcing. */
struct dawn_window dawn_window_covered(const struct dawn_network *network,
                                       const struct dawn_weather *weather);

/* The first evening and the last morning (either may be left out) to seconds: from noon to noon on
 * the site's clock, cut to what the weather covers. A day without a year is looked for in the
 * weather. DAWN_ERR_USAGE with a problem when the weather has no such days. */
enum dawn_status dawn_window_find(struct dawn_window *window, struct dawn_options_date from,
                                  struct dawn_options_date to, struct dawn_window covered,
                                  double utc_offset_h, struct dawn_problems *problems);

/* The window that --from and --to of the options leave of one weather file. */
enum dawn_status dawn_window_of(struct dawn_window *window, const struct dawn_scenario *scenario,
                                const struct dawn_weather *weather,
                                const struct dawn_options *options, struct dawn_problems *problems);

/* The night whose evening is that day; NULL with a problem when there is none. */
const struct dawn_night *dawn_window_night(const struct dawn_nights *nights,
                                           struct dawn_options_date evening, double utc_offset_h,
                                           struct dawn_problems *problems);

#endif
