/* A plan and a language -> the document of a sheet. */
#ifndef BASKLEAF_SHEET_COMPOSE_H
#define BASKLEAF_SHEET_COMPOSE_H

#include "care/plan.h"
#include "records/sheet_template.h"
#include "words/catalogue.h"
#include "words/phrase.h"
#include "document/document.h"
#include "sheet/section_state.h"

/* What was written for a trial, for those that follow it, each with what was asked of the trial and
 * answered meanwhile. Begins as zeros. */
struct kept_sections {
    struct arena *arena; /* outlives the trials */
    struct kept_section {
        uint64_t answers, asked;
        const struct block *blocks; /* to be copied; what they point to stays as it is */
        struct kept_section *next;
    } * sections[SECTION_COUNT];
    struct kept_heads {
        uint64_t answers, asked;
        struct document document; /* all but blocks and look */
        struct kept_heads *next;
    } * heads;
    struct kept_beside {
        const struct block_memory *const *sides; /* of the blocks of both, NULL between */
        size_t count;
        struct block_memory *memory;
        struct kept_beside *next;
    } * besides;
    struct kept_words {
        const char *text; /* what words mean */
        enum panel_kind kind;
        struct block_memory *memory;
        struct kept_words *next;
    } * words;
};

/* Everything a sheet is composed from; all borrowed and needed as long as the document. */
struct compose_inputs {
    const struct care_plan *plan;
    const struct wording *words;
    const struct sheet_template *sheet;
    const struct look_file *look;
    enum unit_system units;
    enum clinic_paper paper;
    bool live_links;       /* for a screen, also where the kind is for paper */
    bool is_signed;        /* the visit's signature is valid: no draft mark */
    const char *signed_by; /* NULL: nobody did */
    struct date signed_on;
    size_t steps_most; /* rows of page one of a sheet that hangs, at most */
    bool wide;         /* no drawing beside the rows, however tall the box is */
    unsigned whys;     /* the rows of page one that say why, a bit a row */
    enum message_says message;
    bool message_is_small;        /* its bar is no higher than its words where a page is close */
    enum medicines_say medicines; /* of a sheet whose pages are filled; all others say it all */
    enum lines_begun lines;       /* likewise, where there is room */
    enum cuts_shown cuts;         /* likewise, where there is room beside the words */
    bool says_key;   /* how the drawing is read, where to call with none at home or when closed */
    bool says_known; /* how it is known what was found, though the pages are full, and never in the
                        place of what a word means */
    bool to_edges;   /* all the paper that a printer reaches, however close the rest is set */
    double inset_pt; /* at its sides so much less of it */
    enum closeness closeness;
    enum closeness opened[SECTION_COUNT]; /* so many degrees less close, for there is room */
    bool without_normal; /* the last of all: it takes two pages without what is normal for it */
    unsigned moves_up; /* even so it is too much for the pages: so many of what page one may take as
                         well stand there */
    size_t brief_count; /* so many of the kind's `in-brief`, the first ones, are said in brief */
    bool first_page;    /* of a sheet whose pages are filled, the first one alone */
    bool is_trial;      /* to see how much room it takes: without what takes none, as short forms */
    struct kept_sections *kept; /* of trials that differ in what they save alone; or NULL */
    const char *const
        *changed; /* keys signature.<...> of what changed since it was signed, or NULL */
    size_t changed_count;
    const struct logo *logo; /* NULL for none */
    struct said_log *said;   /* keeps what instructs, see phrase.h; NULL: nobody asks */
};

/* Whether its box is so much higher than long that the drawing may stand beside the rows. */
bool compose_is_tall(const struct care_plan *plan);

/* Fills *out, all of it in the arena. A sentence that is not worded, or that has a slot without a
 * value, is a DIAG_ERROR; all of them are reported. False when there was one; *out is then
 * untouched. */
bool compose_sheet(const struct compose_inputs *inputs, struct arena *arena, struct diag *diag,
                   struct document *out);

/* Has it pictures of what is done at home? */
bool compose_has_cuts(const struct care_plan *plan);

#endif
