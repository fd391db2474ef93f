/* One run over the forecast, for the pictures. */
#include "cli/coming_nights.h"

#include <stdlib.h>

/* Close enough for the fan's switching to be seen. */
static const double picture_step_s = 300.0;

static enum dawn_status run_once(struct dawn_coming_nights *coming, const struct dawn_study *study,
                                 const struct dawn_forecast_plan *plan,
                                 struct dawn_problems *problems)
{
    struct dawn_trajectory_plan run = dawn_trajectory_plan_usual();
    enum dawn_status status = dawn_network_build(&coming->network, &study->inputs.scenario,
                                                 &study->inputs.weather, problems);

    run.from_s = plan->run.from_s;
    run.to_s = plan->run.to_s;
    run.series_step_s = picture_step_s;
    run.ledger = true;
    run.spin_up = false;
    run.start = coming->start;
    if (status == DAWN_OK) {
        status = dawn_trajectory_run(&coming->run, coming->network, &run, problems);
    }
    if (status == DAWN_OK) {
        status = dawn_nights_find(&coming->nights, coming->run, coming->network,
                                  &study->inputs.scenario, problems);
    }
    return status;
}

enum dawn_status dawn_coming_nights_begin(struct dawn_coming_nights *coming,
                                          const struct dawn_study *study,
                                          struct dawn_forecast_plan *plan,
                                          struct dawn_problems *problems)
{
    enum dawn_status status = DAWN_OK;

    if (study->options.html != NULL) {
        plan->run.start = coming->start = dawn_forecast_present(
            &study->inputs.scenario, &study->inputs.weather, plan, &status, problems);
    }
    return status;
}

enum dawn_status dawn_coming_nights_find(struct dawn_coming_nights *coming,
                                         const struct dawn_study *study,
                                         const struct dawn_forecast_plan *plan, int64_t dusk_s,
                                         struct dawn_problems *problems)
{
    if (coming->start == NULL) {
        return DAWN_OK;
    }
    enum dawn_status status = run_once(coming, study, plan, problems);
    for (size_t i = 0; i < coming->nights.count && status == DAWN_OK; i++) {
        if (coming->nights.night[i].dusk_s == dusk_s) {
            coming->explained = &coming->nights.night[i];
            status = dawn_nights_ledger(&coming->ledger, coming->explained, coming->run,
                                        coming->network, problems);
        }
    }
    return status;
}

struct dawn_nights_story dawn_coming_nights_story(const struct dawn_coming_nights *coming,
                                                  const struct dawn_study *study)
{
    return (struct dawn_nights_story){.scenario = &study->inputs.scenario,
                                      .weather = &study->inputs.weather,
                                      .network = coming->network,
                                      .run = coming->run,
                                      .nights = &coming->nights,
                                      .ledger = coming->explained != NULL ? &coming->ledger : NULL,
                                      .explained = coming->explained};
}

void dawn_coming_nights_release(struct dawn_coming_nights *coming)
{
    dawn_nights_ledger_release(&coming->ledger);
    dawn_nights_release(&coming->nights);
    dawn_trajectory_free(coming->run);
    dawn_network_free(coming->network);
    free(coming->start);
    *coming = (struct dawn_coming_nights){0};
}
