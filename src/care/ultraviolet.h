/* How UV light falls off with distance, from one meter reading. Plain numbers; no
 * records. Lengths cm, light as UV index.
 *
 * Point lamp: inverse square, receiver facing down: E = E1 d1^2 D / (D^2 + x^2)^1.5 at a distance
 * D below the lamp and x beside it.
 * Tube of lit length L: Keitz, H. A. E. (1971) Light Calculations and Measurements, 2nd ed.; the
 * form that the IUVA lamp protocol uses (Lawal et al. 2017): opposite the middle
 *   E = P (2a + sin 2a) / (2 pi^2 D L), a = atan(L / 2D);
 * off the middle by x
 *   E = P / (pi^2 L) (F(L/2 - x) - F(-L/2 - x)), F(z) = (atan(z/D) + z D / (z^2 + D^2)) / 2D.
 * Lamp power cancels when a reading at one distance is carried to another.
 * Endless line: 1/D, the limit of a long tube. A tube of unknown length lies between a point and a
 * line.
 *
 * Nearer than about 15 cm the tube formula reads too high; callers bound it.
 */
#ifndef BASKLEAF_CARE_ULTRAVIOLET_H
#define BASKLEAF_CARE_ULTRAVIOLET_H

#include <stdbool.h>

enum uv_shape { UV_POINT, UV_TUBE, UV_LINE };

/* A lamp known by one reading opposite its middle, after any mesh. */
struct uv_source {
    enum uv_shape shape;
    double tube_length_cm; /* UV_TUBE; lit length, above 0 */
    double reading_uvi;    /* 0 or more */
    double reading_cm;     /* above 0 */
};

/* Irradiance in W/m2 of a tube of `power_w` W of UV; lengths in m here. 0 when
 * an input is not above 0. */
double uv_tube_irradiance(double power_w, double length_m, double distance_m);
double uv_tube_irradiance_beside(double power_w, double length_m, double distance_m,
                                 double beside_m);

/* UV index at a distance below the lamp and beside its middle (for a tube: along it). False,
 * *uvi untouched, when an input is not finite, a distance or length is not above 0, or the
 * reading is negative. */
bool uv_index_at(const struct uv_source *source, double distance_cm, double beside_cm, double *uvi);

/* The greatest distance from near_cm to far_cm at which the index is `uvi`, by bisection to
 * a thousandth of a millimetre. False, *distance_cm untouched, when there is none. The greatest,
 * because beside a lamp the light first rises and then falls with distance. */
bool uv_distance_for(const struct uv_source *source, double uvi, double beside_cm, double near_cm,
                     double far_cm, double *distance_cm);

/* The share of light that passes a square woven mesh straight through: (w / (w + d))^2,
 * opening w, wire d: its open area as in woven wire tables. Slanting light, dirt and rust lose
 * more. False, *share untouched, when the opening is not above 0 or the wire is negative. */
bool uv_mesh_share(double wire_cm, double opening_cm, double *share);

#endif
