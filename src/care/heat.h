/* Steady heat through the walls of a box, indoors. Plain numbers; no records.
 * Temperatures deg C, lengths m, resistance m2 K/W, U W/(m2 K), power W.
 *
 * ISO 6946: U = 1 / (Rs + sum d/lambda + Rs'). Q = dT (sum U A + 0.33 n V), n air changes per
 * hour: 0.33 is the heat a cubic metre of air holds, Wh/(m3 K). It sizes the mean warmth of the
 * air, never a basking spot; surface films dominate, so it is good to about +-30 %.
 */
#ifndef BASKLEAF_CARE_HEAT_H
#define BASKLEAF_CARE_HEAT_H

#include <stdbool.h>
#include <stddef.h>

struct heat_layer {
    double thickness_m;
    double lambda_w_mk;
};

/* False, *u untouched, when a number is not finite, a thickness or film is negative, a
 * conductivity is not above 0, or there is no resistance at all. */
bool heat_u_value(double film_inside, double film_outside, const struct heat_layer *layers,
                  size_t count, double *u_w_m2k);

/* Loss of a box per degree: sum of U A of walls, lid and floor, plus its air. */
struct heat_box {
    double length_m, width_m, height_m;
    double wall_u, lid_u, floor_u;
    double air_changes_per_hour;
};
double heat_loss_w_k(const struct heat_box *box);

/* What the vapour of open water takes along in a closed box, where all of it leaves with the air
 * that is changed: n V times the water that this air gains, times 2450 J/g (latent heat as FAO
 * Irrigation and Drainage Paper 56 has it). Not below 0. */
double heat_vapour_w(double air_changes_per_hour, double volume_m3, double inside_g_m3,
                     double outside_g_m3);

/* Temperature of a wall's inner face: inside - (inside - outside) U Rs. */
double heat_inner_face_c(double inside_c, double outside_c, double u_w_m2k, double film_inside);

#endif
