/* Rates of the network as CSV after RFC 4180: every number exact, so that others can recompute it.
 */
#include "base/civil.h"
#include "base/text.h"
#include "report/report_parts.h"

static void put_exact(FILE *out, double value)
{
    char number[DAWN_REPORT_ROOM];

    (void)dawn_text_from_number(number, sizeof number, value, -1);
    fprintf(out, ",%s", number);
}

void dawn_report_rates(FILE *out, const struct dawn_network *network,
                       const struct dawn_rates *rates)
{
    fputs("sample,time,fan_on,node,y_C,temperature_C,rate_K_s\r\n", out);
    for (size_t i = 0; i < rates->samples; i++) {
        char stamp[32];
        dawn_civil_iso(rates->time_s[i], 0.0, stamp);
        for (size_t node = 0; node < rates->nodes; node++) {
            const double y_C = rates->y_C[i * rates->nodes + node];
            fprintf(out, "%zu,%s,%d,", i + 1, stamp, rates->fan_on[i] ? 1 : 0);
            dawn_report_csv_field(out, dawn_network_node(network, node)->name);
            put_exact(out, y_C);
            put_exact(out, dawn_network_temperature_C(network, node, y_C));
            put_exact(out, rates->rate_K_s[i * rates->nodes + node]);
            fputs("\r\n", out);
        }
    }
}
