/* The UV index over the box from the side, place by place, once the lamp hangs as the sheet says.
 * From one reading: what furniture shades and how a reflector bends the beam nobody has told it. */
#include "care/uvb.h"

#include <math.h>

double uvb_lamp_from_end_cm(const struct care_build *b, const struct uv_source *lamp)
{
    const struct box *size = &b->in->visit->enclosure.size;
    double length_cm = fmax(size->length_cm, size->width_cm);
    double width_cm = fmin(size->length_cm, size->width_cm);
    double end_cm = lamp->shape == UV_TUBE ? lamp->tube_length_cm / 2 : width_cm / 2;
    return fmin(end_cm, length_cm / 2);
}

void uvb_map(struct care_build *b, const struct uvb_map_from *from)
{
    struct uvi_map *map = &b->plan->uvb.map;
    const struct box *size = &b->in->visit->enclosure.size;
    if (!size->known)
        return;
    const double length_cm = fmax(size->length_cm, size->width_cm);
    map->known = true;
    map->lamp_above_floor_cm = from->lamp_above_floor_cm;
    map->lamp_from_end_cm = uvb_lamp_from_end_cm(b, from->lamp);
    for (int column = 0; column < UVI_MAP_COLUMNS; column++)
        map->from_end_cm[column] = (column + 0.5) * length_cm / UVI_MAP_COLUMNS;
    for (int row = 0; row < UVI_MAP_ROWS; row++)
        map->above_floor_cm[row] = (row + 0.5) * size->height_cm / UVI_MAP_ROWS;
    for (int row = 0; row < UVI_MAP_ROWS; row++)
        for (int column = 0; column < UVI_MAP_COLUMNS; column++) {
            double below_cm = map->lamp_above_floor_cm - map->above_floor_cm[row];
            double beside_cm = fabs(map->from_end_cm[column] - map->lamp_from_end_cm);
            map->has_uvi[row][column] =
                below_cm >= from->near_cm && below_cm <= from->far_cm &&
                uv_index_at(from->lamp, below_cm, beside_cm, &map->uvi[row][column]);
        }
}
