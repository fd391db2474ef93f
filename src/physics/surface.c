/* Heat at surfaces: convection outside and inside, grey radiation between surfaces. */
#include "dawnlow/physics/surface.h"

#include <math.h>

#include "dawnlow/physics/sky.h"
#include "physics/constants.h"
#include "physics/surface_lanes.h"

#define FACTOR_MOST 1e6 /* Carroll's F of a surface larger than all others together */
/* Rounds needed: some tens; without end only where one plane is exactly as large as all others
 * together, and there a thousand bring F to where 1/F no longer counts. */
enum { FACTOR_ROUNDS = 1000 };

double dawn_surface_wind_film_W_m2K(double wind_m_s)
{
    return surface_wind_film(wind_m_s);
}

struct dawn_surface_film dawn_surface_natural(double difference_K, double coefficient,
                                              double least_W_m2K, double forced_W_m2K)
{
    struct surface_lanes film =
        surface_natural(difference_K, coefficient, least_W_m2K, forced_W_m2K);
    return (struct dawn_surface_film){film.h_W_m2K, film.slope_W_m2K};
}

struct still_air {
    double conductivity_W_mK, rayleigh; /* over a length */
};

static const double prandtl = 0.71;

static struct still_air still_air(double difference_K, double length_m, double film_C)
{
    double kelvin = film_C + PHYSICS_KELVIN;
    double viscosity = 1.716e-5 * pow(kelvin / 273.15, 1.5) * (273.15 + 110.4) / (kelvin + 110.4);
    double kinematic = viscosity * 287.055 * kelvin / 101325.0;
    double cube = length_m * length_m * length_m;
    return (struct still_air){.conductivity_W_mK = 0.0241 * pow(kelvin / 273.15, 0.9),
                              .rayleigh = PHYSICS_GRAVITY / kelvin * fabs(difference_K) * cube *
                                          prandtl / (kinematic * kinematic)};
}

/* Both of Churchill and Chu's laws of 1975 have this form. */
static double churchill_chu(double least, double turn, struct still_air air, double length_m)
{
    double damping = pow(1.0 + pow(turn / prandtl, 9.0 / 16.0), 8.0 / 27.0);
    double root = least + 0.387 * pow(air.rayleigh, 1.0 / 6.0) / damping;
    return root * root * air.conductivity_W_mK / length_m;
}

double dawn_surface_churchill_chu_W_m2K(double difference_K, double height_m, double film_C)
{
    return churchill_chu(0.825, 0.492, still_air(difference_K, height_m, film_C), height_m);
}

double dawn_surface_rod_W_m2K(double difference_K, double diameter_m, double film_C)
{
    return churchill_chu(0.60, 0.559, still_air(difference_K, diameter_m, film_C), diameter_m);
}

double dawn_surface_bulb_rise_K_m2_W(double diameter_m, double absorptance, double emissivity)
{
    const double usual_rise_K = 8.0;
    const double room_C = 20.0;
    double film = dawn_surface_rod_W_m2K(usual_rise_K, diameter_m, room_C) +
                  dawn_surface_linear_radiative_W_m2K(emissivity, room_C);
    return absorptance / (PHYSICS_PI * film);
}

double dawn_surface_linear_radiative_W_m2K(double emissivity, double mean_C)
{
    double kelvin = mean_C + PHYSICS_KELVIN;
    return 4.0 * emissivity * DAWN_STEFAN_BOLTZMANN * kelvin * kelvin * kelvin;
}

static double group_area(size_t count, const double area_m2[], const int group[], size_t of)
{
    double sum = 0.0;
    for (size_t i = 0; i < count; i++)
        if (group[i] == group[of])
            sum += area_m2[i];
    return sum;
}

/* One round of F = 1/(1 - A F / sum(A F)); returns the largest relative change. */
static double improve_factors(size_t count, const double area_m2[], const int group[],
                              double factor[])
{
    double total = 0.0;
    for (size_t i = 0; i < count; i++)
        total += area_m2[i] * factor[i];
    double change = 0.0;
    for (size_t i = 0; i < count; i++) {
        double rest = 1.0 - group_area(count, area_m2, group, i) * factor[i] / total;
        double next = rest * FACTOR_MOST > 1.0 ? 1.0 / rest : FACTOR_MOST;
        change = fmax(change, fabs(next - factor[i]) / next);
        factor[i] = next;
    }
    return change;
}

static int in_one_plane(size_t count, const double area_m2[], const int group[])
{
    size_t first = 0;
    while (first < count && !(area_m2[first] > 0.0))
        first++;
    for (size_t i = first; i < count; i++)
        if (area_m2[i] > 0.0 && group[i] != group[first])
            return 0;
    return 1;
}

void dawn_surface_radiant_weights(size_t count, const double area_m2[], const double emissivity[],
                                  const int group[], double weight_m2[])
{
    /* the answer's own array holds the factors F while they are sought */
    for (size_t i = 0; i < count; i++)
        weight_m2[i] = 0.0;
    if (in_one_plane(count, area_m2, group))
        return;
    for (size_t i = 0; i < count; i++)
        weight_m2[i] = 1.0;
    for (int round = 0; round < FACTOR_ROUNDS; round++)
        if (improve_factors(count, area_m2, group, weight_m2) < 1e-12)
            break;
    for (size_t i = 0; i < count; i++) {
        double factor = weight_m2[i];
        if (emissivity[i] > 0.0 && area_m2[i] > 0.0)
            weight_m2[i] = area_m2[i] / ((1.0 - emissivity[i]) / emissivity[i] + 1.0 / factor);
        else
            weight_m2[i] = 0.0;
    }
}

struct dawn_surface_wet dawn_surface_wet_window(double water_kg_m2)
{
    struct surface_wet_lanes wet = surface_wet_window(water_kg_m2);
    return (struct dawn_surface_wet){wet.share, wet.slope_m2_kg};
}
