/* Steady heat through walls: conductance, loss a degree, temperature of the inner face. */
#include "care/heat.h"

#include <math.h>

#define AIR_WH_M3K 0.33
#define LATENT_J_G 2450.0 /* FAO 56 (Allen et al. 1998), eq. 3-1 */
#define SECONDS_H 3600.0

bool heat_u_value(double film_inside, double film_outside, const struct heat_layer *layers,
                  size_t count, double *u_w_m2k)
{
    if (!(film_inside >= 0) || !(film_outside >= 0))
        return false;
    double resistance = film_inside + film_outside;
    for (size_t i = 0; i < count; i++) {
        if (!(layers[i].thickness_m >= 0) || !(layers[i].lambda_w_mk > 0))
            return false;
        resistance += layers[i].thickness_m / layers[i].lambda_w_mk;
    }
    if (!(resistance > 0) || !isfinite(resistance))
        return false;
    *u_w_m2k = 1 / resistance;
    return true;
}

double heat_loss_w_k(const struct heat_box *box)
{
    double floor_m2 = box->length_m * box->width_m;
    double walls_m2 = 2 * (box->length_m + box->width_m) * box->height_m;
    double through = walls_m2 * box->wall_u + floor_m2 * (box->lid_u + box->floor_u);
    return through + AIR_WH_M3K * box->air_changes_per_hour * floor_m2 * box->height_m;
}

double heat_vapour_w(double air_changes_per_hour, double volume_m3, double inside_g_m3,
                     double outside_g_m3)
{
    double gained_g_m3 = inside_g_m3 > outside_g_m3 ? inside_g_m3 - outside_g_m3 : 0;
    return air_changes_per_hour * volume_m3 * gained_g_m3 * LATENT_J_G / SECONDS_H;
}

double heat_inner_face_c(double inside_c, double outside_c, double u_w_m2k, double film_inside)
{
    return inside_c - (inside_c - outside_c) * u_w_m2k * film_inside;
}
