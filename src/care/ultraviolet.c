/* Line source and point source: UV index at one distance from the reading at another. */
#include "care/ultraviolet.h"

#include <math.h>

#define PI 3.14159265358979323846

enum { SCAN_STEPS = 256, BISECTIONS = 60 };

double uv_tube_irradiance_beside(double power_w, double length_m, double distance_m,
                                 double beside_m)
{
    if (!(power_w > 0) || !(length_m > 0) || !(distance_m > 0) || !isfinite(beside_m))
        return 0;
    double d = distance_m;
    double ends[2] = {length_m / 2 - beside_m, -length_m / 2 - beside_m};
    double f[2];
    for (int i = 0; i < 2; i++)
        f[i] = (atan(ends[i] / d) + ends[i] * d / (ends[i] * ends[i] + d * d)) / (2 * d);
    return power_w / (PI * PI * length_m) * (f[0] - f[1]);
}

double uv_tube_irradiance(double power_w, double length_m, double distance_m)
{
    if (!(power_w > 0) || !(length_m > 0) || !(distance_m > 0))
        return 0;
    double a = atan(length_m / (2 * distance_m));
    return power_w * (2 * a + sin(2 * a)) / (2 * PI * PI * distance_m * length_m);
}

/* Irradiance of a lamp of strength 1, in a unit that cancels. */
static double shape_at(const struct uv_source *source, double distance_cm, double beside_cm)
{
    switch (source->shape) {
    case UV_TUBE:
        if (beside_cm == 0)
            return uv_tube_irradiance(1, source->tube_length_cm, distance_cm);
        return uv_tube_irradiance_beside(1, source->tube_length_cm, distance_cm, beside_cm);
    case UV_LINE:
        return 1 / distance_cm;
    case UV_POINT:
        break;
    }
    double slant_squared = distance_cm * distance_cm + beside_cm * beside_cm;
    return distance_cm / (slant_squared * sqrt(slant_squared));
}

static bool is_above_0(double value)
{
    return value > 0 && isfinite(value);
}

/* `at_reading` is shape_at where the reading was taken, which is the same for all distances. */
static double index_at(const struct uv_source *source, double at_reading, double distance_cm,
                       double beside_cm)
{
    return source->reading_uvi * shape_at(source, distance_cm, beside_cm) / at_reading;
}

bool uv_index_at(const struct uv_source *source, double distance_cm, double beside_cm, double *uvi)
{
    if (!is_above_0(distance_cm) || !isfinite(beside_cm) || !is_above_0(source->reading_cm) ||
        !(source->reading_uvi >= 0) || !isfinite(source->reading_uvi) ||
        (source->shape == UV_TUBE && !is_above_0(source->tube_length_cm)))
        return false;
    *uvi = index_at(source, shape_at(source, source->reading_cm, 0), distance_cm, beside_cm);
    return true;
}

/* Steps of one ratio from the far end to the near one. */
static void set_steps(double near_cm, double far_cm, double steps_cm[SCAN_STEPS + 1])
{
    const double step = pow(near_cm / far_cm, 1.0 / SCAN_STEPS);
    steps_cm[0] = far_cm;
    for (int i = 1; i < SCAN_STEPS; i++)
        steps_cm[i] = steps_cm[i - 1] * step;
    steps_cm[SCAN_STEPS] = near_cm;
}

/* The first step from the far end that is bright enough; SCAN_STEPS + 1 for none. Below the middle
 * of a lamp it is the brighter the nearer, so that half of the steps fall away at each look; beside
 * it light grows and falls, and each is looked at. */
static int first_bright(const struct uv_source *source, double at_reading, double uvi,
                        double beside_cm, const double steps_cm[SCAN_STEPS + 1])
{
    int from = 1, to = SCAN_STEPS + 1;
    while (from < to) {
        const int at = beside_cm == 0 ? from + (to - from) / 2 : from;
        if (at <= SCAN_STEPS && index_at(source, at_reading, steps_cm[at], beside_cm) >= uvi)
            to = at;
        else
            from = at + 1;
    }
    return to;
}

bool uv_distance_for(const struct uv_source *source, double uvi, double beside_cm, double near_cm,
                     double far_cm, double *distance_cm)
{
    double at_far, steps_cm[SCAN_STEPS + 1];
    if (!is_above_0(near_cm) || !(far_cm >= near_cm) || !(uvi >= 0) ||
        !uv_index_at(source, far_cm, beside_cm, &at_far) || at_far > uvi)
        return false;
    set_steps(near_cm, far_cm, steps_cm);
    const double at_reading = shape_at(source, source->reading_cm, 0);
    const int bright =
        at_far < uvi ? first_bright(source, at_reading, uvi, beside_cm, steps_cm) : 0;
    if (bright > SCAN_STEPS)
        return false;
    double outer = steps_cm[bright > 0 ? bright - 1 : 0], inner = steps_cm[bright];
    for (int i = 0; i < BISECTIONS && outer - inner > 1e-4; i++) {
        double middle = (inner + outer) / 2;
        if (index_at(source, at_reading, middle, beside_cm) >= uvi)
            inner = middle;
        else
            outer = middle;
    }
    *distance_cm = (inner + outer) / 2;
    return true;
}

bool uv_mesh_share(double wire_cm, double opening_cm, double *share)
{
    if (!is_above_0(opening_cm) || !(wire_cm >= 0) || !isfinite(wire_cm))
        return false;
    double side = opening_cm / (opening_cm + wire_cm);
    *share = side * side;
    return true;
}
