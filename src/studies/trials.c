/* Trials times years, as cases of one batch. */
#include "dawnlow/studies/trials.h"

#include <stdarg.h>
#include <stdlib.h>

#include "base/text.h"

void dawn_trials_set(struct dawn_trial *trial, const char *format, ...)
{
    va_list arguments;

    if (trial->sets >= DAWN_TRIAL_SETS) {
        trial->sets = DAWN_TRIAL_SETS + 1;
        return;
    }
    va_start(arguments, format);
    char *text = dawn_text_format(format, arguments);
    va_end(arguments);
    if (text == NULL || !dawn_text_copy(trial->set[trial->sets], DAWN_TRIAL_SET_SIZE, text)) {
        trial->sets = DAWN_TRIAL_SETS;
    }
    trial->sets++;
    free(text);
}

static enum dawn_status vary(size_t index, struct dawn_batch_case *it,
                             struct dawn_problems *problems, void *user)
{
    const struct dawn_trials_plan *plan = user;
    const struct dawn_trial *trial = &plan->trial[index / plan->years->count];
    const struct dawn_year *year = &plan->years->year[index % plan->years->count];
    const char *set[DAWN_TRIAL_SETS];

    it->weather = *year->weather;
    it->run.from_s = year->from_s;
    it->run.to_s = year->to_s;
    if (trial->sets > DAWN_TRIAL_SETS) {
        return DAWN_ERR_NOMEM;
    }
    if (trial->sets == 0) {
        return DAWN_OK;
    }
    for (size_t i = 0; i < trial->sets; i++) {
        set[i] = trial->set[i];
    }
    it->own_scenario = true;
    return dawn_scenario_with(&it->scenario, plan->scenario, set, trial->sets, problems);
}

static void take(size_t index, const struct dawn_batch_outcome *outcome, void *user)
{
    const struct dawn_trials_plan *plan = user;

    plan->take(index / plan->years->count, index % plan->years->count, outcome, plan->user);
}

static bool keep_going(size_t done, size_t cases, void *user)
{
    const struct dawn_trials_plan *plan = user;

    return plan->keep_going == NULL || plan->keep_going(done, cases, plan->keep_going_user);
}

enum dawn_status dawn_trials_run(const struct dawn_trials_plan *plan, bool *stopped,
                                 struct dawn_problems *problems)
{
    struct dawn_trials_plan own = *plan;
    const struct dawn_batch_plan batch = {.scenario = plan->scenario,
                                          .weather = plan->years->year[0].weather,
                                          .run = plan->run,
                                          .cases = plan->count * plan->years->count,
                                          .threads = plan->threads,
                                          .vary = vary,
                                          .take = take,
                                          .keep_going = keep_going,
                                          .user = &own};
    size_t done = 0;
    const enum dawn_status status = dawn_batch_run(&batch, &done, problems);

    if (stopped != NULL) {
        *stopped = status == DAWN_OK && done < batch.cases;
    }
    return status;
}
