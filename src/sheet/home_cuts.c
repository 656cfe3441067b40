/* Which pictures stand beside which words, by tables: a way in, a procedure, a sentence or an
 * action brings one. What is given or done by the clinic brings none. */
#include "sheet/home_cuts.h"

#include <string.h>

#include "base/strbuf.h"
#include "base/utf8.h"

/* Of the ways that stand here without one, nose, ear, gums and a mist, a picture would show more
 * than the sheet says. */
static const enum home_cut of_routes[] = {
    [ROUTE_BY_MOUTH] = HOME_CUT_MOUTH,        [ROUTE_INJECTION] = HOME_CUT_NEEDLE,
    [ROUTE_UNDER_THE_SKIN] = HOME_CUT_NEEDLE, [ROUTE_INTO_THE_MUSCLE] = HOME_CUT_NEEDLE,
    [ROUTE_ON_THE_SKIN] = HOME_CUT_SKIN,      [ROUTE_IN_THE_EYE] = HOME_CUT_EYE,
    [ROUTE_IN_THE_EAR] = HOME_CUT_NONE,       [ROUTE_IN_THE_NOSE] = HOME_CUT_NONE,
    [ROUTE_BREATHED_IN] = HOME_CUT_NONE,      [ROUTE_IN_THE_MOUTH] = HOME_CUT_NONE,
    [ROUTE_FEEDING_TUBE] = HOME_CUT_TUBE,     [ROUTE_IN_A_BATH] = HOME_CUT_BATH,
};

struct cut_row {
    const char *code;
    enum home_cut cut;
};

static const struct cut_row of_procedures[] = {
    {"feeding-tube-placed", HOME_CUT_TUBE},
    {"bandage", HOME_CUT_DRESSING},
    {"splint", HOME_CUT_DRESSING},
    {"shell-dressing", HOME_CUT_DRESSING},
};

/* Keys of sentences that say how deep. */
static const struct cut_row of_sentences[] = {
    {"stance.bath.as-written-blank", HOME_CUT_BATH},
    {"stance.bath.as-written-warm", HOME_CUT_BATH},
    {"stance.bath.drink-soak", HOME_CUT_BATH},
    {"stance.bath.shed-soak", HOME_CUT_BATH},
};

static const struct cut_row of_actions[] = {
    {"shallow-bath", HOME_CUT_BATH},
    {"give-drink-soak", HOME_CUT_BATH},
};

#define FIND(rows_, code_) find_row(rows_, sizeof(rows_) / sizeof *(rows_), code_)

static enum home_cut find_row(const struct cut_row *rows, size_t count, const char *code)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(rows[i].code, code) == 0)
            return rows[i].cut;
    return HOME_CUT_NONE;
}

/* A bit a picture. */
static unsigned bit_of(enum home_cut cut)
{
    return cut == HOME_CUT_NONE ? 0 : 1u << cut;
}

/* The picture of the skin shows a film under a finger, and a drop is none. */
static bool is_dropped_on_skin(const struct medicine_plan *m)
{
    return m->way == ROUTE_ON_THE_SKIN && m->has_amount && m->amount_unit == UNIT_DROP;
}

static enum home_cut of_medicine(const struct medicine_plan *m)
{
    return !m->is_given_here && m->has_way && !is_dropped_on_skin(m) ? of_routes[m->way]
                                                                     : HOME_CUT_NONE;
}

static unsigned of_medicines(const struct care_plan *plan)
{
    unsigned cuts = 0;
    for (size_t i = 0; i < plan->medicine_count; i++)
        cuts |= bit_of(of_medicine(&plan->medicines[i]));
    return cuts;
}

static unsigned of_now(const struct care_plan *plan)
{
    unsigned cuts = 0;
    for (size_t i = 0; i < plan->speaking_count; i++)
        cuts |= bit_of(FIND(of_sentences, plan->speaking[i].code));
    return cuts;
}

static unsigned of_then(const struct composition *c)
{
    unsigned cuts = 0;
    for (size_t i = wall_step_count(c); i < c->plan->action_count; i++)
        cuts |= bit_of(FIND(of_actions, c->plan->actions[i].code));
    return cuts;
}

/* A dressing that swims is not kept dry: its edge is looked at. */
static unsigned of_aftercare(const struct care_plan *plan)
{
    unsigned cuts = 0;
    for (size_t i = 0; i < plan->procedure_count; i++) {
        const char *code = plan->procedures[i].code;
        const enum home_cut cut = FIND(of_procedures, code);
        const bool swims =
            strcmp(code, "shell-dressing") == 0 && plan->measured[MEASURE_WATER].applies;
        cuts |= bit_of(swims ? HOME_CUT_EDGE : cut);
    }
    return cuts;
}

/* Beside the sentence that says how large a piece may be. */
static unsigned of_food(const struct care_plan *plan)
{
    static const struct cut_row of_sizes[] = {{"insect", HOME_CUT_INSECT}, {"prey", HOME_CUT_PREY}};
    const struct feeding_plan *food = &plan->feeding;
    const bool is_given = food->size_rule && (!food->paused || food->has_resume);
    return is_given ? bit_of(FIND(of_sizes, food->size_rule)) : 0;
}

static unsigned cuts_at(const struct composition *c, enum home_cuts_place place)
{
    switch (place) {
    case HOME_CUTS_MEDICINES:
        return of_medicines(c->plan);
    case HOME_CUTS_NOW:
        return of_now(c->plan);
    case HOME_CUTS_THEN:
        return of_then(c);
    case HOME_CUTS_AFTERCARE:
        return of_aftercare(c->plan);
    case HOME_CUTS_FOOD:
        return section_says_size(c) ? of_food(c->plan) : 0;
    case HOME_CUTS_PLACE_COUNT:
        break;
    }
    return 0;
}

/* "cut.mouth" */
static const char *const words[HOME_CUT_COUNT] = {
    [HOME_CUT_MOUTH] = "cut.mouth",   [HOME_CUT_TUBE] = "cut.tube",
    [HOME_CUT_EYE] = "cut.eye",       [HOME_CUT_SKIN] = "cut.skin",
    [HOME_CUT_NEEDLE] = "cut.needle", [HOME_CUT_DRESSING] = "cut.dressing",
    [HOME_CUT_EDGE] = "cut.edge",     [HOME_CUT_BATH] = "cut.bath",
    [HOME_CUT_INSECT] = "cut.insect", [HOME_CUT_PREY] = "cut.prey",
};

/* Which line it belongs to: "cut-word.mouth" */
static const char *const captions[HOME_CUT_COUNT] = {
    [HOME_CUT_MOUTH] = "cut-word.mouth",   [HOME_CUT_TUBE] = "cut-word.tube",
    [HOME_CUT_EYE] = "cut-word.eye",       [HOME_CUT_SKIN] = "cut-word.skin",
    [HOME_CUT_NEEDLE] = "cut-word.needle", [HOME_CUT_DRESSING] = "cut-word.dressing",
    [HOME_CUT_EDGE] = "cut-word.edge",     [HOME_CUT_BATH] = "cut-word.bath",
    [HOME_CUT_INSECT] = "cut-word.insect", [HOME_CUT_PREY] = "cut-word.prey",
};

/* Beside several medicines a picture's own line is told by the first word of the name, where that
 * is short and no other one is given so. NULL: not told so. */
static const char *name_below(const struct composition *c, enum home_cut cut)
{
    enum { LETTERS_MOST = 12 };
    const struct medicine_plan *own = NULL;
    size_t others = 0, count = 0;
    for (size_t i = 0; i < c->plan->medicine_count; i++) {
        const struct medicine_plan *m = &c->plan->medicines[i];
        others += of_medicine(m) == cut && own;
        own = of_medicine(m) == cut ? m : own;
        count++;
    }
    const size_t length = own && own->name ? strcspn(own->name, " ,(") : 0;
    if (count < 2 || others || length == 0 || utf8_count(own->name, length) > LETTERS_MOST)
        return NULL;
    return arena_copy_bytes(c->arena, own->name, length);
}

/* In the order of the medicines, else as they stand in the table. */
static size_t list_cuts(const struct care_plan *plan, unsigned chosen, enum home_cut *out)
{
    size_t count = 0;
    for (size_t i = 0; i < plan->medicine_count; i++) {
        const unsigned bit = bit_of(of_medicine(&plan->medicines[i]));
        if (chosen & bit)
            out[count++] = of_medicine(&plan->medicines[i]);
        chosen &= ~bit;
    }
    for (int cut = HOME_CUT_NONE + 1; cut < HOME_CUT_COUNT; cut++)
        if (chosen & bit_of((enum home_cut)cut))
            out[count++] = (enum home_cut)cut;
    return count;
}

static const struct cuts *draw(const struct composition *c, unsigned chosen, double unit_pt)
{
    const struct cut **drawn = ARENA_ARRAY(c->arena, const struct cut *, HOME_CUT_COUNT);
    const char **below = ARENA_ARRAY(c->arena, const char *, HOME_CUT_COUNT);
    struct cuts *cuts = ARENA_NEW(c->arena, struct cuts);
    struct strbuf text;
    *cuts = (struct cuts){.drawn = drawn, .unit_pt = unit_pt, .words = below};
    strbuf_init(&text, c->arena);
    enum home_cut listed[HOME_CUT_COUNT];
    const size_t count = list_cuts(c->plan, chosen, listed);
    for (size_t i = 0; i < count; i++) {
        const enum home_cut cut = listed[i];
        const struct cut *one = home_cut_drawing(c->plan, cut);
        if (!one)
            continue;
        const char *name = name_below(c, cut);
        below[cuts->count] = name ? name : phrase(&c->ctx, captions[cut]);
        drawn[cuts->count++] = one;
        const bool is_under = cut == HOME_CUT_BATH && c->plan->taxon.has_gills;
        strbuf_addf(&text, "%s%s", text.length ? " " : "",
                    phrase(&c->ctx, is_under ? "cut.bath-in" : words[cut]));
    }
    cuts->alternative = text.text;
    return cuts->count ? cuts : NULL;
}

const struct cuts *home_cuts(const struct composition *c, enum home_cuts_place place)
{
    static const double SMALL_PT = 0.4, LARGE_PT = 0.56; /* a unit of 100 */
    unsigned before = 0;
    for (int earlier = 0; earlier < (int)place; earlier++)
        before |= cuts_at(c, (enum home_cuts_place)earlier);
    const unsigned cuts = c->plan->go_now ? 0 : cuts_at(c, place) & ~before;
    if (!cuts || !section_shows_cuts(c, place == HOME_CUTS_MEDICINES))
        return NULL; /* who has none does not ask, so that it stands as it is */
    return draw(c, cuts, section_has_large_cuts(c) ? LARGE_PT : SMALL_PT);
}

bool compose_has_cuts(const struct care_plan *plan)
{
    unsigned cuts = of_medicines(plan) | of_now(plan) | of_aftercare(plan) | of_food(plan);
    for (size_t i = 0; i < plan->action_count; i++)
        cuts |= bit_of(FIND(of_actions, plan->actions[i].code));
    return cuts != 0 && !plan->go_now;
}

const struct pictogram *home_cut_of_action(const struct care_plan *plan, size_t action)
{
    const enum home_cut cut = FIND(of_actions, plan->actions[action].code);
    const struct cut *drawn = home_cut_drawing(plan, cut);
    return drawn ? &drawn->sign : NULL;
}
