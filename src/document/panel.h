/* Panels: the blocks of a sheet that hangs on a wall. Each is a title, entries and a kind that says
 * how they are drawn; all texts are in the sheet's language with their numbers written out. What a
 * panel is about, it does not know.
 */
#ifndef BASKLEAF_DOCUMENT_PANEL_H
#define BASKLEAF_DOCUMENT_PANEL_H

#include "document/pictogram.h"

enum panel_kind {
    PANEL_HEAD,      /* a name with a line below it, which `after` ends where there is room and else
                        stands beside the name; telephones at the right. Small: one line */
    PANEL_STRIP,     /* one line over the whole width: solid, or under a rule, of the same height */
    PANEL_MESSAGE,   /* the one thing to know, in a frame; solid: white on black */
    PANEL_STEPS,     /* rows to tick: number to reach, what to do, how, a line to write on */
    PANEL_DIAGRAM,   /* a drawing to scale with labels at its places; below it `text`, which a full
                        page leaves out, and `after`, which stays: what its signs mean */
    PANEL_DRAWING,   /* the same alone, with points and marks: its labels stand elsewhere */
    PANEL_FIGURES,   /* signs with a number each, side by side */
    PANEL_ALERT,     /* a solid bar with telephones, below it cells of a sign and words */
    PANEL_CHECKS,    /* boxes to tick with a title and a line, in columns */
    PANEL_CALENDAR,  /* weeks across, things to do and readings to write down */
    PANEL_NOTICE,    /* something large at the left, lines at the right */
    PANEL_GRADES,    /* lines behind three boxes of which some are filled, beside them a trend */
    PANEL_CALLS,     /* a bar with a list below it in two columns, another list beside it */
    PANEL_SIDES,     /* two lists beside each other, each below its name: `text`, second_title */
    PANEL_SIGNS,     /* signs with some words each, side by side */
    PANEL_SIGNATURE, /* some words at the left, a line to sign on at the right */
    PANEL_NOTES,     /* a title and lines to write on: takes what room is left */
    PANEL_CARD,      /* two faces of a wallet's card beside each other, to cut out and fold: name,
                        line, telephones and entries; a bar and the second list */
    PANEL_TEXT,      /* a paragraph: `text`, or its entries with their titles in bold */
    PANEL_SMALL,     /* small type */
    PANEL_KIND_COUNT
};

/* Which way something has to go. */
enum turn { TURN_NONE, TURN_UP, TURN_DOWN, TURN_RIGHT };

/* What stands in one column of a calendar's row. */
struct panel_cell {
    const char *const *days; /* boxes to tick, each with its day; more than one: the day alone */
    size_t day_count;
    bool is_to_write; /* a line to write on */
};

struct panel_entry {
    const char *mark;      /* "1" on a solid disc, or "A" in a ring */
    const char *mark_said; /* "Step 1" */
    bool is_mark_solid;
    bool has_tick_box;
    const struct pictogram *pictogram;
    const char *title, *value, *text;
    enum turn turn;
    const char *turn_said;   /* "warmer" */
    const char *now;         /* "now 84" */
    bool is_now_open;        /* nobody has measured it: a line to write on */
    const char *limit;       /* a sentence below it: how far to go at most */
    const char *note, *unit; /* above and behind a line to write on */
    const char *uri;         /* of the value */
    int grade;               /* 1 to 3 */
    bool is_strong;
    bool runs_on; /* PANEL_GRADES: behind the one before, even where that begins a line */
    const struct panel_cell *cells; /* as many as the panel's columns */
    struct panel_entry *next;
};

/* A line through points, for the eye. */
struct trend {
    const double *x, *y; /* shares of its width and height, y growing upwards */
    size_t count;
    const char *first, *last; /* at its ends */
    const char *alternative;
};

/* Small pictures at the right of a panel's words: what has to be done, drawn. */
struct cut {
    struct pictogram sign;
    double height; /* in its units */
};

struct cuts {
    const struct cut *const *drawn;
    size_t count;
    double unit_pt;           /* of a unit of their signs */
    const char *alternative;  /* of them all */
    const char *const *words; /* one below each, which line it belongs to; NULL: none */
};

struct photo; /* document.h */

struct panel {
    enum panel_kind kind;
    const struct photo *photo; /* PANEL_HEAD: shown small where there is room; NULL for none */
    const char *photo_alternative;
    const char *title, *aside, *text, *small, *after;
    const char *second_title; /* of `second` */
    bool is_solid;            /* PANEL_CARD: `small` is a warning */
    bool is_small;     /* PANEL_HEAD: one line; PANEL_CALLS: in one column; PANEL_GRADES: flows on;
                          PANEL_MESSAGE: no higher than its words where a page is close */
    bool begins_lines; /* PANEL_GRADES: each entry does, even so */
    bool is_large;     /* PANEL_ALERT: for a page of its own */
    struct panel_entry *telephones;       /* title and value */
    struct panel_entry *entries, *second; /* PANEL_GRADES: `second` is a paragraph behind them */
    const char *const *columns;           /* heads of a calendar; the second is the visit's */
    size_t column_count;
    const struct trend *trend;
    const struct cuts *cuts; /* NULL for none */
    const struct diagram *diagram;
};

/* Every text of a panel in reading order; `is_drawn` is false of what is only said. NULL is left
 * out. */
void panel_each_text(const struct panel *panel,
                     void (*visit)(void *context, const char *text, bool is_drawn), void *context);

#endif
