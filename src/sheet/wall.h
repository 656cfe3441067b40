/* The sheet that hangs at the animal's home: what its sections share. Inside the sheet layer only.
 */
#ifndef BASKLEAF_SHEET_WALL_H
#define BASKLEAF_SHEET_WALL_H

#include "document/diagram.h"
#include "sheet/sections.h"

/* ---- signs (wall_pictograms.c) ---- */

enum wall_pictogram {
    WALL_PICTOGRAM_MOON,
    WALL_PICTOGRAM_HAND,
    WALL_PICTOGRAM_PEOPLE,
    WALL_PICTOGRAM_PLUG,
    WALL_PICTOGRAM_CLOCK,
    WALL_PICTOGRAM_TEST,
    WALL_PICTOGRAM_COUNT
};

const struct pictogram *wall_pictogram(enum pictogram_name name);
const struct pictogram *wall_alarm_pictogram(enum alarm alarm);
const struct pictogram *wall_other_pictogram(enum wall_pictogram sign);
/* The animal from the side; NULL for a snake, which lies in a coil. */
const struct pictogram *wall_outline(const struct care_plan *plan); /* NULL: drawn by its length */

/* ---- panels ---- */

/* Before an item of a list that runs on as a paragraph. */
#define WALL_ITEM_SIGN "\u2022\u00a0"

struct panel *wall_panel(struct composition *c, struct block_builder *out, enum panel_kind kind);
/* Behind the last entry of a list; *list is the first. */
struct panel_entry *wall_entry(struct composition *c, struct panel_entry **list);
/* A text that begins with a name and a colon, with that in bold; NULL or "" adds nothing. */
void wall_add_led(struct composition *c, struct panel_entry **list, const char *text);
struct panel_entry *wall_telephones(struct composition *c);

/* A sentence with up to two texts of its own; NULL names are left out. */
const char *wall_phrase(struct composition *c, const char *key, const char *name, const char *text,
                        const char *other_name, const char *other_text);

/* What is tested for some days stands there with its target and today's number (wall_weeks.c). */
bool wall_is_in_half_days(struct composition *c, enum measure_id measure);

/* The next visit's day. */
const char *wall_day(struct composition *c, struct date day);
const char *wall_day_at(struct composition *c, struct date day, int minute); /* -1: not known */

bool wall_all_fine(const struct care_plan *plan); /* examined, and nothing found */

/* What the message says is wrong in its home; NULL: nothing. */
const char *wall_cause_text(struct composition *c);
/* Is there room for what is wrong beside what tonight's rows change? */
bool wall_says_causes(const struct composition *c);
/* One sentence behind the other; either may be NULL. */
const char *wall_join(struct composition *c, const char *text, const char *more);
/* "Mon" of a day. */
const char *wall_day_name(struct composition *c, struct date day);

/* "Ball python, female" */
const char *wall_kind_text(struct composition *c);
/* Who signed, or that it is a draft. */
const char *wall_state_text(struct composition *c);

/* ---- what is to be reached ---- */

struct wall_target {
    const char *value;  /* "90-93 °F"; NULL where there is none */
    const char *number; /* without its unit, where it has one */
    const char *unit;
    const char *now; /* "now 84", or "now" alone */
    const char *now_number;
    bool is_now_open; /* nobody has measured it */
    bool is_edge;     /* so near the target's end that it is to be measured again */
    enum turn turn;   /* TURN_NONE where nothing is known */
    const char *turn_said;
};

/* `place` as in steps.yaml. False when this animal has no such target. */
bool wall_find_target(struct composition *c, int place, struct wall_target *out);

/* For a row of what is to be done: also of a place that its kind does not use, and that is too hot.
 */
bool wall_find_step_target(struct composition *c, int place, struct wall_target *out);
const char *wall_symbol(struct composition *c, const char *metric, const char *other);

/* "now 22, ask us": off, and no row says what to do about it. */
const char *wall_ask_of(struct composition *c, const struct wall_target *target);
/* How far the lamp hangs today from one that will lie lower once the sheet is followed; 0: the
 * distance of today is the plan's. */
double wall_lamp_today_cm(const struct care_plan *plan);

/* ---- what signs mean (wall_key.c) ---- */

struct wall_key {
    bool shows_edge, shows_arrow, shows_tick, shows_ring, shows_number, shows_letter, shows_needed,
        shows_open, shows_ask, shows_off;
    const char *lamp; /* of a dashed lamp; NULL: there is none */
};

bool wall_is_arrow(enum turn turn);
/* Of the hours of light each day (wall_limits.c). */
enum turn wall_light_turn(const struct composition *c);
/* What stands beside this target's reading, with the arrow that is shown. */
void wall_key_see(struct wall_key *key, const struct wall_target *target, enum turn shown);
/* Of all that the page shows; NULL where it shows nothing that has to be told. */
const char *wall_key_text(struct composition *c, const struct wall_key *drawn);

/* ---- which action stands where ---- */

/* So many of the first actions are rows of page one. */
size_t wall_step_count(const struct composition *c);
/* Is the box drawn? Else its labels stand in a row. */
bool wall_box_is_drawn(const struct composition *c);
/* Does the frame of the size that it needs leave the real box large enough to be read? */
bool wall_has_room_for_frame(const struct diagram *diagram, const struct enclosure_plan *box);
/* The step of that code, wherever it stands; negative: none. */
int wall_action_of(const struct care_plan *plan, const char *code);
/* The step about the lamp itself, whose mark stands at the lamp in the drawing; negative: none. */
int wall_lamp_action(const struct composition *c);
/* Does that step turn it off? */
bool wall_turns_lamp_off(const struct composition *c);
/* Does it wake up tonight on a floor without water, with nothing to climb? */
bool wall_wakes_dry(const struct composition *c);
/* The step that turns off the lamp of the basking place, which is drawn; negative: none. */
int wall_heat_off_action(const struct composition *c);
/* The step that lowers the perches to a height that is drawn; negative: none. */
int wall_perch_action(const struct composition *c);
/* Does the row show the number of a place? Not where the plan puts other words in its stead. */
bool wall_has_place(const struct composition *c, size_t action);
/* The action that is about this place, and its mark; -1 where there is none. */
int wall_action_at(const struct composition *c, int place);

/* Likewise, or the one that changes what is read there along with others. */
int wall_change_at(const struct composition *c, int place);

/* Has the night's reading an arrow: is it right, or does a step turn it that way? */
bool wall_night_may_turn(const struct composition *c, enum measure_id measure, enum turn turn);
/* "1" to "3" in the rows, a letter below "Then" where it has a place in the drawing; else NULL. */
const char *wall_mark(struct composition *c, size_t action, bool *is_solid);
const char *wall_short(struct composition *c, size_t action);
/* The first sentence of words of hers, without its stop. */
const char *wall_own_sentence(struct composition *c, const char *own);

/* Something found that cannot wait longer than today. */
bool wall_is_ill(const struct care_plan *plan);
bool wall_comes_back(const struct care_plan *plan);

/* Who it is and what comes first, on one line: a message's subject. */
const char *wall_summary(struct composition *c);

/* Is the drawing to stand beside the rows? */
/* Is the box higher than it is long? */
bool wall_is_high(const struct composition *c);
bool wall_is_tall(const struct composition *c);

#endif
