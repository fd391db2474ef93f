/* The scenario and the weather a command works on. */
#ifndef CLI_INPUTS_H
#define CLI_INPUTS_H

#include "base/text.h"
#include "cli/options.h"
#include "dawnlow/scenario.h"
#include "dawnlow/weather.h"

struct dawn_inputs {
    struct dawn_scenario scenario;
    struct dawn_weather weather;
    struct dawn_text
        weather_path;       /* where the weather was or will be read from; data NULL = none */
    bool weather_by_option; /* the command line named it, not the scenario */
};

/* Reads the scenario (first operand, with --set laid over it) and settles where its weather is:
 * --weather, else the scenario's own file, which is relative to the scenario's folder. */
enum dawn_status dawn_inputs_scenario(struct dawn_inputs *inputs,
                                      const struct dawn_options *options,
                                      struct dawn_problems *problems);
/* Reads the weather; a problem when none was named anywhere. */
enum dawn_status dawn_inputs_weather(struct dawn_inputs *inputs, struct dawn_problems *problems);
/* Reads a further weather file for the same scenario; the caller releases it. */
enum dawn_status dawn_inputs_more_weather(const struct dawn_inputs *inputs, const char *path,
                                          struct dawn_weather *weather,
                                          struct dawn_problems *problems);
void dawn_inputs_release(struct dawn_inputs *inputs);

#endif
