/* Kinds of sheet and the look of all of them: what a clinic changes without building anything.
 *
 * templates/sheets/<kind>.yaml says which sections a kind of sheet has, in which order, which stand
 * side by side, where a page ends, and the clinic's own paragraphs by language. templates/look.yaml
 * holds paper, sizes and colours.
 */
#ifndef BASKLEAF_RECORDS_SHEET_TEMPLATE_H
#define BASKLEAF_RECORDS_SHEET_TEMPLATE_H

#include "records/sheet_sections.h"
#include "records/sourced_value.h"
#include "records/terms.h"

/* One section over the whole width (show), two columns of them, each its own (left, right) or
 * both in turn (columns), or a whole page that is filled (page, foot). */
struct sheet_section {
    struct choice_value show;
    struct list left, right; /* of struct choice_value */
    struct list columns;     /* likewise: down the left column, then on in the right one */
    struct list page, foot;  /* likewise: a page that is filled, from the top and at its foot */
    struct quantity share_percent; /* width of the left column; half when left out */
    struct list title, text;       /* of struct named_text by language: SECTION_OWN only */
    struct mark at;
};

enum sheet_paper { SHEET_PAPER_PHONE };

struct sheet_template {
    struct text_value kind;     /* the file's name */
    struct flag_value new_home; /* the animal goes to a new keeper: what first weeks need */
    struct flag_value live_links;
    struct choice_value paper; /* enum sheet_paper; the clinic's when left out */
    struct flag_value plain;   /* one column of headings, paragraphs and lists, without panels */
    struct quantity text_pt;   /* of running text, the rest with it; the look's when left out */
    struct flag_value compact; /* tighter tables, shorter notes, the key sources alone */
    struct quantity pages;     /* as many as it may take, when what is in_brief can see to it */
    struct list in_brief;      /* of struct choice_value, sections */
    struct list running;       /* of struct choice_value: above what a filled page flows on to */
    struct list sections;      /* of struct sheet_section */
    const char *file;
};

/* Sizes in points (1/72 inch). */
struct look_sizes {
    struct quantity margin, body, table, small, title, section, part, leading;
};

/* "#RRGGBB", one a role of the drawing layer. */
struct look_colours {
    struct text_value text, muted, accent, warm, cool, alert, leaf, paper, tint;
};

struct look_file {
    struct choice_value paper; /* the clinic's when left out */
    struct look_sizes sizes;
    struct look_colours colours;
    const char *file;
};

extern const struct schema sheet_template_schema, look_schema;
extern const struct choice sheet_section_choices[];

/* NULL after errors. */
struct sheet_template *sheet_template_read(const char *path, struct arena *arena,
                                           struct diag *diag);

/* Every kind of sheet: the files of a folder. */
struct sheet_kinds {
    const struct sheet_template **items; /* by name, sorted */
    size_t count;
};

/* False when one is wrong, or there is none. */
bool sheet_kinds_read(const char *folder, struct arena *arena, struct diag *diag,
                      struct sheet_kinds *out);

/* The kind of this name, or NULL. */
const struct sheet_template *sheet_kinds_find(const struct sheet_kinds *kinds, const char *name);

/* The same, with a DIAG_ERROR at the name that offers the nearest. */
const struct sheet_template *sheet_kinds_need(const struct sheet_kinds *kinds,
                                              const struct text_value *name, const char *path,
                                              struct diag *diag);

/* A kind that lies beside a sheet and in place of none, such as an emergency card. */
bool sheet_template_is_card(const struct sheet_template *sheet);

/* Schema and the standard of the page: body text from 12 pt, cells from 10, nothing under 9,
 * headings 2 pt larger, leading 1.25, no ink nearer than 36 pt to an edge; colours of text, on
 * paper and on the tint, at least 7:1 by WCAG 2 relative luminance; a tint no darker than 15 %
 * grey. Every value below it is a DIAG_ERROR at its place. NULL after errors. */
struct look_file *look_read(const char *path, struct arena *arena, struct diag *diag);

/* Red, green, blue of "#RRGGBB"; false when it is not that. */
bool look_read_colour(const char *text, unsigned char out[3]);

#endif
