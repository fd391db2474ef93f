/* dawnlow-weather(5): what weather files may look like; the names of columns from the reader's own
 * table. */
#include <stdio.h>

#include "base/text.h"
#include "cli/manual.h"
#include "cli/mdoc.h"
#include "dawnlow/weather.h"

static void put_columns(void)
{
    const char *what = NULL;
    const char *const *names = NULL;
    const size_t count = dawn_weather_column_names(0, &what, &names);

    puts(".Sh COLUMNS");
    dawn_mdoc_text("The header line names what a column holds and, in brackets, its unit: "
                   "'air temperature (C)'. A name that holds one of these words, and none that "
                   "would make it something else, is that quantity; case and marks do not count:");
    dawn_mdoc_list();
    for (size_t i = 0; i < count; i++) {
        struct dawn_text text = {0};
        (void)dawn_weather_column_names(i, &what, &names);
        dawn_mdoc_entry(what);
        for (size_t k = 0; names[k] != NULL; k++) {
            dawn_text_add(&text, "%s%s", k == 0 ? "" : ", ", names[k] + (names[k][0] == '='));
        }
        dawn_text_add(&text, ".");
        dawn_mdoc_text(text.failed ? "" : text.data);
        dawn_text_release(&text);
    }
    dawn_mdoc_list_end();
    dawn_mdoc_text(
        "Time may be one column, such as 2026-03-12 05:00, day and hour in two, or year, "
        "month, day and hour in four. Columns that are not known are passed over; "
        "dawnlow weather tells which were taken for what.");
}

static void put_layouts(void)
{
    static const struct {
        const char *name, *text;
    } layouts[] = {
        {"NREL TMY3", "A typical year of a station in the United States."},
        {"NREL NSRDB", "Satellite-derived years with their own header of place and zone."},
        {"PVGIS TMY", "A typical year of a place in Europe, Africa, Asia or the Americas, in UTC."},
        {"ECCC hourly", "The hourly files of Environment and Climate Change Canada."},
    };

    puts(".Sh LAYOUTS");
    dawn_mdoc_text("These are known by their first lines and read as downloaded:");
    dawn_mdoc_list();
    for (size_t i = 0; i < sizeof layouts / sizeof layouts[0]; i++) {
        dawn_mdoc_entry(layouts[i].name);
        dawn_mdoc_text(layouts[i].text);
    }
    dawn_mdoc_list_end();
}

static void put_example(void)
{
    puts(".Sh EXAMPLES");
    dawn_mdoc_text("Lines before the header that begin with '#' may tell what the columns cannot:");
    puts(".Bd -literal -offset indent\n"
         "# station: Alder Hollow (invented)\n"
         "# latitude: 45.2\n"
         "# longitude: 6.9\n"
         "# elevation: 480 m\n"
         "# utc_offset: +1 h\n"
         "# stamp: hour\\-before\n"
         "time,air (C),dew point (C),wind (m/s),global (W/m2),cloud (%)\n"
         "2026\\-02\\-01 00:00,\\-0.1,\\-2.0,2.4,0,74\n"
         "2026\\-02\\-01 01:00,\\-0.6,\\-2.0,2.2,0,72\n"
         ".Ed");
}

void dawn_manual_weather(void)
{
    static const char *const see[] = {"dawnlow 1", "dawnlow-scenario 5", "dawnlow-tutorial 7",
                                      NULL};

    dawn_mdoc_head("dawnlow-weather", 5, "hourly weather files for dawnlow", NULL);
    dawn_mdoc_text("dawnlow reads hourly weather from CSV files: fields parted by comma, semicolon "
                   "or tab, numbers with a decimal point or comma, in any order of rows. A time "
                   "and the air temperature must be there. Dew point or humidity, wind, cloud, "
                   "solar radiation, long-wave radiation, pressure and snow make the nights "
                   "better; what is lacking is estimated, and every report says how.");
    puts(".Pp");
    dawn_mdoc_text("Gaps of up to 3 hours are filled between their neighbours, longer ones are "
                   "refused. The clock, as hours from UTC, must be in the file, in the scenario "
                   "(weather.utc_offset or site.utc_offset) or on the command line; it never "
                   "follows summer time. Stamps are the end of the hour their radiation is the "
                   "mean of, its begin, its middle, or an instant (weather.stamp). The place of "
                   "the weather must lie within 15 degrees of the site.");
    put_layouts();
    put_columns();
    put_example();
    dawn_mdoc_see(see);
}
