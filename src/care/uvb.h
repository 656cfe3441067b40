/* Inside the UVB part: placing the lamp. */
#ifndef BASKLEAF_CARE_UVB_H
#define BASKLEAF_CARE_UVB_H

#include "care/build.h"
#include "care/ultraviolet.h"

/* Fills the distances, the index now and at the shade end, and the lamp's heights from its own
 * reading; plan->uvb holds the target already. Chosen so that a doubtful case hangs the lamp
 * farther:
 *
 *   ceiling      the target's upper end: the zone's maximum, as `uv-uses` of the reference
 *                values takes it, or the veterinarian's own;
 *   nearest      where the brightest place, right under the lamp's middle, gets the ceiling;
 *   farthest     where the basking spot gets the target's lower end;
 *   recommended  where the basking spot gets what the lamp is hung for (aim_uvi), kept between
 * them.
 *
 * All lie between the formula's own nearest distance and the reading's distance, made smaller and
 * larger by a stated factor; outside nothing is computed. A tube of unknown length is taken between
 * a point and an endless line, and only what both allow is said.
 * What cannot be said is put to the veterinarian; returns why. */
enum uvb_distance_why uvb_place_lamp(struct care_build *b);

/* Where the lamp is taken to stand: a tube against the end wall, any other lamp half the box's
 * width from it. */
double uvb_lamp_from_end_cm(const struct care_build *b, const struct uv_source *lamp);

/* The lamp as it will hang, and how far below it the reading supports a number. */
struct uvb_map_from {
    const struct uv_source *lamp;
    double lamp_above_floor_cm, near_cm, far_cm;
};
void uvb_map(struct care_build *b, const struct uvb_map_from *from);

#endif
