/* What came before a run, and how well its account closes, in words. */
#include <math.h>

#include "base/text.h"
#include "report/report_parts.h"

/* "10 days", "1 day", "2.5 days". */
static const char *days_words(double days, char out[DAWN_REPORT_ROOM])
{
    char number[DAWN_REPORT_ROOM];

    dawn_report_fixed(days, days == floor(days) ? 0 : 1, number);
    snprintf(out, DAWN_REPORT_ROOM, "%.40s %s", number, days == 1.0 ? "day" : "days");
    return out;
}

void dawn_report_past(struct dawn_text *text, const struct dawn_trajectory_facts *facts)
{
    char lead[DAWN_REPORT_ROOM];
    char first[DAWN_REPORT_ROOM];
    char repeated[DAWN_REPORT_ROOM];

    if (facts->lead_days > 0.0) {
        dawn_text_add(text, "the house had lived through the %s of weather before; ",
                      days_words(facts->lead_days, lead));
    }
    if (facts->spin_up_days > 0.0) {
        const bool one = facts->spin_up_window_days == 1.0;
        dawn_text_add(text, "%sthe first %s %s repeated for %s; ",
                      facts->lead_days > 0.0 ? "before that, " : "",
                      one ? "day" : days_words(facts->spin_up_window_days, first),
                      one ? "was" : "were", days_words(facts->spin_up_days, repeated));
    }
    if (facts->lead_days <= 0.0 && facts->spin_up_days <= 0.0) {
        dawn_text_add(text, "nothing came before the first day; ");
    }
}

void dawn_report_checked(struct dawn_text *text, const struct dawn_trajectory_facts *facts)
{
    char number[DAWN_REPORT_ROOM];

    dawn_text_add(text, "heat in, out and stored agree within %s of the heat moved",
                  dawn_report_scientific(facts->imbalance, number));
    if (facts->water_through_J > 0.0) {
        dawn_text_add(text, ", water within %s of what came and went",
                      dawn_report_scientific(facts->water_imbalance, number));
    }
}
