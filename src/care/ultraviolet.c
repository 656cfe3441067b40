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

bool uv_distance_for(const struct uv_source *source, double uvi, double beside_cm, double near_cm,
                     double far_cm, double *distance_cm)
{
    double at_far, here;
    if (!is_above_0(near_cm) || !(far_cm >= near_cm) || !(uvi >= 0) ||
        !uv_index_at(source, far_cm, beside_cm, &at_far) || at_far > uvi)
        return false;
    /* walk in from the far end to the first place that is bright enough */
    double outer = far_cm, inner = far_cm;
    double step = pow(near_cm / far_cm, 1.0 / SCAN_STEPS);
    const double at_reading = shape_at(source, source->reading_cm, 0);
    here = at_far;
    for (int i = 1; i <= SCAN_STEPS && here < uvi; i++) {
        outer = inner;
        inner = i == SCAN_STEPS ? near_cm : inner * step;
        here = index_at(source, at_reading, inner, beside_cm);
    }
    if (here < uvi)
        return false;
    for (int i = 0; i < BISECTIONS && outer - inner > 1e-4; i++) {
        double middle = (inner + outer) / 2;
        here = index_at(source, at_reading, middle, beside_cm);
        if (here >= uvi)
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
