/* The heat ledger of one night for people. */
#include <math.h>
#include <string.h>

#include "base/tableout.h"
#include "physics/constants.h"
#include "report/report_parts.h"

static const double pound_kg = 0.45359237;
/* Half of the last digit. */
static const double least_kWh = 0.005, least_kg = 0.005;

static void put_ledger_row(struct dawn_tableout *table, const char *name, double J)
{
    char number[DAWN_REPORT_ROOM];
    const double kWh = J / PHYSICS_J_PER_kWh;

    dawn_tableout_cell(table, "  %s", name);
    dawn_tableout_cell(table, "%s%s", kWh > 0.0 ? "+" : "", dawn_report_fixed(kWh, 2, number));
}

static void put_ledger_part(FILE *out, const char *title, const struct dawn_ledger_row *row,
                            size_t count)
{
    struct dawn_tableout table;
    double sum_J = 0.0;

    dawn_tableout_begin(&table, 2, "lr");
    dawn_tableout_cell(&table, "%s", title);
    dawn_tableout_cell(&table, "kWh");
    for (size_t i = 0; i < count; i++) {
        put_ledger_row(&table, row[i].name, row[i].J);
        sum_J += row[i].J;
    }
    put_ledger_row(&table, "together", sum_J);
    dawn_tableout_end(&table, out);
}

static void put_share_row(struct dawn_tableout *table, const char *name, const char *remark,
                          double J, double percent)
{
    char kWh[DAWN_REPORT_ROOM];
    char part[DAWN_REPORT_ROOM];

    dawn_tableout_cell(table, "  %s%s", remark, name);
    dawn_tableout_cell(table, "%s", dawn_report_fixed(J / PHYSICS_J_PER_kWh, 2, kWh));
    dawn_tableout_cell(table, "%s", dawn_report_fixed(percent, 1, part));
}

static void put_side(FILE *out, const char *title, const struct dawn_ledger_side *side,
                     const char *when_store)
{
    struct dawn_tableout table;

    dawn_tableout_begin(&table, 3, "lrr");
    dawn_tableout_cell(&table, "%s", title);
    dawn_tableout_cell(&table, "kWh");
    dawn_tableout_cell(&table, "%%");
    for (size_t i = 0; i < side->count; i++) {
        const struct dawn_ledger_share *share = &side->share[i];
        put_share_row(&table, share->name, share->store ? when_store : "", share->J,
                      share->percent);
    }
    put_share_row(&table, "together", "", side->J, side->count > 0 ? 100.0 : 0.0);
    dawn_tableout_end(&table, out);
}

/* What is told above by its way out, or would be printed as 0.00, is left out. */
static bool told(const struct dawn_ledger_passage *row)
{
    const bool out = strcmp(row->to, DAWN_PASSAGE_OUTDOORS) == 0 ||
                     strcmp(row->from, DAWN_PASSAGE_OUTDOORS) == 0;
    return row->water_kg >= least_kg || (!out && row->J >= least_kWh * PHYSICS_J_PER_kWh);
}

static bool is_damp(const struct dawn_ledger *ledger)
{
    for (size_t i = 0; i < ledger->passage_count; i++) {
        if (ledger->passage[i].water_kg >= least_kg) {
            return true;
        }
    }
    return false;
}

static void put_passage(struct dawn_tableout *table, const struct dawn_ledger_passage *row)
{
    char number[DAWN_REPORT_ROOM];

    dawn_tableout_cell(table, "  %s", row->from);
    dawn_tableout_cell(table, "%s", row->to);
    dawn_tableout_cell(table, "%s", row->by);
    dawn_tableout_cell(table, "%s", dawn_report_fixed(row->J / PHYSICS_J_PER_kWh, 2, number));
}

static void put_passages(FILE *out, enum dawn_units units, const struct dawn_ledger *ledger)
{
    const bool damp = is_damp(ledger);
    const double unit_kg = units == DAWN_US ? pound_kg : 1.0;
    struct dawn_tableout table;
    char number[DAWN_REPORT_ROOM];

    dawn_tableout_begin(&table, damp ? 5 : 4, damp ? "lllrr" : "lllr");
    dawn_tableout_cell(&table, "Inside, from");
    dawn_tableout_cell(&table, "to");
    dawn_tableout_cell(&table, "by");
    dawn_tableout_cell(&table, "kWh");
    if (damp) {
        dawn_tableout_cell(&table, "%s", units == DAWN_US ? "water, lb" : "water, kg");
    }
    for (size_t i = 0; i < ledger->passage_count; i++) {
        const struct dawn_ledger_passage *row = &ledger->passage[i];
        if (!told(row)) {
            continue;
        }
        put_passage(&table, row);
        if (damp) {
            dawn_tableout_cell(
                &table, "%s",
                row->water_kg > 0 ? dawn_report_fixed(row->water_kg / unit_kg, 2, number) : "");
        }
    }
    dawn_tableout_end(&table, out);
}

void dawn_report_ledger(FILE *out, enum dawn_units units, const struct dawn_nights_story *story)
{
    const struct dawn_ledger *ledger = story->ledger;
    const double offset_h = story->scenario->site.utc_offset_h;
    const double share =
        ledger->throughput_J > 0.0 ? fabs(ledger->imbalance_J) / ledger->throughput_J : 0.0;
    char name[DAWN_REPORT_ROOM];
    char from[DAWN_REPORT_ROOM];
    char to[DAWN_REPORT_ROOM];

    fprintf(out, "\nWhere the heat came from and went, night %s, %s to %s\n\n",
            dawn_report_night_name(story->explained, offset_h, name),
            dawn_report_clock((double)ledger->from_s, offset_h, from),
            dawn_report_clock((double)ledger->to_s, offset_h, to));
    put_side(out, "Where it went", &ledger->went, "taken up by ");
    fputc('\n', out);
    put_side(out, "What paid for it", &ledger->paid, "");
    fputc('\n', out);
    put_ledger_part(out, "Into the house (+) and out of it (-)", ledger->boundary,
                    ledger->boundary_count);
    fputc('\n', out);
    put_ledger_part(out, "Given back (+) or taken up (-) by", ledger->stores, ledger->store_count);
    fputc('\n', out);
    put_passages(out, units, ledger);
    fprintf(out, "\nleft over: %s of the %s kWh moved\n", dawn_report_scientific(share, name),
            dawn_report_fixed(ledger->throughput_J / PHYSICS_J_PER_kWh, 2, from));
}
