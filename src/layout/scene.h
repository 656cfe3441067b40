/* Draws a scene of shapes. Inside the layout only. */
#ifndef BASKLEAF_LAYOUT_SCENE_H
#define BASKLEAF_LAYOUT_SCENE_H

#include "layout/block_setters.h"

/* Where a scene may be drawn and what its marks belong to. */
struct scene_room {
    double left_pt, width_pt, height_pt;
    int element;
};

/* Draws into an empty fragment and gives it its height and its figure's box. The scene is scaled
 * down to the room, never up. Its letters are not scaled below 9 pt; those that would stand
 * outside the room for that reason are moved inwards. */
void scene_draw(const struct composer *composer, const struct scene *scene,
                const struct scene_room *room, struct fragment *fragment);

#endif
