/* Where the light goes. */
#include "network/network_light.h"

#include <math.h>

/* Upright things standing in the sun never take more than this share of all the light inside: they
 * shade each other and the rest of the house must have some (common practice, no source). */
static const double outline_share_most = 0.5;

void dawn_network_light_pane(struct light_pane *pane, const struct dawn_glazing_build *build)
{
    pane->skins = build->skins;
    for (int i = 0; i < PANE_ANGLES; ++i)
        pane->beam[i] = dawn_glazing_measured_beam(build->layers, build->skins, &build->angles,
                                                   (double)i / (PANE_ANGLES - 1));
    pane->diffuse = dawn_glazing_measured_diffuse(build->layers, build->skins, &build->angles);
}

void dawn_network_light_receive(struct light_plan *plan, struct light_receiver receiver)
{
    if (plan->receiver_count < RECEIVERS_MOST)
        plan->receivers[plan->receiver_count++] = receiver;
    else
        plan->full = true;
}

static struct dawn_light_plane on_plane(const struct light_plan *plan, const struct light_now *now,
                                        struct dawn_facing plane)
{
    if (now->measured_split)
        return dawn_light_on_plane_perez(now->sun, now->dni_W_m2, now->dhi_W_m2,
                                         now->extraterrestrial_W_m2, plane,
                                         plan->ground_reflectance);
    return dawn_light_on_plane(now->sun, now->dni_W_m2, now->dhi_W_m2, now->extraterrestrial_W_m2,
                               plane, plan->ground_reflectance);
}

/* Optics between the tabled cosines, for the beam part. */
struct optics_at {
    size_t low;
    double share;
};
static struct optics_at optics_at(double incidence_cos)
{
    double x = fmin(fmax(incidence_cos, 0.0), 1.0) * (PANE_ANGLES - 1);
    size_t low = (size_t)x;
    if (low > PANE_ANGLES - 2)
        low = PANE_ANGLES - 2;
    return (struct optics_at){low, x - (double)low};
}
static double blend(double low, double high, double share)
{
    return low + share * (high - low);
}

/* Light on its way through covers, W: they take their part, *thrown_W is what they throw back. */
static double past_covers(const struct light_plan *plan, const struct light_now *now,
                          const struct cover_stack *stack, bool inward, double light_W,
                          double *thrown_W, double gain_W[])
{
    if (!now->drawn)
        return light_W;
    for (size_t i = 0; i < stack->count; ++i) {
        int at = stack->cover[inward ? stack->count - 1 - i : i];
        const struct light_cover *cover = &plan->covers[at];
        double meets_W = light_W * now->drawn[at];
        gain_W[cover->channel] += meets_W * cover->takes;
        *thrown_W += meets_W * (1.0 - cover->passes - cover->takes);
        light_W -= meets_W * (1.0 - cover->passes);
    }
    return light_W;
}

/* The share of all light that finds its way below covers. */
static double share_below(const struct light_plan *plan, const struct light_now *now,
                          const struct cover_stack *stack)
{
    double share = 1.0;
    for (size_t i = 0; now->drawn && i < stack->count; ++i)
        share *= 1.0 - now->drawn[stack->cover[i]] * (1.0 - plan->covers[stack->cover[i]].passes);
    return share;
}

static double past_snow(const struct light_now *now, bool snowed)
{
    return snowed ? 1.0 - now->snow_stops : 1.0;
}

/* What of a pane is clear to light. */
static double clear_m2(const struct light_now *now, const struct light_pane *pane)
{
    return pane->area_m2 * pane->pass * past_snow(now, pane->snowed);
}

/* Light let into the house by one pane, W; its skins take their part. */
static double through_pane(const struct light_plan *plan, const struct light_now *now,
                           const struct light_pane *pane, double gain_W[])
{
    struct dawn_light_plane light = on_plane(plan, now, pane->facing);
    struct optics_at at = optics_at(light.incidence_cos);
    const struct dawn_glazing_optics *low = &pane->beam[at.low];
    const struct dawn_glazing_optics *high = low + 1;
    double diffuse = light.sky_W_m2 + light.ground_W_m2;
    double lit_m2 = clear_m2(now, pane);
    for (size_t i = 0; i < pane->skins; ++i)
        gain_W[pane->channel[i]] +=
            lit_m2 * (light.beam_W_m2 * blend(low->absorbed[i], high->absorbed[i], at.share) +
                      diffuse * pane->diffuse.absorbed[i]);
    double lets_in_W =
        lit_m2 * (light.beam_W_m2 * blend(low->transmitted, high->transmitted, at.share) +
                  diffuse * pane->diffuse.transmitted);
    double back_out_W = 0;
    return past_covers(plan, now, &pane->below, false, lets_in_W, &back_out_W, gain_W);
}

/* Light on an upright face turned to the noon sun behind the house's own glazing, W/m2. */
static double behind_glazing_W_m2(const struct light_plan *plan, const struct light_now *now)
{
    struct dawn_light_plane light = on_plane(plan, now, plan->to_noon);
    double area = 0;
    double beam = 0;
    double diffuse = 0;
    struct optics_at at = optics_at(light.incidence_cos);
    for (size_t i = 0; i < plan->pane_count; ++i) {
        const struct light_pane *pane = &plan->panes[i];
        const struct dawn_glazing_optics *low = &pane->beam[at.low];
        const struct dawn_glazing_optics *high = low + 1;
        area += pane->area_m2;
        beam += clear_m2(now, pane) * blend(low->transmitted, high->transmitted, at.share);
        diffuse += clear_m2(now, pane) * pane->diffuse.transmitted;
    }
    if (area <= 0)
        return 0;
    return (light.beam_W_m2 * beam + (light.sky_W_m2 + light.ground_W_m2) * diffuse) / area;
}

/* Light falls on receivers by their weight; what they do not take wanders about evenly until it is
 * absorbed or leaves through the glazing (the integrating-sphere argument of textbooks on light).
 */
static void spread(const struct light_plan *plan, const struct light_now *now, double inside_W,
                   double outline_W_m2, double gain_W[])
{
    double outline_W = 0;
    double weight = 0;
    double wander_m2 = 0;
    double glazing_m2 = 0;
    for (size_t i = 0; i < plan->receiver_count; ++i) {
        const struct light_receiver *to = &plan->receivers[i];
        outline_W += to->outline_m2 * outline_W_m2;
        weight += to->direct_m2;
        wander_m2 += to->area_m2 * to->absorptance * share_below(plan, now, &to->below);
    }
    for (size_t i = 0; i < plan->pane_count; ++i)
        glazing_m2 += clear_m2(now, &plan->panes[i]) * plan->panes[i].diffuse.transmitted;
    double most = outline_share_most * inside_W;
    double outline_part = outline_W > most ? most / outline_W : 1.0;
    double rest_W = inside_W - outline_W * outline_part;
    double reflected_W = 0;
    for (size_t i = 0; i < plan->receiver_count; ++i) {
        const struct light_receiver *to = &plan->receivers[i];
        double arrives = to->outline_m2 * outline_W_m2 * outline_part;
        if (weight > 0)
            arrives += rest_W * to->direct_m2 / weight;
        arrives = past_covers(plan, now, &to->below, true, arrives, &reflected_W, gain_W);
        gain_W[to->channel] += arrives * to->absorptance;
        reflected_W += arrives * (1.0 - to->absorptance);
    }
    if (wander_m2 + glazing_m2 <= 0)
        return; /* white walls behind blind panes: nothing wanders */
    for (size_t i = 0; i < plan->receiver_count; ++i) {
        const struct light_receiver *to = &plan->receivers[i];
        gain_W[to->channel] += reflected_W * to->area_m2 * to->absorptance *
                               share_below(plan, now, &to->below) / (wander_m2 + glazing_m2);
    }
}

void dawn_network_light(const struct light_plan *plan, const struct light_now *now, double gain_W[])
{
    if (now->dni_W_m2 <= 0 && now->dhi_W_m2 <= 0)
        return;
    double inside_W = 0;
    for (size_t i = 0; i < plan->pane_count; ++i)
        inside_W += through_pane(plan, now, &plan->panes[i], gain_W);
    spread(plan, now, inside_W, behind_glazing_W_m2(plan, now), gain_W);
    for (size_t i = 0; i < plan->wall_count; ++i) {
        const struct light_wall *wall = &plan->walls[i];
        struct dawn_light_plane light = on_plane(plan, now, wall->facing);
        gain_W[wall->channel] += wall->area_m2 * wall->absorptance * past_snow(now, wall->snowed) *
                                 (light.beam_W_m2 + light.sky_W_m2 + light.ground_W_m2);
    }
}

double dawn_network_light_inside_W(const struct light_plan *plan, const struct light_now *now,
                                   double gain_W[], size_t channels)
{
    double sum = 0;
    for (size_t i = 0; i < channels; ++i)
        gain_W[i] = 0;
    dawn_network_light(plan, now, gain_W);
    for (size_t i = 0; i < plan->pane_count; ++i)
        for (size_t k = 0; k < plan->panes[i].skins; ++k)
            gain_W[plan->panes[i].channel[k]] = 0;
    for (size_t i = 0; i < plan->wall_count; ++i)
        gain_W[plan->walls[i].channel] = 0;
    for (size_t i = 0; i < channels; ++i)
        sum += gain_W[i];
    return sum;
}
