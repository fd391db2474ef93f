/* The cautions, once: README.md says the same words. Common practice in the trade, no source,
 * unless the README names one. */
#include "report/report_parts.h"

static const struct dawn_report_caution CAUTIONS[] = {
    {"electricity", "Electricity near water.",
     "Residual-current protection for every circuit, sockets and cables above splashing, drip "
     "loops in the leads. But a tripped device stops the fan, unseen, on the night you need it: "
     "have an alarm."},
    {"weight", "Weight.",
     "Rock weighs about 1.6 t/m3 and pushes against whatever holds it in. A full 208 L barrel "
     "weighs about 220 kg: firm, level ground, never stacked, out of children's reach. Leave room "
     "in it for ice."},
    {"snow", "Snow",
     "loads a cold roof, and lies longer on good insulation. What the frame carries is for its "
     "maker or an engineer to say."},
    {"heaters", "Fuel heaters",
     "make carbon monoxide, which kills people, and ethylene, which harms plants. None without a "
     "flue, fresh air and a working alarm."},
    {"covers", "Covers",
     "left on in the sun cook what they protected at night. So does a closed vent."},
    {"frost", "Frost",
     "can harm crops above the limit you named: wet, soft, young or unhardened plants, or a long "
     "night."},
};

const struct dawn_report_caution *dawn_report_cautions(size_t *count)
{
    *count = sizeof CAUTIONS / sizeof CAUTIONS[0];
    return CAUTIONS;
}

const char *dawn_report_deference(void)
{
    return "dawnlow is no substitute for local building and electrical codes or for people "
           "licensed "
           "to apply them; where they say otherwise, they are right.";
}
