/* Keeping a run: growing tables. */
#include "trajectory/trajectory_store.h"

#include <stdlib.h>
#include <string.h>

static bool room(void **table, size_t wanted, size_t size)
{
    void *larger = realloc(*table, wanted * size);
    if (!larger)
        return false;
    *table = larger;
    return true;
}

/* The capacity that holds one more, at least doubling. */
static size_t next_capacity(size_t capacity)
{
    return capacity ? capacity * 2 : 256;
}

bool dawn_trajectory_add_step(struct dawn_trajectory *trajectory, const struct step *step)
{
    if (trajectory->step_count == trajectory->step_capacity) {
        size_t wanted = next_capacity(trajectory->step_capacity);
        void *table = trajectory->steps;
        if (!room(&table, wanted, sizeof *step))
            return false;
        trajectory->steps = table;
        trajectory->step_capacity = wanted;
    }
    trajectory->steps[trajectory->step_count++] = *step;
    return true;
}

bool dawn_trajectory_add_switch(struct dawn_trajectory *trajectory, double at_s, bool on)
{
    if (trajectory->switch_count == trajectory->switch_capacity) {
        size_t wanted = next_capacity(trajectory->switch_capacity);
        void *table = trajectory->switches;
        if (!room(&table, wanted, sizeof *trajectory->switches))
            return false;
        trajectory->switches = table;
        trajectory->switch_capacity = wanted;
    }
    trajectory->switches[trajectory->switch_count++] = (struct fan_switch){at_s, on};
    return true;
}

/* Several tables grow together: each is widths[i] doubles a row. */
static bool room_rows(double **tables[], const size_t widths[], size_t count, size_t wanted)
{
    for (size_t i = 0; i < count; ++i) {
        void *table = *tables[i];
        if (widths[i] && !room(&table, wanted * widths[i], sizeof(double)))
            return false;
        *tables[i] = table;
    }
    return true;
}

bool dawn_trajectory_add_hour(struct dawn_trajectory *trajectory, double at_s, const double y[],
                              const double flow_J[])
{
    size_t nodes = trajectory->nodes;
    size_t flows = trajectory->ledger ? trajectory->flows : 0;
    if (trajectory->hour_count == trajectory->hour_capacity) {
        size_t wanted = next_capacity(trajectory->hour_capacity);
        double **tables[3] = {&trajectory->hour_s, &trajectory->hour_y, &trajectory->hour_J};
        if (!room_rows(tables, (const size_t[3]){1, nodes, flows}, 3, wanted))
            return false;
        trajectory->hour_capacity = wanted;
    }
    size_t at = trajectory->hour_count++;
    trajectory->hour_s[at] = at_s;
    memcpy(trajectory->hour_y + at * nodes, y, nodes * sizeof *y);
    if (flows)
        memcpy(trajectory->hour_J + at * flows, flow_J, flows * sizeof *flow_J);
    return true;
}

bool dawn_trajectory_add_row(struct dawn_trajectory *trajectory, double at_s, const double T_C[],
                             bool fan_on)
{
    size_t nodes = trajectory->nodes;
    if (trajectory->series_count == trajectory->series_capacity) {
        size_t wanted = next_capacity(trajectory->series_capacity);
        double **tables[2] = {&trajectory->series_s, &trajectory->series_C};
        void *fans = trajectory->series_fan;
        if (!room_rows(tables, (const size_t[2]){1, nodes}, 2, wanted) ||
            !room(&fans, wanted, sizeof *trajectory->series_fan))
            return false;
        trajectory->series_fan = fans;
        trajectory->series_capacity = wanted;
    }
    size_t at = trajectory->series_count++;
    trajectory->series_s[at] = at_s;
    memcpy(trajectory->series_C + at * nodes, T_C, nodes * sizeof *T_C);
    trajectory->series_fan[at] = fan_on;
    return true;
}

void dawn_trajectory_free(struct dawn_trajectory *trajectory)
{
    if (!trajectory)
        return;
    free(trajectory->steps);
    free(trajectory->switches);
    free(trajectory->hour_s);
    free(trajectory->hour_y);
    free(trajectory->hour_J);
    free(trajectory->series_s);
    free(trajectory->series_C);
    free(trajectory->series_fan);
    free(trajectory);
}
