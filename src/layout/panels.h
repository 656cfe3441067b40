/* One function a kind of panel; each appends to place->stack. Inside the layout only. */
#ifndef BASKLEAF_LAYOUT_PANELS_H
#define BASKLEAF_LAYOUT_PANELS_H

#include "layout/board.h"

typedef void panel_setter(struct composer *composer, struct place *place,
                          const struct panel *panel);

panel_setter panel_head, panel_strip, panel_message, panel_steps, panel_diagram, panel_drawing,
    panel_figures, panel_alert, panel_checks, panel_calendar, panel_notice, panel_grades,
    panel_calls, panel_signs, panel_signature, panel_notes, panel_text, panel_small, panel_card,
    panel_sides;

/* A rule of 2 pt over the width, below it the heading of 14 pt, at its right a text of 12 pt bold.
 * Returns the board, which is as high as the heading. */
struct board panel_heading(struct composer *composer, struct place *place,
                           const struct panel *panel);

/* The same rule and heading on a board whose first line goes on beside it. Returns its indent. */
double panel_lead_in(const struct board *board, int heading, const char *title);

/* A panel of that setter with its small pictures at its right; it is as high as they are at least.
 */
void panel_beside_cuts(struct composer *composer, struct place *place, const struct panel *panel,
                       panel_setter *set);

/* How wide the telephones are on one line, with their sign; 0 for none. */
double panel_telephones_pt(const struct composer *composer, double size_pt,
                           const struct panel *panel);

/* Telephones on one line that ends at `right`, their sign before them; the pen is that of the
 * numbers and its element the parent. Returns where they begin. */
double panel_telephones(const struct board *board, const struct lettering *pen,
                        const struct panel *panel, double right, double y);

/* The same with each number below its word; y is the base of the words. */
double panel_telephones_high_pt(const struct composer *composer, double size_pt,
                                const struct panel *panel);
void panel_telephones_high(const struct board *board, const struct lettering *pen,
                           const struct panel *panel, double right, double y);

/* The titles of entries in bold, each with its text behind it, up to `end`. */
struct span *panel_spans(struct arena *arena, const struct panel_entry *entry,
                         const struct panel_entry *end);

/* On the closest steps of fitting what stands inside a panel stands closer too. How far apart
 * things stand is asked here and nowhere else; which of them stand on one line is said by the look.
 */
bool panel_is_close(const struct composer *composer);
/* From line to line of a list. */
double panel_line_pt(const struct composer *composer);
/* Below the last baseline of a text in its block. */
double panel_below_pt(const struct composer *composer);

enum { PANEL_TEXT_PT = 12, PANEL_HEADING_BASE_PT = 15, PANEL_NUMBER_BELOW_PT = 15 };
/* A fit_step.give_way with which a key to signs is left out too. */
enum { PANEL_GIVES_ALL = 2 };

#endif
