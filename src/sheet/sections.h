/* The sections of a sheet: one function a row of records/sheet_sections.h, inside this layer only.
 */
#ifndef BASKLEAF_SHEET_SECTIONS_H
#define BASKLEAF_SHEET_SECTIONS_H

#include "sheet/compose.h"
#include "records/sheet_template.h"
#include "document/block_builder.h"
#include "words/phrase.h"

/* One sheet on its way to blocks. */
struct composition {
    struct phrase_context ctx;
    const struct care_plan *plan;
    const struct sheet_template *sheet;
    const struct sheet_section *entry; /* the template's row under way */
    struct arena *arena;
    bool is_signed;
    const char *signed_by; /* also of a signature that holds no longer; NULL: nobody did */
    struct date signed_on;
    size_t brief_count; /* the sheet would take more pages than it may: of its kind's `in-brief` */
    struct section_state state; /* of the section under way: sections ask by section_is_close ... */
    enum closeness closeness;   /* see compose_inputs; of the section under way, not for sections */
    const enum closeness *opened; /* likewise; one a section */
    const struct look *look;      /* of the sheet */
    unsigned moves_up;            /* likewise, for the pages */
    bool wide, without_normal;    /* likewise */
    bool says_known;              /* likewise */
    bool live_links;              /* it is read on a screen */
    const char *draft_mark;       /* NULL: it is signed */
    struct kept_sections *kept;   /* see compose_inputs */
    struct panel *words;       /* filled when all is written; NULL: the sheet has no such section */
    struct block *words_block; /* on a page that is filled, in which these stand; or NULL */
};

/* Appends the section's blocks, or nothing where the plan has nothing to say there. */
typedef void section_writer(struct composition *c, struct block_builder *out);

/* One a row of records/sheet_sections.h: section_animal, section_go_now ... */
#define SECTION_DECLARATION(code_, name_, ...) section_writer section_##name_;
SHEET_SECTIONS(SECTION_DECLARATION, SECTION_DECLARATION)
#undef SECTION_DECLARATION

/* ---- what a trial may save; whoever asks has it noted ---- */

/* Is it set at least so close? */
static inline bool section_is_close(const struct composition *c, enum closeness least)
{
    return section_state_ask(&c->state, ASK_CLOSE + (size_t)least);
}
static inline bool section_in_brief(const struct composition *c)
{
    return section_state_ask(&c->state, ASK_IN_BRIEF);
}
/* Is the section under way less close than its sheet? */
static inline bool section_is_opened(const struct composition *c)
{
    return section_state_ask(&c->state, ASK_IS_OPENED);
}
/* Does the message name so much, neither more nor less? */
static inline bool section_says(const struct composition *c, enum message_says says)
{
    return section_state_ask(&c->state, ASK_MESSAGE + (size_t)says);
}
/* Does it leave room for the address beside go now? */
static inline bool section_says_address(const struct composition *c)
{
    return section_state_ask(&c->state, ASK_SAYS_ADDRESS);
}
/* Is at least so much said beside a medicine? */
static inline bool section_says_of_medicines(const struct composition *c, enum medicines_say least)
{
    return section_state_ask(&c->state, ASK_MEDICINES + (size_t)least);
}
/* Are there pictures beside the medicines, or beside what else is to be done? Are they large? */
static inline bool section_shows_cuts(const struct composition *c, bool of_medicines)
{
    return section_state_ask(&c->state, of_medicines ? ASK_CUTS_MEDICINES : ASK_CUTS_OTHERS);
}
static inline bool section_has_large_cuts(const struct composition *c)
{
    return section_state_ask(&c->state, ASK_CUTS_LARGE);
}
/* Does at least so much begin a line of its own? */
static inline bool section_begins_lines(const struct composition *c, enum lines_begun least)
{
    return section_state_ask(&c->state, ASK_LINES + (size_t)least);
}
/* May page one have this row? Does it say why, then? */
static inline bool section_may_show(const struct composition *c, size_t row)
{
    return row < SECTION_ROWS_MOST && section_state_ask(&c->state, ASK_ROWS + row);
}
static inline bool section_says_why(const struct composition *c, size_t row)
{
    return row < SECTION_ROWS_MOST && section_state_ask(&c->state, ASK_WHYS + row);
}
static inline bool section_says_key(const struct composition *c)
{
    return section_state_ask(&c->state, ASK_SAYS_KEY);
}
/* How it is known what was found, however full the pages are? */
static inline bool section_says_known(const struct composition *c)
{
    return section_state_ask(&c->state, ASK_SAYS_KNOWN);
}
/* Is the message's bar no higher than its words where a page is as close as it can be? */
static inline bool section_message_is_small(const struct composition *c)
{
    return section_state_ask(&c->state, ASK_MESSAGE_IS_SMALL);
}
/* What was found stands without what to do at home. */
static inline bool section_homes_left_out(const struct composition *c)
{
    return section_state_ask(&c->state, ASK_HOMES_LEFT_OUT);
}
static inline bool section_without_normal(const struct composition *c)
{
    return section_state_ask(&c->state, ASK_WITHOUT_NORMAL);
}
/* Has page one taken something of the later pages? */
static inline bool section_has_moved(const struct composition *c)
{
    return section_state_ask(&c->state, ASK_HAS_MOVED);
}

/* ---- shared by sections ---- */

/* A heading of level 2 from a key. */
void section_title(struct composition *c, struct block_builder *out, const char *key);
/* A paragraph from a key, when it is worded and can be said for this plan; else nothing. */
void section_sentence(struct composition *c, struct block_builder *out, const char *key);
/* A bullet likewise. */
void section_bullet(struct composition *c, struct block *list, const char *key);
/* A head row from keys. */
void section_head(struct composition *c, struct block *table, const char *const *keys,
                  size_t count);
/* What section_row adds to: a table of heads and texts, the heads taking `share` of its width, or
 * on a compact sheet what they need. */
struct block *section_pairs(struct composition *c, struct block_builder *out, double share);
/* A row of a head and a text; nothing when the text is NULL. */
void section_row(struct composition *c, struct block *pairs, const char *head_key,
                 const char *text);
/* The same with the head's words. */
void section_pair(struct composition *c, struct block *pairs, const char *head, const char *text);

/* The photo and what it shows, in words; NULL where the record has none. */
const struct photo *section_photo_of(struct composition *c, const char **alternative);

/* The sentence under a key with one value of the item's own. */
const char *section_with_date(struct composition *c, const char *key, struct date date);
/* What the veterinarian wrote of a finding, as a sentence: what follows it is not theirs. */
const char *section_note(struct composition *c, const struct finding_plan *finding);
/* Its name, "Perhaps gout" where it is only suspected; and what it means, said so too. */
const char *section_finding_name(struct composition *c, const struct finding_plan *finding);
const char *section_meaning(struct composition *c, const struct finding_plan *finding);
/* Why a rule asks for something: no finding that is only suspected is given as certain. */
const char *section_why(struct composition *c, const struct action_reason *reason);
/* A part of the words of an action, with "how" or "stop", worded under `code`; beside hers, what
 * they add. NULL: no such words. */
const char *section_action_part(struct composition *c, const struct action *action,
                                const char *code, const char *part);
const char *section_with_text(struct composition *c, const char *key, const char *name,
                              const char *text);

/* How far on or how bad: a word, or NULL where neither is on the record. */
const char *section_degree(const struct phrase_context *ctx, const struct finding_plan *finding);
/* What to do at home about a finding, and when to call or go. */
const char *section_home(struct composition *c, struct phrase_context *ctx,
                         const struct finding_plan *finding);

/* What holds for now, and what ends it; each end once. */
struct now_line {
    const char *end, *text; /* "" for no end */
    bool is_not_now;        /* what not to do */
    struct date begins;     /* not set: it holds already */
};
/* Each by itself; those that end together one behind the other, what has no end first and what
 * begins later last, by its day. */
size_t section_now_items(struct composition *c, const struct now_line **out);
size_t section_now_lines(struct composition *c, const struct now_line **out);
/* What is said about the water, a line each: the keys of its head and its sentence; `is_step`: the
 * step of page one that asks for it says as much. */
struct water_line {
    const char *head, *text;
    bool is_step;
};
enum { WATER_LINES_MOST = 6 };
size_t section_water_lines(const struct water_plan *water, struct water_line *lines);
/* What is said where nothing has to change. */
const char *section_no_changes_key(const struct care_plan *plan);
/* How much from which day on, a line each; NULL where the amount stays. */
const char *section_meal_steps(struct composition *c);
const char *section_meal_interval(struct composition *c); /* NULL where it is not known */
const char *section_food_line(struct composition *c, const struct feeding_line *line);
/* Is it told there how large a piece may be? */
bool section_says_size(const struct composition *c);
const char *section_food_rules(struct composition *c);
const char *section_insect_kinds(struct composition *c);
/* The powders, a line each; why a meal or its interval differs from usual; both may be NULL. */
const char *section_supplements(struct composition *c);
const char *section_why_off_rhythm(struct composition *c);
const char *section_referral_food(struct composition *c);
const char *section_feeding_change(struct composition *c);
/* The key sources on one line; NULL when there are none. */
const char *section_sources_line(struct composition *c);

/* Does the kind of sheet have this section? */
bool section_is_shown(const struct composition *c, enum sheet_section_code code);
/* Do the changes on this sheet tell the keeper to do this? */
bool section_has_action(const struct composition *c, const char *code);
/* Do the dates to come say this, on this sheet? */
bool section_has_date(const struct composition *c, const char *what);

/* A table of one part's quantities: what to aim for and, where any was read, how it is now. */
void section_measures_table(struct composition *c, struct block_builder *out,
                            enum measure_part part);
/* Has it a row? Is one of them read? */
bool section_measures_show(const struct composition *c, enum measure_part part);
bool section_measures_read(const struct composition *c, enum measure_part part);
/* Does a table of targets have a row of it: it has a target, or its reading passes what it never
 * may? */
bool section_measure_shows(const struct composition *c, enum measure_id measure);
/* Right, or off by less than is printed. */
bool section_measure_is_right(const struct composition *c, enum measure_id measure);
/* "84-88 °F", or "at most 82 °F" */
const char *section_measure_target(struct composition *c, enum measure_id measure);
/* A measured quantity's name, "Warm side", and how its reading stands: "6 °F too cold". */
const char *section_measure_name(struct composition *c, enum measure_id measure);
const char *section_measure_result(struct composition *c, enum measure_id measure);

/* A data logger's days, how much of them has readings, and the longest cold spell, in a sentence;
 * NULL where the record names none. */
const char *section_logger_text(struct composition *c);

/* How a procedure is cared for, and when its result is there; NULL where a step says it. */
const char *section_care(struct composition *c, const struct procedure_plan *done);
/* For how long what was found stays as it is; "" for nothing to say. */
const char *section_normal_now(struct composition *c);
/* Has one of them care to tell? */
bool section_has_care(struct composition *c);

/* A warning sign; of one that is there already what follows it. */
const char *section_sign(struct composition *c, const struct warning *warning);

#endif
