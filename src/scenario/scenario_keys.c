/* THE table: every section and key of a scenario, its unit, bounds, default, meaning and place.
 *
 * The reader, the checks, --set, the listing of what was understood and the manual all read it.
 * Bounds in the first pair are what nature or the calculation allows; outside the second pair a
 * value is unusual and worth a second look. Defaults are common practice or the middle of what
 * handbooks print (soil, rock, walls: from memory); each can be overridden. */
#include <string.h>

#include "base/unit.h"
#include "scenario/scenario_parts.h"

#define IN(type, field) offsetof(struct type, field), sizeof(((struct type *)0)->field)

#define STARTING "A starting value only (common practice, no source): put in your own."
#define COMPASS  "N|NNE|NE|ENE|E|ESE|SE|SSE|S|SSW|SW|WSW|W|WNW|NW|NNW"
#define GLAZING_WORDS                                                                              \
    "glass|glass-low-iron|double-glass|film|film-thermal|double-film|double-film-thermal|"         \
    "twinwall-6mm|twinwall-8mm|twinwall-10mm|triplewall-16mm|acrylic-16mm|corrugated"

#define COVER_WORDS "light-fleece|fleece|heavy-fleece|clear-film|bubble-film|curtain|bright-curtain"

static const struct dawn_scenario_section SECTIONS[] = {
    {"", "scenario", "the scenario as a whole", DAWN_SCENARIO_TOP, 0, 0, 0, 0, 0, NULL},
    {"site", "site", "where the house stands", DAWN_SCENARIO_REQUIRED,
     offsetof(struct dawn_scenario, site), 0, 0, 0, 0, NULL},
    {"house", "house", "the space under glass", DAWN_SCENARIO_REQUIRED,
     offsetof(struct dawn_scenario, house), 0, 0, 0, 0, NULL},
    {"openings", "opening", "vents, windows and doors that let air in and out", DAWN_SCENARIO_LIST,
     offsetof(struct dawn_scenario, openings), 0, sizeof(struct dawn_opening), DAWN_OPENINGS_MOST,
     offsetof(struct dawn_scenario, opening_count), NULL},
    {"outdoor_fan", "outdoor fan", "a fan that blows outdoor air through the house by the clock",
     DAWN_SCENARIO_OPTIONAL, offsetof(struct dawn_scenario, outdoor_fan),
     offsetof(struct dawn_outdoor_fan, present), 0, 0, 0, NULL},
    {"moisture", "moisture", "the water in soil, trays and air", DAWN_SCENARIO_OPTIONAL,
     offsetof(struct dawn_scenario, moisture), offsetof(struct dawn_moisture, present), 0, 0, 0,
     NULL},
    {"glazing", "glazing", "the faces that let light in", DAWN_SCENARIO_LIST,
     offsetof(struct dawn_scenario, glazing), 0, sizeof(struct dawn_glazing), DAWN_GLAZING_MOST,
     offsetof(struct dawn_scenario, glazing_count), NULL},
    {"walls", "wall", "the faces that let no light in: walls, doors, insulated roofs",
     DAWN_SCENARIO_LIST, offsetof(struct dawn_scenario, walls), 0, sizeof(struct dawn_wall),
     DAWN_WALLS_MOST, offsetof(struct dawn_scenario, wall_count), NULL},
    {"walls.layers", "layer", "what a wall is made of, from outside to inside",
     DAWN_SCENARIO_SUBLIST, offsetof(struct dawn_wall, layers), 0, sizeof(struct dawn_layer),
     DAWN_LAYERS_MOST, offsetof(struct dawn_wall, layer_count), "walls"},
    {"ground", "ground", "the soil of the floor and below", DAWN_SCENARIO_PLAIN,
     offsetof(struct dawn_scenario, ground), 0, 0, 0, 0, NULL},
    {"bed", "bed", "the planting bed", DAWN_SCENARIO_OPTIONAL, offsetof(struct dawn_scenario, bed),
     offsetof(struct dawn_bed, present), 0, 0, 0, NULL},
    {"rock", "rock", "the rock that stores heat", DAWN_SCENARIO_OPTIONAL,
     offsetof(struct dawn_scenario, rock), offsetof(struct dawn_rock, present), 0, 0, 0, NULL},
    {"fan", "fan", "the fan that blows house air through the rock", DAWN_SCENARIO_OPTIONAL,
     offsetof(struct dawn_scenario, fan), offsetof(struct dawn_fan, present), 0, 0, 0, NULL},
    {"ducts", "duct", "the pipes that lead air to the rock and away from it", DAWN_SCENARIO_LIST,
     offsetof(struct dawn_scenario, ducts), 0, sizeof(struct dawn_duct), DAWN_DUCTS_MOST,
     offsetof(struct dawn_scenario, duct_count), NULL},
    {"barrels", "group of barrels", "barrels of water that store heat", DAWN_SCENARIO_LIST,
     offsetof(struct dawn_scenario, barrels), 0, sizeof(struct dawn_barrels), DAWN_BARRELS_MOST,
     offsetof(struct dawn_scenario, barrels_count), NULL},
    {"trays", "trays", "the trays with the seedlings", DAWN_SCENARIO_OPTIONAL,
     offsetof(struct dawn_scenario, trays), offsetof(struct dawn_trays, present), 0, 0, 0, NULL},
    {"covers", "cover", "what is laid over trays and bed or drawn below the roof for the night",
     DAWN_SCENARIO_LIST, offsetof(struct dawn_scenario, covers), 0, sizeof(struct dawn_cover),
     DAWN_COVERS_MOST, offsetof(struct dawn_scenario, cover_count), NULL},
    {"snow", "fall of snow", "snow that lies on the roof for days", DAWN_SCENARIO_LIST,
     offsetof(struct dawn_scenario, snow), 0, sizeof(struct dawn_snow), DAWN_SNOW_MOST,
     offsetof(struct dawn_scenario, snow_count), NULL},
    {"crops", "crop", "what grows there and what it bears", DAWN_SCENARIO_LIST,
     offsetof(struct dawn_scenario, crops), 0, sizeof(struct dawn_crop), DAWN_CROPS_MOST,
     offsetof(struct dawn_scenario, crop_count), NULL},
    {"weather", "weather", "the weather file and how to read it", DAWN_SCENARIO_PLAIN,
     offsetof(struct dawn_scenario, weather), 0, 0, 0, 0, NULL},
    {"actions", "action", "what you can do on a cold evening", DAWN_SCENARIO_LIST,
     offsetof(struct dawn_scenario, actions), 0, sizeof(struct dawn_action), DAWN_ACTIONS_MOST,
     offsetof(struct dawn_scenario, action_count), NULL},
    {"forecast", "forecast", "how far forecasts and guesses may be off", DAWN_SCENARIO_PLAIN,
     offsetof(struct dawn_scenario, forecast), 0, 0, 0, 0, NULL},
    {"start", "start", "how the calculation starts", DAWN_SCENARIO_PLAIN,
     offsetof(struct dawn_scenario, start), 0, 0, 0, 0, NULL},
    {"fans", "fan on offer", "fans one could buy, to choose from", DAWN_SCENARIO_LIST,
     offsetof(struct dawn_scenario, fans), 0, sizeof(struct dawn_fan_offer), DAWN_FANS_MOST,
     offsetof(struct dawn_scenario, fan_offer_count), NULL},
    {"prices", "prices", "what things cost, in your own currency", DAWN_SCENARIO_PLAIN,
     offsetof(struct dawn_scenario, prices), 0, 0, 0, 0, NULL},
};

#define NUMBER(section, name, measure, unit, least, most, doubt_least, doubt_most, usual, words,   \
               type, field, meaning)                                                               \
    {                                                                                              \
        section, name, DAWN_KIND_QUANTITY, DAWN_MEASURE_##measure, unit, least, most, doubt_least, \
            doubt_most, usual, words, meaning, IN(type, field)                                     \
    }
#define SHARE(section, name, least, most, doubt_least, doubt_most, usual, type, field, meaning)    \
    NUMBER(section, name, NONE, "", least, most, doubt_least, doubt_most, usual, NULL, type,       \
           field, meaning)
#define COUNT(section, name, least, most, doubt_least, doubt_most, usual, type, field, meaning)    \
    {                                                                                              \
        section, name, DAWN_KIND_COUNT, DAWN_MEASURE_NONE, "", least, most, doubt_least,           \
            doubt_most, usual, NULL, meaning, IN(type, field)                                      \
    }
#define COUNT_OR(section, name, least, most, doubt_least, doubt_most, words, type, field, meaning) \
    {                                                                                              \
        section, name, DAWN_KIND_COUNT, DAWN_MEASURE_NONE, "", least, most, doubt_least,           \
            doubt_most, words, words, meaning, IN(type, field)                                     \
    }
#define CHOICE(section, name, usual, words, type, field, meaning)                                  \
    {                                                                                              \
        section, name, DAWN_KIND_CHOICE, DAWN_MEASURE_NONE, "", 0, 0, 0, 0, usual, words, meaning, \
            IN(type, field)                                                                        \
    }
#define TEXT(section, name, usual, words, type, field, meaning)                                    \
    {                                                                                              \
        section, name, DAWN_KIND_TEXT, DAWN_MEASURE_NONE, "", 0, 0, 0, 0, usual, words, meaning,   \
            IN(type, field)                                                                        \
    }

static const struct dawn_key KEYS[] = {
    /* section, name, measure, table's unit, least, most, doubtful outside, usual, words, field */
    COUNT("", "dawnlow", 1, 1, 1, 1, NULL, dawn_scenario, version,
          "Which form of scenario this is; the form described here is 1."),
    TEXT("", "name", "nursery", NULL, dawn_scenario, name,
         "What the nursery is called in reports."),

    NUMBER("site", "latitude", ANGLE, "deg", -90, 90, -66, 66, NULL, "N|S", dawn_site, latitude_deg,
           "Latitude, as 45.2 N or 45.2 deg; south is S or a minus."),
    NUMBER("site", "longitude", ANGLE, "deg", -180, 180, -180, 180, NULL, "E|W", dawn_site,
           longitude_deg, "Longitude, as 6.9 E or 6.9 deg; west is W or a minus."),
    NUMBER("site", "elevation", LENGTH, "m", -450, 6000, -10, 3500, "100 m", NULL, dawn_site,
           elevation_m, "Height above the sea. Air is thinner higher up and carries less heat."),
    NUMBER("site", "utc_offset", HOURS_OFFSET, "h", -12, 14, -12, 14, NULL, NULL, dawn_site,
           utc_offset_h,
           "Your standard time less UTC, without daylight saving; west of Greenwich is a minus. "
           "All printed times use it."),
    NUMBER("site", "ground_temperature", TEMPERATURE, "C", -15, 35, 2, 22, "estimate", "estimate",
           dawn_site, ground_C,
           "Steady temperature of the ground some metres down, near the year's mean of the air."),
    SHARE("site", "ground_reflectance", 0, 1, 0.05, 0.9, "0.2", dawn_site, ground_reflectance,
          "Share of light the land around throws back: grass 0.2, old snow 0.5, fresh snow 0.8."),
    SHARE("site", "wind_share", 0, 1, 0.1, 1, "0.5", dawn_site, wind_share,
          "Wind at the house as a share of the wind in the weather file: open land 0.7, "
          "sheltered 0.4."),
    NUMBER(
        "site", "offset", DIFFERENCE, "K", -15, 15, -3, 6, "0 K", NULL, dawn_site, offset_K,
        "How much colder it is at the house than where the weather file is from, at all times; a "
        "minus is warmer. `dawnlow offset` finds it from your own readings."),
    NUMBER(
        "site", "offset_clear_calm", DIFFERENCE, "K", -5, 15, 0, 8, "0 K", NULL, dawn_site,
        offset_clear_K,
        "How much colder still on a clear and calm night, when cold air gathers in hollows; less "
        "with cloud and wind, nothing by day."),
    NUMBER("site", "offset_spread", DIFFERENCE, "K", 0, 10, 0, 3, "0 K", NULL, dawn_site,
           offset_spread_K,
           "How far that difference usually is from what is said here (one standard deviation); "
           "forecasts count it in."),

    NUMBER("house", "length", LENGTH, "m", 0.5, 200, 2, 60, NULL, NULL, dawn_house, length_m,
           "Inside length of the house."),
    NUMBER("house", "width", LENGTH, "m", 0.5, 200, 1.5, 20, NULL, NULL, dawn_house, width_m,
           "Inside width of the house."),
    NUMBER("house", "floor_area", AREA, "m2", 0.25, 40000, 2, 1000, "length x width",
           "length x width", dawn_house, floor_area_m2,
           "Floor inside, where it is not length times width."),
    NUMBER("house", "height", LENGTH, "m", 0.3, 15, 1.2, 5, NULL, NULL, dawn_house, height_m,
           "Mean height of the air space: halfway between eave and ridge."),
    NUMBER("house", "air_volume", VOLUME, "m3", 0.05, 200000, 2, 4000, "floor x height",
           "floor x height", dawn_house, air_volume_m3,
           "Air inside, where it is not floor times height."),
    CHOICE("house", "leakage", "average", "sealed|tight|average|leaky|draughty", dawn_house,
           leakage,
           "How tight the house is. sealed: every joint taped, the door with a seal; tight: new "
           "double film; average: sheets or panes in good order; leaky: old glass, laps and a door "
           "one can see through; draughty: slipped panes, torn film."),
    NUMBER("house", "air_changes", RATE, "/h", 0, 60, 0.2, 5, "from leakage", "from leakage",
           dawn_house, air_changes_per_h,
           "Instead of a word for leakage: how often an hour the leaks change the air, at 15 K "
           "warmer inside and 2 m/s of wind at the house; sealed 0.45, average 1, leaky 1.75."),
    NUMBER("house", "fan_test", RATE, "/h", 0, 1000, 2, 120, "not measured", "not measured",
           dawn_house, fan_test_per_h,
           "Or: how often an hour the air changed when a measuring fan in the door held 50 Pa."),
    NUMBER("house", "steady_air_changes", RATE, "/h", 0, 60, 0, 5, "0 /h", NULL, dawn_house,
           steady_air_changes_per_h,
           "Air changes an hour beside air_changes that neither wind nor warmth drive: a small fan "
           "that never stops, or the steady leak of a reckoned example."),
    COUNT("house", "zones", 1, 2, 1, 2, "1", dawn_house, zones,
          "1 takes the air as one volume; 2 keeps the air under the ridge, which is hotter by day, "
          "apart from the air at the benches."),
    NUMBER("house", "heat", POWER, "W", 0, 100000, 0, 2000, "0 W", NULL, dawn_house, heat_W,
           "Steady heat inside, day and night: a lamp, a pump, hens."),
    SHARE(
        "house", "heat_radiant_share", 0, 1, 0, 0.9, "0", dawn_house, heat_radiant_share,
        "Share of that heat which is radiated to floor, walls and panes; the rest warms the air."),
    NUMBER("house", "snow_steepest", ANGLE, "deg", 0, 89, 20, 70, "60 deg", NULL, dawn_house,
           snow_steepest_deg,
           "Panes and roofs steeper than this bear no snow: rough ones 60 deg (as in EN 1991-1-3), "
           "smooth ones perhaps 45 deg. For the section 'snow'."),
    NUMBER("house", "snow_slides_above", TEMPERATURE, "C", 0, 20, 0, 8, "2 C", "never", dawn_house,
           snow_slides_above_C,
           "When it gets as warm as this outdoors, what lies on the roof slides off, all at once "
           "(common practice, no source); on rough roofs it may never. Only the outdoor air is "
           "asked: a house that is warm inside thaws its snow from below and sheds it sooner, in "
           "frost as well. Name that day as 'until'. For the section 'snow'."),

    TEXT("openings", "name", "", NULL, dawn_opening, name,
         "What you call this opening; without a name it gets a number."),
    NUMBER("openings", "area", AREA, "m2", 0, 200, 0.02, 40, NULL, NULL, dawn_opening, area_m2,
           "Clear opening when it stands fully open; several alike may be taken as one."),
    NUMBER("openings", "height", LENGTH, "m", 0.02, 12, 0.1, 5, "1 m", NULL, dawn_opening, height_m,
           "Height of the opening from its lower to its upper edge; the taller, the more air the "
           "warmth drives through."),
    CHOICE("openings", "place", NULL, "ridge|side", dawn_opening, place,
           "Where it is: ridge, a vent in or near the ridge; side, a side vent, a roll-up side, a "
           "door. When one of each is open, air comes in below and leaves above."),
    NUMBER("openings", "middle_height", LENGTH, "m", 0, 30, 0.2, 6, "from place", "from place",
           dawn_opening, middle_m,
           "How high its middle is above the floor. From place: at the side 0.4, at the ridge 1.2 "
           "of the mean height of the house."),
    NUMBER("openings", "opens_at", TEMPERATURE, "C", -10, 60, 10, 40, "by the clock",
           "by the clock", dawn_opening, opens_at_C,
           "House air at which it begins to open, by a wax opener or by your hand. By the clock: "
           "it stands fully open in its hours, whatever the temperature."),
    NUMBER("openings", "fully_open_at", TEMPERATURE, "C", -9, 80, 12, 50, "8 K above opens_at",
           "8 K above opens_at", dawn_opening, fully_open_at_C,
           "House air at which it stands fully open."),
    NUMBER("openings", "from", CLOCK, "h", 0, 24, 0, 24, "00:00", NULL, dawn_opening, from_s,
           "Before this time of day, by the site's standard time, it stays shut."),
    NUMBER("openings", "until", CLOCK, "h", 0, 24, 0, 24, "24:00", NULL, dawn_opening, until_s,
           "From this time of day on it is shut, warm or not; earlier than 'from' means the next "
           "morning."),
    SHARE("openings", "least_open", 0, 1, 0, 1, "0", dawn_opening, least_open,
          "How far it stands open even when it is shut: a crack left for dry air 0.05, forgotten "
          "or blocked 1."),

    NUMBER("outdoor_fan", "air_changes", RATE, "/h", 0.01, 200, 0.5, 60, NULL, NULL,
           dawn_outdoor_fan, air_changes_per_h,
           "How often an hour the running fan changes the air of the house for outdoor air."),
    NUMBER("outdoor_fan", "from", CLOCK, "h", 0, 24, 0, 24, NULL, NULL, dawn_outdoor_fan, from_s,
           "When it starts each day, by the site's standard time."),
    NUMBER("outdoor_fan", "until", CLOCK, "h", 0, 24, 0, 24, NULL, NULL, dawn_outdoor_fan, until_s,
           "When it stops; earlier than 'from' means the next morning."),

    SHARE("moisture", "floor_wet", 0, 1, 0, 0.9, "0.1", dawn_moisture, floor_wet,
          "Share of the floor that gives off water as if it were open: dry gravel 0.05, damp earth "
          "0.3, just watered 1."),
    SHARE("moisture", "bed_wet", 0, 1, 0.05, 1, "0.3", dawn_moisture, bed_wet,
          "The same of the planting bed: dry mulch 0.1, moist soil 0.3 to 0.6, just watered 1."),
    SHARE("moisture", "trays_wet", 0, 1, 0.1, 1, "0.6", dawn_moisture, trays_wet,
          "The same of the trays: 0.3 when the mix is dry on top, 1 for a day after watering."),
    NUMBER("moisture", "film", LENGTH, "mm", 0, 2, 0.02, 0.4, "0.15 mm", NULL, dawn_moisture,
           film_m, "How much water a pane holds before it drips."),

    TEXT("glazing", "name", "", NULL, dawn_glazing, name,
         "What you call this face; without a name it gets a number."),
    NUMBER("glazing", "area", AREA, "m2", 0.01, 40000, 0.1, 1000, NULL, NULL, dawn_glazing, area_m2,
           "Area of the face, frame included."),
    NUMBER("glazing", "slope", ANGLE, "deg", 0, 90, 0, 90, NULL, NULL, dawn_glazing, slope_deg,
           "Slope from level: a flat roof is 0 deg, an upright wall 90 deg."),
    NUMBER("glazing", "azimuth", ANGLE, "deg", 0, 360, 0, 360, NULL, COMPASS, dawn_glazing,
           azimuth_deg,
           "Where the face looks: a compass word such as S or SE, or degrees from north by east."),
    CHOICE("glazing", "type", NULL, GLAZING_WORDS, dawn_glazing, type,
           "What the face is made of. Light, gap and long-wave values come with the type."),
    SHARE("glazing", "frame_share", 0, 0.6, 0, 0.35, "0.1", dawn_glazing, frame_share,
          "Share of the area that is frame: metal tunnel 0.05 to 0.1, timber 0.1 to 0.18."),
    SHARE("glazing", "dirt_factor", 0, 1, 0.7, 1, "0.9", dawn_glazing, dirt_factor,
          "Share of light that dirt and drops let through: cleaned 0.95, old film 0.85."),
    NUMBER("glazing", "solar_transmittance", NONE, "", 0.01, 0.98, 0.4, 0.93, "from type",
           "from type", dawn_glazing, solar_transmittance,
           "Share of sunlight that all skins together let through when clean, straight on."),
    TEXT("glazing", "transmittance_by_angle", "", NULL, dawn_glazing, by_angle,
         "Instead of solar_transmittance, for structured and diffusing sheets: what all skins let "
         "through by the angle from straight on, as its maker measured it, '0 deg 0.82, 60 deg "
         "0.70, 80 deg 0.35'; beyond the last angle it falls to nothing at 90 deg."),
    COUNT_OR("glazing", "skins", 1, DAWN_GLAZING_LAYERS_MOST, 1, 3, "from type", dawn_glazing,
             skins,
             "How many alike lie one behind the other, with a gap between each two: a second film "
             "under the first makes 2. Each takes light and holds warmth."),
    NUMBER("glazing", "gap_resistance", RESISTANCE, "m2K/W", 0, 10, 0, 0.6, "from type",
           "from type", dawn_glazing, gap_resistance_m2K_W,
           "How well each gap between two skins holds heat, a closed layer of air 0.15 to 0.18; 0 "
           "m2K/W means one skin."),
    NUMBER("glazing", "longwave_transmittance", NONE, "", 0, 0.95, 0, 0.85, "from type",
           "from type", dawn_glazing, longwave_transmittance,
           "Share of heat radiation that goes straight through all skins: clear film 0.75, glass "
           "0."),
    NUMBER("glazing", "emissivity", NONE, "", 0.01, 1, 0.15, 0.97, "from type", "from type",
           dawn_glazing, emissivity,
           "How readily both faces radiate heat: glass 0.84, twin-wall 0.9, clear film 0.2."),
    NUMBER("glazing", "refractive_index", NONE, "", 1.2, 2.2, 1.4, 1.7, "from type", "from type",
           dawn_glazing, refractive_index,
           "Of the skins' material: glass 1.526, polyethylene 1.51, polycarbonate 1.59. With "
           "solar_transmittance it tells what slanting light does."),

    TEXT("walls", "name", "", NULL, dawn_wall, name,
         "What you call this wall; without a name it gets a number."),
    NUMBER("walls", "area", AREA, "m2", 0.01, 40000, 0.1, 1000, NULL, NULL, dawn_wall, area_m2,
           "Area of the wall."),
    NUMBER("walls", "slope", ANGLE, "deg", 0, 180, 0, 180, "90 deg", NULL, dawn_wall, slope_deg,
           "Slope from level: a flat roof is 0 deg, an upright wall 90 deg, a built floor, which "
           "takes the place of bare soil, 180 deg."),
    NUMBER("walls", "azimuth", ANGLE, "deg", 0, 360, 0, 360, "N", COMPASS, dawn_wall, azimuth_deg,
           "Where its outside looks: a compass word such as N, or degrees from north by east."),
    CHOICE("walls", "outside", "weather", "weather|shaded|ground", dawn_wall, outside,
           "What is behind it: open weather, weather without sun and sky (another building, deep "
           "shade), or the ground."),
    SHARE("walls", "outside_absorptance", 0, 1, 0.1, 0.97, "0.6", dawn_wall, outside_absorptance,
          "Share of sunlight the outside takes up: white 0.25, grey wood 0.6, dark 0.9."),
    SHARE("walls", "outside_emissivity", 0.01, 1, 0.2, 0.98, "0.9", dawn_wall, outside_emissivity,
          "How readily the outside radiates heat: paint, wood, stone 0.9, bright metal 0.25."),
    SHARE("walls", "inside_absorptance", 0, 1, 0.1, 0.97, "0.5", dawn_wall, inside_absorptance,
          "Share of light the inside takes up: white 0.25, bare wood 0.5, black 0.95."),
    SHARE("walls", "inside_emissivity", 0.01, 1, 0.2, 0.98, "0.9", dawn_wall, inside_emissivity,
          "How readily the inside radiates heat: paint, wood, stone 0.9, foil 0.05 to 0.2."),
    NUMBER("walls", "soil_behind", LENGTH, "m", 0, 10, 0, 3, "0.5 m", NULL, dawn_wall,
           soil_behind_m,
           "With 'outside: ground': how much soil lies between the wall and ground of "
           "ground_temperature; 0 m sets the wall right against it."),

    TEXT("walls.layers", "name", "", NULL, dawn_layer, name,
         "What the layer is; without a name it gets a number."),
    NUMBER("walls.layers", "thickness", LENGTH, "mm", 0.1, 3000, 0.5, 800, NULL, NULL, dawn_layer,
           thickness_m, "Thickness of the layer."),
    NUMBER("walls.layers", "conductivity", CONDUCTIVITY, "W/mK", 0.005, 400, 0.018, 60, NULL, NULL,
           dawn_layer, conductivity_W_mK,
           "How well it conducts: foam 0.035, wood 0.13, brick 0.7, concrete 1.8 W/mK."),
    NUMBER("walls.layers", "density", DENSITY, "kg/m3", 1, 12000, 8, 8000, NULL, NULL, dawn_layer,
           density_kg_m3, "Density: foam 30, wood 500, brick 1700, concrete 2300 kg/m3."),
    NUMBER("walls.layers", "specific_heat", SPECIFIC_HEAT, "J/kgK", 100, 5000, 380, 2600, NULL,
           NULL, dawn_layer, specific_heat_J_kgK,
           "Heat per kilogram and kelvin: foam 1450, wood 1600, brick and concrete 900 J/kgK."),

    NUMBER("ground", "conductivity", CONDUCTIVITY, "W/mK", 0.03, 6, 0.25, 2.5, "1.1 W/mK", NULL,
           dawn_ground, conductivity_W_mK,
           "How well the soil conducts: dry sand 0.3, moist loam 1.1, wet clay 1.4 W/mK."),
    NUMBER("ground", "heat_capacity", VOLUME_HEAT, "MJ/m3K", 0.1, 4.5, 1, 3.5, "2.3 MJ/m3K", NULL,
           dawn_ground, heat_J_m3K,
           "Heat the soil holds, its water included: dry sand 1.3, moist loam 2.3, wet clay 3 "
           "MJ/m3K."),
    SHARE("ground", "water_share", 0, 0.7, 0.02, 0.5, "0.25", dawn_ground, water_share,
          "Share of the soil's volume that is water; it freezes and thaws."),
    NUMBER("ground", "edge_loss", LINE_LOSS, "W/mK", 0, 5, 0.2, 2.5, "1.3 W/mK", NULL, dawn_ground,
           edge_loss_W_mK,
           "Heat lost along the edge of the floor per metre and kelvin: bare 1.3, 0.6 m of foam "
           "in the ground 0.6, 1.2 m of foam 0.4 W/mK."),
    NUMBER("ground", "edge_depth", LENGTH, "m", 0, 3, 0, 1.5, "0 m", NULL, dawn_ground,
           edge_depth_m,
           "How deep foam board stands in the ground along the edge; edge_loss is then that of the "
           "bare edge, and the board takes its part off."),
    NUMBER("ground", "edge_thickness", LENGTH, "mm", 0, 400, 20, 150, "50 mm", NULL, dawn_ground,
           edge_thickness_m, "How thick that board is; it counts with 0.035 W/mK."),
    SHARE("ground", "floor_absorptance", 0, 1, 0.2, 0.95, "0.75", dawn_ground, floor_absorptance,
          "Share of light the floor takes up: dark soil 0.85, gravel 0.7, concrete 0.6."),

    NUMBER("bed", "area", AREA, "m2", 0.05, 40000, 0.3, 500, NULL, NULL, dawn_bed, area_m2,
           "Area of the planting bed."),
    NUMBER("bed", "depth", LENGTH, "m", 0.02, 2, 0.1, 0.6, "0.3 m", NULL, dawn_bed, depth_m,
           "Depth of the soil to grow in; it lies on the rock where there is rock."),
    NUMBER("bed", "conductivity", CONDUCTIVITY, "W/mK", 0.03, 6, 0.25, 2.5, "1 W/mK", NULL,
           dawn_bed, conductivity_W_mK, "How well the bed's soil conducts; moist loam 1 W/mK."),
    NUMBER("bed", "heat_capacity", VOLUME_HEAT, "MJ/m3K", 0.1, 4.5, 1, 3.5, "2.3 MJ/m3K", NULL,
           dawn_bed, heat_J_m3K, "Heat the bed's soil holds, its water included."),
    SHARE("bed", "water_share", 0, 0.8, 0.05, 0.6, "0.25", dawn_bed, water_share,
          "Share of the bed's volume that is water; it freezes and thaws."),
    SHARE("bed", "absorptance", 0, 1, 0.3, 0.97, "0.8", dawn_bed, absorptance,
          "Share of light the bed takes up, with what grows on it."),

    NUMBER("rock", "volume", VOLUME, "m3", 0.01, 5000, 0.2, 200, "from mass", "from mass",
           dawn_rock, volume_m3, "Room the rock takes, stones and gaps together."),
    NUMBER("rock", "mass", MASS, "t", 0.01, 10000, 0.3, 300, "from volume", "from volume",
           dawn_rock, mass_kg, "Weight of the rock, as on the invoice; mind which ton it is."),
    NUMBER(
        "rock", "stone_size", LENGTH, "mm", 3, 400, 15, 150, "50 mm", NULL, dawn_rock, stone_m,
        "Mean diameter of the stones. Smaller ones take up heat faster and hinder the air more."),
    SHARE("rock", "void_share", 0.25, 0.55, 0.3, 0.48, "0.42", dawn_rock, void_share,
          "Share of gaps: screened stone 0.40 to 0.46, round river stone 0.40, with fines 0.3. "
          "Fill a bucket with stones, then with water, to measure it."),
    NUMBER(
        "rock", "path_length", LENGTH, "m", 0.05, 60, 0.3, 15, "from bed", "from bed", dawn_rock,
        path_m,
        "How far the air goes through the rock. From bed: it crosses a bed as long as the house."),
    NUMBER("rock", "face_area", AREA, "m2", 0.01, 2000, 0.1, 300, "from bed", "from bed", dawn_rock,
           face_m2, "Cross-section of the rock, seen along the air's path."),
    NUMBER("rock", "density", DENSITY, "kg/m3", 1000, 4000, 1600, 3100, "2650 kg/m3", NULL,
           dawn_rock, density_kg_m3, "Density of the solid stone: granite 2650, brick 1700 kg/m3."),
    NUMBER("rock", "specific_heat", SPECIFIC_HEAT, "J/kgK", 400, 2000, 700, 1000, "820 J/kgK", NULL,
           dawn_rock, specific_heat_J_kgK, "Heat per kilogram and kelvin of the stone."),
    NUMBER("rock", "conductivity", CONDUCTIVITY, "W/mK", 0.2, 10, 0.6, 6, "2.5 W/mK", NULL,
           dawn_rock, conductivity_W_mK, "How well the solid stone conducts; granite 2.5 W/mK."),
    NUMBER("rock", "insulation", RESISTANCE, "m2K/W", 0, 20, 0, 6, "0 m2K/W", NULL, dawn_rock,
           insulation_m2K_W,
           "Insulation around sides and bottom; 50 mm of foam board is 1.5 m2K/W."),
    SHARE("rock", "active_share", 0.05, 1, 0.4, 1, "0.8", dawn_rock, active_share,
          "Share of the rock the air reaches; dead corners 0.7, a good plenum 0.9."),
    COUNT("rock", "segments", 1, 60, 3, 40, "8", dawn_rock, segments,
          "In how many slices along the air's path the rock is reckoned."),

    NUMBER("fan", "flow", FLOW, "m3/h", 1, 200000, 50, 15000, "from curve", "from curve", dawn_fan,
           flow_m3_s,
           "Air through the rock as built, less than the fan's label says for free air. Left out, "
           "it is worked out from free_air and greatest_pressure against rock and ducts."),
    NUMBER("fan", "power", POWER, "W", 0, 50000, 5, 2000, NULL, NULL, dawn_fan, power_W,
           "Electricity the fan takes while it runs; it ends up as heat in the house."),
    NUMBER("fan", "free_air", FLOW, "m3/h", 1, 400000, 50, 30000, "unknown", "unknown", dawn_fan,
           free_air_m3_s,
           "Air the fan moves with nothing in its way, as its label says; one end of its curve."),
    NUMBER("fan", "greatest_pressure", PRESSURE, "Pa", 0.5, 20000, 15, 1500, "unknown", "unknown",
           dawn_fan, greatest_Pa,
           "Pressure the fan holds when no air passes, as its label says; the other end of its "
           "curve."),
    NUMBER("fan", "middle_flow", FLOW, "m3/h", 0.1, 400000, 20, 25000, "unknown", "unknown",
           dawn_fan, middle_m3_s,
           "Flow of a point between the two ends, from the maker's curve; with middle_pressure."),
    NUMBER("fan", "middle_pressure", PRESSURE, "Pa", 0.1, 20000, 5, 1200, "unknown", "unknown",
           dawn_fan, middle_Pa, "Pressure at middle_flow."),
    NUMBER("fan", "on_at", TEMPERATURE, "C", -5, 60, 15, 38, "27 C", NULL, dawn_fan, on_C,
           "The fan starts when it gets warmer than this where the thermostat hangs."),
    NUMBER("fan", "off_at", TEMPERATURE, "C", -10, 59.5, 12, 36, "24 C", NULL, dawn_fan, off_C,
           "The fan stops when it gets colder than this."),
    NUMBER("fan", "start_margin", DIFFERENCE, "K", 0, 30, 1, 15, "5 K", NULL, dawn_fan,
           start_margin_K, "The fan starts only when it is warmer than the rock by this much."),
    NUMBER("fan", "stop_margin", DIFFERENCE, "K", -5, 29, 0, 10, "2 K", NULL, dawn_fan,
           stop_margin_K, "The fan stops when that difference falls below this."),
    NUMBER(
        "fan", "night_on_at", TEMPERATURE, "C", -20, 40, 1, 12, "never", "never", dawn_fan,
        night_on_C,
        "On a cold night the fan also starts below this, where the rock is warmer than the air by "
        "start_margin, and brings the day's heat back."),
    NUMBER("fan", "night_off_at", TEMPERATURE, "C", -20, 45, 2, 16, "never", "never", dawn_fan,
           night_off_C, "Above this the night run ends; some 2 K above night_on_at."),
    CHOICE(
        "fan", "night_way", "onward", "onward|reversed", dawn_fan, night_way,
        "Which way the night run blows through the rock: onward as by day, or reversed, from the "
        "benches in where the day's air came out, so that the air leaves the rock at its warm end "
        "and comes out under the ridge."),
    NUMBER("fan", "least_run", TIME, "min", 0, 240, 0, 60, "0 min", NULL, dawn_fan, least_run_s,
           "Once started the fan runs at least so long, even when it is no longer wanted: a timer "
           "that spares motor and switch."),
    CHOICE("fan", "senses", "air", "air|trays|bed|ridge", dawn_fan, senses,
           "Where the thermostat hangs."),
    NUMBER(
        "fan", "sensor_lag", TIME, "min", 0, 60, 0, 20, "5 min", NULL, dawn_fan, sensor_lag_s,
        "How slowly the thermostat's bulb follows what it senses: a bulb on the wall takes 5 to 10 "
        "minutes in still air, a bare wire next to none."),
    SHARE(
        "fan", "sensor_sun", 0, 1, 0, 0.7, "0", dawn_fan, sensor_sun,
        "How much of the sun reaches the thermostat's bulb: 0 shaded, as it should be, 0.3 behind "
        "leaves, 1 in full sun. A bulb in the sun reads 5 to 15 K too warm."),
    NUMBER(
        "fan", "price", NONE, "", 0, 1e7, 5, 20000, "by flow", "by flow", dawn_fan, price,
        "What the fan costs, thermostat and ducts included; by flow: prices.fan times its flow."),

    TEXT(
        "ducts", "name", "", NULL, dawn_duct, name,
        "What you call this duct; without a name it gets a number. Ducts in the list lie one after "
        "another, each with an inlet and an outlet."),
    NUMBER("ducts", "length", LENGTH, "m", 0, 300, 0.2, 40, NULL, NULL, dawn_duct, length_m,
           "Length of the pipe."),
    NUMBER("ducts", "diameter", LENGTH, "mm", 10, 5000, 75, 1000, NULL, NULL, dawn_duct, diameter_m,
           "Inside diameter of the pipe; of a square one, 1.1 times its side."),
    CHOICE("ducts", "kind", "smooth", "smooth|corrugated", dawn_duct, kind,
           "What its inside is like: smooth as sheet metal and drain pipe, or corrugated as "
           "drainage coil and flexible duct."),
    COUNT("ducts", "bends", 0, 60, 0, 8, "0", dawn_duct, bends,
          "How many right-angled bends it has."),
    COUNT("ducts", "screens", 0, 20, 0, 3, "0", dawn_duct, screens,
          "How many grilles or mesh screens the air passes in it; keep them clean."),
    COUNT("ducts", "side_by_side", 1, 200, 1, 30, "1", dawn_duct, side_by_side,
          "How many such pipes lie side by side and share the air."),

    TEXT("barrels", "name", "", NULL, dawn_barrels, name,
         "What you call this group; without a name it gets a number."),
    COUNT("barrels", "count", 1, 5000, 1, 200, NULL, dawn_barrels, count,
          "How many barrels of this kind there are."),
    NUMBER("barrels", "volume", VOLUME, "L", 0.5, 50000, 5, 1200, NULL, NULL, dawn_barrels,
           volume_m3, "What one barrel holds, brim-full."),
    SHARE("barrels", "fill", 0.05, 1, 0.5, 1, "0.95", dawn_barrels, fill_share,
          "How full they are; leave room for ice."),
    SHARE("barrels", "absorptance", 0, 1, 0.2, 0.97, "0.9", dawn_barrels, absorptance,
          "Share of light they take up: black 0.95, dark blue 0.85, red 0.7, white 0.25."),
    SHARE("barrels", "sun_share", 0, 1, 0, 0.8, "0.3", dawn_barrels, sun_share,
          "Share of one side's outline that stands in the sun; the rest is hidden by benches, "
          "plants and other barrels."),

    NUMBER("trays", "area", AREA, "m2", 0.01, 40000, 0.1, 500, NULL, NULL, dawn_trays, area_m2,
           "Area all trays cover together."),
    NUMBER("trays", "depth", LENGTH, "cm", 0.5, 50, 2, 15, "5 cm", NULL, dawn_trays, depth_m,
           "Depth of the filled cells."),
    NUMBER("trays", "heat_capacity", VOLUME_HEAT, "MJ/m3K", 0.1, 4.5, 0.8, 3.8, "2.8 MJ/m3K", NULL,
           dawn_trays, heat_J_m3K, "Heat the potting mix holds, its water included."),
    SHARE("trays", "water_share", 0, 0.95, 0.1, 0.8, "0.55", dawn_trays, water_share,
          "Share of the mix's volume that is water, some hours after watering; it freezes."),
    SHARE("trays", "absorptance", 0, 1, 0.3, 0.97, "0.8", dawn_trays, absorptance,
          "Share of light trays and seedlings take up."),
    SHARE("trays", "leaf_area_index", 0, 10, 0, 5, "1", dawn_trays, leaf_area_index,
          "Leaf per area of tray: 0 just sown, 1 young plants, 3 ready to plant out."),
    CHOICE("trays", "stand_on", "bench", "bench|bed", dawn_trays, stand_on,
           "Where the trays stand: on benches in the air, or on the planting bed."),

    TEXT("covers", "name", "", NULL, dawn_cover, name,
         "What you call this cover; without a name it gets a number. Of two over one place the "
         "first "
         "in the list lies below."),
    CHOICE("covers", "over", "trays", "trays|bed|house", dawn_cover, over,
           "What it covers: the trays, the planting bed with what stands on it, or the house, as a "
           "curtain drawn from eave to eave below the roof. Over trays on a bench the air below "
           "the bench stays the house's."),
    CHOICE(
        "covers", "sheet", "fleece", COVER_WORDS, dawn_cover, sheet,
        "What it is made of: fleece of 17, 30 or 50 g/m2, film over hoops, bubble film, a woven "
        "curtain, or one with a bright metal face below. Heat, long-wave and light come with it."),
    NUMBER("covers", "area", AREA, "m2", 0.01, 40000, 0.1, 1000, "from place", "from place",
           dawn_cover, area_m2,
           "Area of the sheet as it hangs; from place: that of what it covers."),
    NUMBER(
        "covers", "height", LENGTH, "cm", 1, 400, 5, 150, "25 cm", NULL, dawn_cover, height_m,
        "How high it hangs above what it covers, or above the cover below it; a curtain over the "
        "house hangs at the eaves."),
    NUMBER("covers", "leak", RATE, "/h", 0.01, 200, 0.5, 40, "from sheet", "from sheet", dawn_cover,
           leak_changes_per_h,
           "How often an hour the air it shuts off changes with the air around, when it is drawn: "
           "edges on bench or soil 3 to 8, hanging loose 10 and more."),
    NUMBER("covers", "put_on_at", CLOCK, "h", 0, 24, 0, 24, "at sunset", "at sunset", dawn_cover,
           put_on_s, "Time of day, standard time, at which it is put on or drawn."),
    NUMBER("covers", "take_off_at", CLOCK, "h", 0, 24, 0, 24, "at sunrise", "at sunrise",
           dawn_cover, take_off_s, "Time of day, standard time, at which it is taken off again."),
    NUMBER("covers", "after_sunset", TIME, "min", -360, 360, -120, 180, "0 min", NULL, dawn_cover,
           after_sunset_s,
           "Put on so long after sunset, where no time is given; a minus is before it."),
    NUMBER("covers", "after_sunrise", TIME, "min", -360, 360, -60, 60, "0 min", NULL, dawn_cover,
           after_sunrise_s,
           "Taken off so long after sunrise, where no time is given. Covers left on in the sun can "
           "kill what is under them."),
    NUMBER("covers", "only_below", TEMPERATURE, "C", -40, 40, -10, 15, "all nights", "all nights",
           dawn_cover, only_below_C,
           "It is used only on nights when it gets colder than this outdoors while it is on."),

    TEXT("snow", "name", "", NULL, dawn_snow, name,
         "What you call this fall; without a name it gets a number. One that falls while another "
         "lies comes on top of it."),
    TEXT("snow", "from", NULL, NULL, dawn_snow, from,
         "First day on which it lies, from midnight on: 2026-03-04, or 03-04 for every year."),
    TEXT("snow", "until", "", NULL, dawn_snow, until,
         "Last day on which it lies, to midnight, before it is cleared off or a roof warm from "
         "inside has shed it; without one it lies until it is mild enough outdoors for it to "
         "slide."),
    NUMBER("snow", "depth", LENGTH, "cm", 0.1, 300, 1, 60, NULL, NULL, dawn_snow, depth_m,
           "How deep it lies on the roof, square to it. Depth times density is the load: what the "
           "frame bears is for local codes and licensed practice to say."),
    NUMBER("snow", "density", DENSITY, "kg/m3", 20, 700, 50, 500, "150 kg/m3", NULL, dawn_snow,
           density_kg_m3,
           "Fresh 100, settled 200, old 250 to 350, wet 400 kg/m3 (EN 1991-1-3, annex E); heavy "
           "snow insulates less."),

    TEXT("crops", "name", NULL, NULL, dawn_crop, name, "What the crop is called."),
    NUMBER("crops", "damage_below", TEMPERATURE, "C", -40, 30, -12, 15, "from table", "from table",
           dawn_crop, damage_C,
           "Leaf temperature below which the crop is harmed; where no leaves are reckoned, it is "
           "held against the trays, else the air. Crops of the table that 'dawnlow crops' shows "
           "need none."),
    NUMBER("crops", "damage_after", TIME, "min", 0, 1440, 0, 240, "0 min", NULL, dawn_crop,
           damage_after_s,
           "So long in a night it bears being below that; 0 min counts any time, which is careful. "
           "Chances of harm count it."),

    TEXT("weather", "file", "", NULL, dawn_weather_wish, file,
         "The hourly weather file, seen from the scenario file's folder."),
    NUMBER("weather", "utc_offset", HOURS_OFFSET, "h", -12, 14, -12, 14, "from file", "from file",
           dawn_weather_wish, utc_offset_h,
           "Clock of the weather file less UTC, where the file does not say."),
    CHOICE("weather", "stamp", "from file", "from file|instant|hour-before|hour-after|hour-around",
           dawn_weather_wish, stamp,
           "What a row's time stands for: radiation at that instant, or the mean of the hour "
           "before, after or around it."),
    TEXT("weather", "temperature_unit", "from file", "from file|C|F|K", dawn_weather_wish,
         temperature_unit, "Unit of the temperatures in the weather file, where it does not say."),

    TEXT("actions", "name", NULL, NULL, dawn_action, name, "What you call it."),
    NUMBER("actions", "at", CLOCK, "h", 0, 24, 0, 24, "at sunset", "at sunset", dawn_action, at_s,
           "When it is done, by the site's standard time; before noon means after midnight."),
    CHOICE(
        "actions", "cover", "none", "none|" COVER_WORDS, dawn_action, cover,
        "What is laid over for this night, beside the covers of every night: one of the sheets of "
        "covers.sheet."),
    COUNT("actions", "cover_layers", 1, 2, 1, 2, "1", dawn_action, cover_layers,
          "One sheet or two, one above the other."),
    CHOICE("actions", "cover_over", "trays", "trays|bed|house", dawn_action, cover_over,
           "What it is laid over, as in covers.over."),
    CHOICE("actions", "vents", "as they are", "as they are|shut", dawn_action, vents_shut,
           "All openings shut by hand from then on, or left as they are."),
    CHOICE("actions", "fan", "as it is", "as it is|all night", dawn_action, fan_all_night,
           "The fan runs all night, whenever the rock is warmer than the air by fan.start_margin."),
    NUMBER("actions", "heater", POWER, "W", 0, 50000, 0, 6000, "0 W", NULL, dawn_action, heat_W,
           "Heat of a heater that runs from then to the morning."),
    NUMBER("actions", "hot_water", VOLUME, "L", 0, 5000, 0, 300, "0 L", NULL, dawn_action,
           hot_water_m3, "Hot water set among the trays, in jugs of 5 L."),
    NUMBER("actions", "hot_water_at", TEMPERATURE, "C", 20, 100, 40, 95, "70 C", NULL, dawn_action,
           hot_water_C, "How hot it is when it is set there."),
    CHOICE("actions", "carry_in", "no", "no|yes", dawn_action, carry_in,
           "The trays are carried to a room that stays warm; then nothing is reckoned."),
    NUMBER("actions", "work", TIME, "min", 0, 1440, 0, 240, "0 min", NULL, dawn_action, work_s,
           "How long it takes you, undoing it in the morning included."),
    SHARE("actions", "cost", 0, 1000000, 0, 1000, "0", dawn_action, cost,
          "What it costs for a night, in your currency."),

    /* Defaults: common practice, no source; a grower's own errors of ten nights are better. */
    NUMBER(
        "forecast", "air_first_day", DIFFERENCE, "K", 0, 15, 0.3, 4, "1.5 K", NULL, dawn_doubt,
        air_first_day_K,
        "How far the forecast of a night's low is usually off in the first 24 hours (one standard "
        "deviation). It grows evenly to that of the seventh day."),
    NUMBER("forecast", "air_seventh_day", DIFFERENCE, "K", 0, 20, 1, 8, "4.5 K", NULL, dawn_doubt,
           air_seventh_day_K, "The same on the seventh day ahead."),
    NUMBER("forecast", "air_hourly", DIFFERENCE, "K", 0, 10, 0, 2, "0.7 K", NULL, dawn_doubt,
           air_hourly_K, "The part of it that changes from hour to hour; the rest lasts for days."),
    NUMBER("forecast", "memory", TIME, "h", 0.1, 48, 1, 12, "3 h", NULL, dawn_doubt, memory_s,
           "How long such an hour's error lasts, in all the weather."),
    SHARE("forecast", "day_memory", 0, 0.99, 0, 0.9, "0.5", dawn_doubt, day_memory,
          "Share of a day's error that is still there a day later."),
    SHARE("forecast", "cloud", 0, 1, 0, 0.5, "0.25", dawn_doubt, cloud,
          "How far the forecast cloud is usually off, as a share of the sky."),
    SHARE("forecast", "wind", 0, 2, 0, 0.8, "0.3", dawn_doubt, wind,
          "How far the forecast wind is usually off, as a share of itself."),
    NUMBER("forecast", "dew_point", DIFFERENCE, "K", 0, 10, 0, 4, "1.5 K", NULL, dawn_doubt, dew_K,
           "How far the forecast dew point is usually off, beside what the air's error moves."),
    SHARE("forecast", "leaks", 0, 2, 0, 0.8, "0.3", dawn_doubt, leaks,
          "How well you know the leaks: 0.3 means that they may well be a third more or less."),
    SHARE("forecast", "light", 0, 1, 0, 0.3, "0.1", dawn_doubt, light,
          "How well you know the light that gets into the house."),
    SHARE("forecast", "active_rock", 0, 1, 0, 0.5, "0.15", dawn_doubt, active_rock,
          "How well you know rock.active_share."),
    SHARE("forecast", "soil", 0, 1, 0, 0.6, "0.2", dawn_doubt, soil,
          "How well you know how the soil of floor and bed conducts."),
    SHARE("forecast", "accepted_risk", 0, 1, 0.01, 0.5, "0.1", dawn_doubt, accepted_risk,
          "Chance of damage in a night that you are ready to bear: 0.1 is one night in ten."),

    NUMBER("start", "spin_up", TIME, "d", 0, 365, 3, 60, "10 d", NULL, dawn_start, spin_up_s,
           "So long the house lives before the first night, so that soil and rock have settled: "
           "through the days of weather before it or, where there are none, through the first days "
           "again and again."),
    NUMBER("start", "temperature", TEMPERATURE, "C", -30, 60, -10, 30, "estimate", "estimate",
           dawn_start, temperature_C, "Temperature at which everything starts."),

    TEXT("fans", "name", NULL, NULL, dawn_fan_offer, name, "What the fan is called in the shop."),
    NUMBER("fans", "free_air", FLOW, "m3/h", 1, 400000, 50, 30000, NULL, NULL, dawn_fan_offer,
           free_air_m3_s, "Air it moves with nothing in its way; one end of its curve."),
    NUMBER("fans", "greatest_pressure", PRESSURE, "Pa", 0.5, 20000, 15, 1500, NULL, NULL,
           dawn_fan_offer, greatest_Pa,
           "Pressure it holds when no air passes; the other end of its curve."),
    NUMBER("fans", "middle_flow", FLOW, "m3/h", 0.1, 400000, 20, 25000, "unknown", "unknown",
           dawn_fan_offer, middle_m3_s, "Flow of a point between the two ends."),
    NUMBER("fans", "middle_pressure", PRESSURE, "Pa", 0.1, 20000, 5, 1200, "unknown", "unknown",
           dawn_fan_offer, middle_Pa, "Pressure at middle_flow."),
    NUMBER("fans", "power", POWER, "W", 0, 50000, 5, 2000, NULL, NULL, dawn_fan_offer, power_W,
           "Electricity it takes while it runs."),
    NUMBER("fans", "price", NONE, "", 0, 1e7, 5, 20000, NULL, NULL, dawn_fan_offer, price,
           "What it costs, thermostat and ducts included, in your currency."),

    TEXT(
        "prices", "currency", "EUR", NULL, dawn_prices, currency,
        "The word for your money. Every price left out is a starting value for somewhere else: put "
        "in your own."),
    NUMBER("prices", "rock", PRICE_MASS, "/t", 0, 10000, 5, 200, "35 /t", NULL, dawn_prices,
           rock_kg, "Washed stone, delivered. " STARTING),
    NUMBER("prices", "digging", PRICE_VOLUME, "/m3", 0, 10000, 2, 200, "30 /m3", NULL, dawn_prices,
           digging_m3, "Digging out and laying a bed, for each m3 of rock. " STARTING),
    NUMBER("prices", "barrel", NONE, "", 0, 10000, 2, 200, "30", NULL, dawn_prices, barrel,
           "One barrel, filled and standing. " STARTING),
    NUMBER("prices", "fan", PRICE_FLOW, "/m3/h", 0, 100, 0.02, 2, "0.2 /m3/h", NULL, dawn_prices,
           fan_m3_s,
           "A fan with thermostat and ducts, for each m3/h it moves through the rock. " STARTING),
    NUMBER("prices", "skin", PRICE_AREA, "/m2", 0, 10000, 0.5, 100, "6 /m2", NULL, dawn_prices,
           skin_m2, "One more skin on the glazing, with what holds it off. " STARTING),
    NUMBER("prices", "edge_board", PRICE_AREA, "/m2", 0, 10000, 2, 150, "18 /m2", NULL, dawn_prices,
           edge_board_m2,
           "Foam board set into the ground along the edge, trench and all. " STARTING),
    NUMBER("prices", "curtain", PRICE_AREA, "/m2", 0, 10000, 1, 100, "9 /m2", NULL, dawn_prices,
           curtain_m2, "A curtain drawn below the glazing at night. " STARTING),
    NUMBER("prices", "row_cover", PRICE_AREA, "/m2", 0, 10000, 0.1, 20, "1.5 /m2", NULL,
           dawn_prices, row_cover_m2,
           "Cover laid over the trays at night, with its hoops. " STARTING),
    NUMBER(
        "prices", "sealing", PRICE_AREA, "/m2", 0, 10000, 0.1, 50, "2 /m2", NULL, dawn_prices,
        sealing_m2,
        "Tape, strips and a door that closes, for each m2 of glazing: halves the leaks. " STARTING),
    NUMBER("prices", "cleaning", PRICE_AREA, "/m2", 0, 1000, 0.05, 20, "0.5 /m2", NULL, dawn_prices,
           cleaning_m2, "Washing the glazing once. " STARTING),
    NUMBER("prices", "electricity", PRICE_ENERGY, "/kWh", 0, 100, 0.02, 2, "0.3 /kWh", NULL,
           dawn_prices, electricity_J, "Electricity, as on your bill. " STARTING),
    NUMBER("prices", "springs", NONE, "", 0, 100, 1, 40, "10", NULL, dawn_prices, springs,
           "Over so many springs the fan's electricity counts."),
};

const struct dawn_key *dawn_scenario_keys(size_t *count)
{
    *count = sizeof KEYS / sizeof KEYS[0];
    return KEYS;
}

const struct dawn_scenario_section *dawn_scenario_sections(size_t *count)
{
    *count = sizeof SECTIONS / sizeof SECTIONS[0];
    return SECTIONS;
}

const struct dawn_scenario_section *dawn_scenario_section_named(const char *name)
{
    for (size_t i = 0; i < sizeof SECTIONS / sizeof SECTIONS[0]; i++)
        if (strcmp(SECTIONS[i].name, name) == 0)
            return &SECTIONS[i];
    return NULL;
}

const char *dawn_scenario_section_word(const struct dawn_scenario_section *section)
{
    const char *dot = strrchr(section->name, '.');
    return dot == NULL ? section->name : dot + 1;
}

const struct dawn_key *dawn_scenario_key_named(const char *section, const char *name)
{
    for (size_t i = 0; i < sizeof KEYS / sizeof KEYS[0]; i++)
        if (strcmp(KEYS[i].section, section) == 0 && strcmp(KEYS[i].name, name) == 0)
            return &KEYS[i];
    return NULL;
}

const char *dawn_scenario_section_meaning(const char *section)
{
    const struct dawn_scenario_section *row = dawn_scenario_section_named(section);
    return row == NULL ? NULL : row->meaning;
}
