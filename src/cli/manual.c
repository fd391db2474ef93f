/* The list of manual pages that the program writes. */
#include "cli/manual.h"

static const struct dawn_manual PAGES[] = {
    {"dawnlow", 1, dawn_manual_program},
    {"dawnlow-scenario", 5, dawn_manual_scenario},
    {"dawnlow-weather", 5, dawn_manual_weather},
};

const struct dawn_manual *dawn_manual_pages(size_t *count)
{
    *count = sizeof PAGES / sizeof PAGES[0];
    return PAGES;
}
