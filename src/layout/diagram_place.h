/* Where the labels of a diagram stand, and how large it is drawn. Inside the layout only. */
#ifndef BASKLEAF_LAYOUT_DIAGRAM_PLACE_H
#define BASKLEAF_LAYOUT_DIAGRAM_PLACE_H

#include "document/diagram.h"
#include "layout/board.h"

enum { DIAGRAM_LABELS_MOST = 8, DIAGRAM_WORDS_MOST = 12 };
enum { DIAGRAM_BAR_PT = 6 };
static const double DIAGRAM_MARK_PT = 8.5; /* the radius of a mark */

enum diagram_layout {
    DIAGRAM_INSIDE,  /* in the box, in two rows */
    DIAGRAM_LEADERS, /* in columns at both sides, or at the left alone where there is no room */
    DIAGRAM_BAND,    /* in a row above the box */
    DIAGRAM_ROW      /* no box at all */
};

struct extent_pt {
    double left, top, right, bottom;
};

/* A line of few points from a label to its point. */
enum { LEADER_POINTS_MOST = 5 };
struct leader {
    struct point points[LEADER_POINTS_MOST];
    size_t count;
};

struct placed_label {
    struct extent_pt size; /* from 0, 0 */
    struct extent_pt box;
    struct leader leader;
    struct point point; /* its mark stands on no other's */
};

struct placed_word {
    const char *text;
    double x, width_pt; /* its middle */
};

/* Everything on the page: x across the page, y in the fragment. */
struct placed {
    enum diagram_layout layout;
    double scale;         /* points a unit */
    double left, floor_y; /* of the box */
    double height_pt;     /* of the whole */
    struct placed_label labels[DIAGRAM_LABELS_MOST];
    size_t label_count;
    struct placed_word words[DIAGRAM_WORDS_MOST];
    size_t word_count;
};

/* Tries the layouts in turn in this room, which is at least what the labels need. */
void diagram_place(const struct composer *composer, const struct diagram *diagram, double left,
                   double width_pt, double height_pt, struct placed *out);

/* The drawing alone over the width, no higher than a screen is wide. */
void diagram_place_bare(const struct composer *composer, const struct diagram *diagram, double left,
                        double width_pt, struct placed *out);

/* Does its mark stand beside its value? Else it stands at its point. */
bool diagram_has_mark_beside(const struct diagram_label *label);

/* Of a label's value, below its top. */
double diagram_value_base(const struct diagram_label *label);

/* How large a THING_PICTOGRAM is: smaller in a small box, so that it covers no point. */
double diagram_sign_size(const struct diagram *diagram, const struct placed *placed);

/* How wide a THING_OUTLINE is drawn: one that would be less than 2 mm high is drawn 3 mm high,
 * where the box has room. */
double diagram_outline_width(const struct diagram *diagram, const struct placed *placed,
                             const struct diagram_thing *thing);
/* As it is drawn: its left feet and its right back. */
struct extent_pt diagram_outline_box(const struct diagram *diagram, const struct placed *placed,
                                     const struct diagram_thing *animal);
bool diagram_is_enlarged(const struct diagram *diagram, const struct placed *placed);

/* The middle of a THING_PICTOGRAM: inside the walls, and below a bar that it would stand on. */
struct point diagram_sign_point(const struct diagram *diagram, const struct placed *placed,
                                const struct diagram_thing *thing);

/* The middle of a thing's own mark: beside the end of a bar, on the water where there is room. */
struct point diagram_mark_point(const struct diagram *diagram, const struct placed *placed,
                                const struct diagram_thing *thing);

struct point diagram_point(const struct placed *placed, double x, double y);

/* Where each label's point is: in a small drawing marks that would stand on one another stand
 * beside one another. */
void diagram_set_points(const struct diagram *diagram, struct placed *placed);

/* ---- leaders (diagram_leaders.c) ---- */

/* From which side the label's line comes, and where past all labels of that side it may bend. */
struct lead {
    size_t label;
    bool from_left;
    double inner;
};

/* Leads each from its label's box to its point. Returns how much the lines still meet:
 * another one, a lamp, a mark, a label; half as much the distance. Of ways that meet as much it is
 * one that goes round the animal. */
size_t diagram_lead(const struct diagram *diagram, struct placed *placed, const struct lead *leads,
                    size_t count);

#endif
