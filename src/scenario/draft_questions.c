/* THE table of questions: what is asked, in which order, what may be answered, and the default. The
 * dialogue, files of answers, the command line and the manual all read it. */
#include <math.h>
#include <string.h>

#include "scenario/draft.h"

/* ---- when a question applies ---- */

static bool has_rock(const struct dawn_draft *draft)
{
    return !isnan(draft->rock_kg) || !isnan(draft->rock_m3) || !isnan(draft->rock_tons) ||
           !isnan(draft->rock_loads);
}

static bool asks_load(const struct dawn_draft *draft)
{
    return !isnan(draft->rock_loads);
}

static bool asks_ton(const struct dawn_draft *draft)
{
    return !isnan(draft->rock_tons);
}

static bool has_fan(const struct dawn_draft *draft)
{
    return has_rock(draft) && !isnan(draft->fan_m3_s);
}

static bool asks_barrel(const struct dawn_draft *draft)
{
    return draft->ask_barrel;
}

/* ---- defaults that are worked out ---- */

static void clock_by_sun(const struct dawn_draft *draft, struct dawn_text *usual)
{
    dawn_text_add(usual, "%+.0f h", floor(draft->longitude_deg / 15 + 0.5) + 0.0);
}

/* In steps a tape is read in: half a foot, a tenth of a metre. */
static struct dawn_draft_figure taped(const struct dawn_draft *draft, double m)
{
    double step_m = draft->us ? 0.1524 : 0.1;
    return dawn_draft_figure_of(floor(m / step_m + 0.5) * step_m, DAWN_MEASURE_LENGTH, draft->us);
}

static void usual_heights(const struct dawn_draft *draft, struct dawn_text *usual)
{
    /* A man's height at the eaves, a roof of some 30 deg; a tunnel half as high as wide. */
    static const double eaves_m = 1.8;
    double span_m = draft->shape == DAWN_DRAFT_LEAN_TO ? draft->width_m : draft->width_m / 2;
    double rise_m = fmin(fmax(0.6 * span_m, 0.2), 8);
    double tunnel_m = fmin(fmax(draft->width_m / 2, fmin(1.8, 1.5 * draft->width_m)), 15);
    if (draft->shape == DAWN_DRAFT_TUNNEL)
        dawn_text_add(usual, "%s", taped(draft, tunnel_m).text);
    else
        dawn_text_add(usual, "%s x %s", taped(draft, eaves_m).text,
                      taped(draft, eaves_m + rise_m).text);
}

static void towards_sun(const struct dawn_draft *draft, struct dawn_text *usual)
{
    dawn_text_add(usual, "%s", draft->latitude_deg >= 0 ? "S" : "N");
}

static void usual_sides(const struct dawn_draft *draft, struct dawn_text *usual)
{
    dawn_text_add(usual, "%s", draft->shape == DAWN_DRAFT_LEAN_TO ? "back building" : "none");
}

static void share_of_floor(const struct dawn_draft *draft, double share, struct dawn_text *usual)
{
    /* at most what a vent may be */
    double step_m2 = draft->us ? 0.3048 * 0.3048 : 0.1; /* nobody measures finer */
    double m2 = fmin(fmax(share * dawn_draft_floor_m2(draft), 0.1), 200);
    m2 = floor(m2 / step_m2 + 0.5) * step_m2;
    dawn_text_add(usual, "%s", dawn_draft_figure_of(m2, DAWN_MEASURE_AREA, draft->us).text);
}

static void usual_vents(const struct dawn_draft *draft, struct dawn_text *usual)
{
    share_of_floor(draft, 0.1, usual);
}

static void usual_bed(const struct dawn_draft *draft, struct dawn_text *usual)
{
    share_of_floor(draft, 1.0 / 3, usual);
}

static void usual_trays(const struct dawn_draft *draft, struct dawn_text *usual)
{
    share_of_floor(draft, 0.3, usual);
}

static void usual_ton(const struct dawn_draft *draft, struct dawn_text *usual)
{
    dawn_text_add(usual, "%s", draft->us ? "short" : "metric");
}

static void usual_watts(const struct dawn_draft *draft, struct dawn_text *usual)
{
    /* 0.08 W for each m3/h (common practice, no source), in steps a label has. */
    double watts = fmax(0.08 * draft->fan_m3_s * 3600, 5);
    dawn_text_add(usual, "%.0f W", watts < 100 ? watts : floor(watts / 10 + 0.5) * 10);
}

static void usual_weather(const struct dawn_draft *draft, struct dawn_text *usual)
{
    dawn_text_add(usual, "%s", dawn_draft_demo_fits(draft) ? "invented" : "none");
}

/* ---- the table ---- */

/* clang-format off */
static const struct dawn_draft_question QUESTIONS[] = {
    {.key = "place", .text = "Where is it? Latitude and longitude as the map on your phone shows "
                             "them, and the height above the sea.",
     .more = "For example 45.2 N 6.9 E 480 m, or 44.95, -73.12, 350 ft. Hold a finger on your "
             "house in the map and it shows the two numbers. The default is the invented valley "
             "of the weather that comes with dawnlow.",
     .usual = "45.2 N 6.9 E 480 m", .usual_us = "45.2 N 6.9 E 1575 ft",
     .read = dawn_draft_read_place},
    {.key = "clock", .text = "How far is your winter clock (standard time) ahead of UTC?",
     .more = "Hours, west of Greenwich a minus: -5 h, +1 h, +9:30. Never summer time.",
     .usual_of = clock_by_sun, .read = dawn_draft_read_clock},
    {.key = "shape", .text = "What shape is it: gable, lean-to or tunnel?",
     .more = "gable: a roof of two slopes. lean-to: one slope, the high side at a wall. tunnel: "
             "film over hoops.",
     .usual = "gable", .usual_us = "gable", .read = dawn_draft_read_shape},
    {.key = "size", .text = "How long and how wide is it inside?",
     .more = "For example 10 m x 6 m, 33 x 20 ft, or 20 ft 6 in x 12 ft. Along the ridge first.",
     .usual = "10 m x 6 m", .usual_us = "33 ft x 20 ft", .read = dawn_draft_read_size},
    {.key = "heights", .text = "How high is it inside at the eaves (low side) and at the ridge (high "
                               "side)? Of a tunnel only the middle.",
     .more = "For example 1.8 m x 3 m, or 6 ft x 10 ft.",
     .usual_of = usual_heights, .read = dawn_draft_read_heights},
    {.key = "facing", .text = "Which way does its long sunny side (the front) look?",
     .more = "A compass word such as S, SE or WSW, or a bearing from 0 to 360.",
     .usual_of = towards_sun, .read = dawn_draft_read_facing},
    {.key = "glazing", .text = "What is it glazed with?",
     .more = "A word of the list or its number.", .list = true,
     .usual = "film", .usual_us = "film", .read = dawn_draft_read_skin},
    {.key = "sides", .text = "Is any side made of something else?",
     .more = "Sides: front, back, ends, roof, front roof, back roof. Each with a glazing or with "
             "insulated, boards, brick, concrete, or building (another building stands behind). "
             "For example: back insulated, back roof insulated, ends twinwall-8mm.",
     .usual_of = usual_sides, .read = dawn_draft_read_sides},
    {.key = "leaks", .text = "How leaky is it on a breezy day: tight, usual, leaky or draughty?",
     .more = "Hold a smouldering stick to the joints. tight: taped, smoke rises straight (0.5 air "
             "changes an hour). usual: 1. leaky: old glass, a loose door (2). draughty: flapping "
             "film, gaps you can see (4). Or a figure, such as 1.5 /h.",
     .usual = "usual", .usual_us = "usual", .read = dawn_draft_read_leaks},
    {.key = "vents", .text = "How large are all vents and doors together that stand open on a warm "
                             "day?",
     .more = "An area such as 6 m2 or 3 x 4 ft, or none. They are taken to open from 26 C on.",
     .usual_of = usual_vents, .read = dawn_draft_read_vents},
    {.key = "bed", .text = "How large is the planting bed in the ground?",
     .more = "An area such as 20 m2 or 4 x 30 ft, or none. Rock lies below it.",
     .usual_of = usual_bed, .read = dawn_draft_read_bed},
    {.key = "rock", .text = "How much rock is there, or might there be, to store heat?",
     .more = "From the invoice: 18 t, 20 short ton, 12 yd3, 3 loads of 10 yd3. Or none.",
     .usual = "none", .usual_us = "none", .read = dawn_draft_read_rock},
    {.key = "load", .text = "How much is one load?",
     .more = "A weight or a volume, such as 10 t or 10 yd3; the delivery note has it.",
     .usual = "10 t", .usual_us = "10 yd3", .must = true, .applies = asks_load,
     .read = dawn_draft_read_load},
    {.key = "ton", .text = "Which ton is it: metric (1000 kg) or short (2000 lb)?",
     .more = "They differ by a tenth. A metric ton is also written t or tonne.",
     .must = true, .applies = asks_ton, .usual_of = usual_ton, .read = dawn_draft_read_ton},
    {.key = "stone", .text = "How large are the stones?",
     .more = "A size such as 50 mm, 3/4 in, or 20-40 mm; washed ones, all of about one size.",
     .usual = "50 mm", .usual_us = "2 in", .applies = has_rock, .read = dawn_draft_read_stone},
    {.key = "fan", .text = "How much air does the fan's label say it moves?",
     .more = "A flow such as 2000 m3/h or 1200 cfm. Or none: but rock without a fan stores little.",
     .usual = "2000 m3/h", .usual_us = "1200 cfm", .applies = has_rock,
     .read = dawn_draft_read_fan},
    {.key = "pressure", .text = "What is the greatest pressure on the fan's label?",
     .more = "Such as 120 Pa or 0.5 in wg; unknown when the label is silent: then 60 % of its air "
             "is taken to get through the rock.",
     .usual = "unknown", .usual_us = "unknown", .applies = has_fan,
     .read = dawn_draft_read_pressure},
    {.key = "watts", .text = "How many watts does the fan take?",
     .more = "Such as 160 W or 1/4 hp. Amps times volts is a little more than the watts.",
     .applies = has_fan, .usual_of = usual_watts, .read = dawn_draft_read_watts},
    {.key = "barrels", .text = "How many barrels of water stand in it?",
     .more = "A number, or 14 of 55 gal, or none.",
     .usual = "none", .usual_us = "none", .read = dawn_draft_read_barrels},
    {.key = "barrel", .text = "What does one barrel hold?",
     .more = "Such as 200 L or 55 gal.",
     .usual = "200 L", .usual_us = "55 gal", .applies = asks_barrel,
     .read = dawn_draft_read_barrel},
    {.key = "trays", .text = "How much room do the seed trays take?",
     .more = "An area such as 18 m2, a number such as 60 trays (11 by 21.5 in each), or none. On "
             "benches, unless you add: on the bed.",
     .usual_of = usual_trays, .read = dawn_draft_read_trays},
    {.key = "crops", .text = "What grows there?",
     .more = "Names with commas between: tomato, lettuce, leek. Behind a name the leaf temperature "
             "below which it is harmed, if you know better: lettuce -3 C.",
     .usual = "tomato, lettuce", .usual_us = "tomato, lettuce", .read = dawn_draft_read_crops},
    {.key = "weather", .text = "Which file holds its hourly weather?",
     .more = "Any hourly CSV with a time and the air temperature, the better the more it holds. "
             "TMY3, NSRDB, PVGIS and national services' files are read as downloaded. none: name "
             "one later. invented: the made-up spring that comes with dawnlow, to try things out.",
     .usual_of = usual_weather, .read = dawn_draft_read_weather},
};
/* clang-format on */
_Static_assert(sizeof QUESTIONS / sizeof QUESTIONS[0] <= DAWN_DRAFT_QUESTIONS_MOST,
               "DAWN_DRAFT_QUESTIONS_MOST");

const struct dawn_draft_question *dawn_draft_questions(size_t *count)
{
    *count = sizeof QUESTIONS / sizeof QUESTIONS[0];
    return QUESTIONS;
}

/* ---- answering ---- */

void dawn_draft_begin(struct dawn_draft *draft, const char *name, bool us, const char *demo_weather)
{
    *draft = (struct dawn_draft){.us = us,
                                 .latitude_deg = NAN,
                                 .longitude_deg = NAN,
                                 .elevation_m = NAN,
                                 .rock_kg = NAN,
                                 .rock_m3 = NAN,
                                 .rock_loads = NAN,
                                 .rock_tons = NAN,
                                 .fan_m3_s = NAN,
                                 .fan_Pa = NAN,
                                 .barrel_m3 = NAN};
    for (int i = 0; i < DAWN_DRAFT_SIDES; i++)
        draft->side[i] = (struct dawn_draft_skin){-1, -1};
    (void)dawn_text_copy(draft->name, sizeof draft->name, name);
    if (demo_weather == NULL ||
        !dawn_text_copy(draft->demo_weather, sizeof draft->demo_weather, demo_weather))
        draft->demo_weather[0] = '\0';
}

bool dawn_draft_applies(const struct dawn_draft *draft, size_t question)
{
    return QUESTIONS[question].applies == NULL || QUESTIONS[question].applies(draft);
}

void dawn_draft_usual(const struct dawn_draft *draft, size_t question, struct dawn_text *usual)
{
    const struct dawn_draft_question *row = &QUESTIONS[question];
    if (row->usual_of != NULL)
        row->usual_of(draft, usual);
    else
        dawn_text_add(usual, "%s", draft->us ? row->usual_us : row->usual);
}

/* Control characters would let an answer speak to a terminal or break a line of the file. */
static bool clean(const char *text)
{
    for (const char *c = text; *c != '\0'; c++)
        if ((unsigned char)*c < 0x20 || *c == 0x7f)
            return false;
    return true;
}

bool dawn_draft_answer(struct dawn_draft *draft, size_t question, const char *answer,
                       struct dawn_text *why)
{
    char said[DAWN_DRAFT_ANSWER_SIZE];
    struct dawn_text usual = {0};
    bool read = false;
    bool fits = dawn_draft_trimmed(said, sizeof said, answer, strlen(answer));
    if (fits && said[0] == '\0') {
        dawn_draft_usual(draft, question, &usual);
        fits = !usual.failed && dawn_text_copy(said, sizeof said, usual.data);
    }
    if (!fits || !clean(said))
        dawn_text_add(why, "the answer is too long, or holds characters that cannot be shown");
    else
        read = QUESTIONS[question].read(draft, said, why);
    if (read) {
        (void)dawn_text_copy(draft->answer[question], DAWN_DRAFT_ANSWER_SIZE, said);
        draft->asked[question] = true;
    }
    dawn_text_release(&usual);
    return read;
}
