/* Pictures of a sheet as scenes, each with its caption and a text that says the same. */
#ifndef BASKLEAF_SHEET_DRAW_H
#define BASKLEAF_SHEET_DRAW_H

#include "sheet/sections.h"

/* ---- making scenes (draw.c) ---- */

enum { DRAW_TEXT_PT = 9 };

struct drawing {
    struct arena *arena;
    struct scene *scene;
    struct shape *last;
};

/* How a shape's line and ground are drawn. */
struct draw_style {
    enum ink stroke_ink;
    double stroke_pt;
    enum line_dash dash;
    enum ink fill_ink;
    enum fill_pattern fill;
};

struct drawing draw_start(struct arena *arena, double width_pt, double height_pt);
struct shape *draw_rect(struct drawing *drawing, double x, double y, double width, double height,
                        struct draw_style style);
struct shape *draw_line(struct drawing *drawing, double x1, double y1, double x2, double y2,
                        struct draw_style style);
struct shape *draw_path(struct drawing *drawing, const struct point *points, size_t count,
                        bool closed, struct draw_style style);
struct shape *draw_circle(struct drawing *drawing, double x, double y, double radius,
                          struct draw_style style);
struct shape *draw_dimension(struct drawing *drawing, double x1, double y1, double x2, double y2,
                             const char *text);
/* y is the baseline. */
struct shape *draw_label(struct drawing *drawing, double x, double y, enum anchor anchor,
                         const char *text);

/* Width that a text of DRAW_TEXT_PT is reckoned to take: 0.55 em a character. */
double draw_text_width_pt(const char *text);

/* ---- pictures; NULL where the plan has nothing to draw ---- */

/* What goes into a picture block. */
struct picture {
    const struct scene *scene;
    const char *caption;
    const char *alternative;
};

/* The box from the side, to scale, with the lamp's distance and the places of the probes. */
bool draw_enclosure(struct composition *c, struct picture *out);
/* Every zone's band with its reading. */
bool draw_bands(struct composition *c, struct picture *out);
/* The last week of a data logger, an hour a step, over the targets. */
bool draw_week(struct composition *c, struct picture *out);
/* The same, tall enough to read values from. */
bool draw_week_large(struct composition *c, struct picture *out);
/* The UV index over the box from the side. */
bool draw_uvi_map(struct composition *c, struct picture *out);
/* Weights over time with the line between them. */
bool draw_weight(struct composition *c, struct picture *out);
/* The clinic's telephone number to scan; false without the library or a number. */
bool draw_qr(struct composition *c, struct picture *out);

/* "tel:" and the digits of a telephone number as it is written; NULL without a digit. */
const char *draw_telephone_uri(struct arena *arena, const char *telephone);

#endif
