/* What the signs beside readings and the dashes of the drawing mean. Only what a sheet shows is
 * told, and that is never left out. */
#include "sheet/wall.h"

void wall_key_see(struct wall_key *key, const struct wall_target *target, enum turn shown)
{
    key->shows_edge = key->shows_edge || target->is_edge;
    key->shows_arrow = key->shows_arrow || wall_is_arrow(shown);
    key->shows_tick = key->shows_tick || shown == TURN_RIGHT;
}

/* What stands in the rows and below the drawing. */
static void see_others(struct composition *c, struct wall_key *key)
{
    static const enum measure_id nights[] = {MEASURE_NIGHT, MEASURE_NIGHT_WARM_SIDE};
    struct wall_target target = {0};
    const size_t steps = wall_step_count(c);
    wall_key_see(key, &target, wall_light_turn(c));
    for (size_t i = 0; i < steps; i++)
        if (wall_has_place(c, i) && wall_find_step_target(c, c->plan->steps[i].place, &target))
            wall_key_see(key, &target, target.turn);
    for (size_t i = 0; i < sizeof nights / sizeof *nights; i++)
        if (wall_find_target(c, (int)nights[i], &target)) {
            bool may_turn = wall_night_may_turn(c, nights[i], target.turn);
            wall_key_see(key, &target, may_turn ? target.turn : TURN_NONE);
            key->shows_ask |= !may_turn && wall_is_arrow(target.turn) && !target.is_now_open;
        }
}

static const char *add(struct composition *c, const char *text, const char *key)
{
    const char *more = phrase(&c->ctx, key);
    return text ? arena_format(c->arena, "%s %s", text, more) : more;
}

const char *wall_key_text(struct composition *c, const struct wall_key *drawn)
{
    struct wall_key key = *drawn;
    const char *text = NULL;
    see_others(c, &key);
    if (key.shows_edge)
        text = add(c, text, "wall.key.edge");
    if (key.shows_open)
        text = add(c, text, "wall.key.open");
    if (key.shows_ask)
        text = add(c, text, "wall.key.ask");
    if (c->sheet->plain.value) /* its arrows are words, and a small drawing has no dashes to tell */
        return text;
    const struct {
        bool is_shown;
        const char *key;
    } signs[] = {{key.shows_ring, "wall.key.ring"},     {key.shows_tick, "wall.key.tick"},
                 {key.shows_arrow, "wall.key.arrow"},   {key.shows_number, "wall.key.number"},
                 {key.shows_letter, "wall.key.letter"}, {key.shows_needed, "wall.key.needed"},
                 {key.shows_off, "wall.key.off"},       {key.lamp != NULL, key.lamp}};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
        if (signs[i].is_shown)
            text = add(c, text, signs[i].key);
    return text;
}
