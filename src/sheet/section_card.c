/* The emergency card for a wallet: whom to call on one face, when to go at once on the other. */
#include "base/strbuf.h"
#include "sheet/wall.h"

/* ---- whom to call ---- */

static void add_line(struct composition *c, struct panel *panel, const char *name, const char *text)
{
    if (!text)
        return;
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    entry->title = phrase_code(&c->ctx, "wall.card.name", name);
    entry->text = text;
}

static void write_front(struct composition *c, struct panel *panel)
{
    panel->title = c->plan->patient.name.text;
    panel->text = wall_kind_text(c);
    panel->is_solid = !c->is_signed;
    panel->small = wall_state_text(c);
    panel->telephones = wall_telephones(c);
    add_line(c, panel, "where", phrase_if_known(&c->ctx, "wall.go-now.where"));
    add_line(c, panel, "open", phrase_if_known(&c->ctx, "sheet.open"));
    add_line(c, panel, "keeper", phrase(&c->ctx, "wall.card.keeper"));
}

/* ---- when to go at once ---- */

/* The short form, where there is one: what is not long anyway. */
static const char *short_sign(struct composition *c, const struct warning *warning)
{
    const char *text =
        warning->already
            ? NULL
            : phrase_if_worded(&c->ctx, arena_format(c->arena, "sign.%s.card", warning->code));
    return text && *text ? text : section_sign(c, warning);
}

/* What was raised for this animal alone stands first, as it stands in no group. */
static void add_signs(struct composition *c, struct panel *panel, enum alarm alarm)
{
    struct strbuf text;
    strbuf_init(&text, c->arena);
    for (size_t i = 0; i < c->plan->warning_count; i++) {
        const struct warning *warning = &c->plan->warnings[i];
        const char *sign =
            warning->tier == TIER_NOW && warning->alarm == alarm ? short_sign(c, warning) : "";
        if (*sign)
            strbuf_addf(&text, "%s%s.", text.length ? " " : "", sign);
    }
    if (!text.length)
        return;
    struct panel_entry *entry = wall_entry(c, &panel->second);
    entry->title = phrase_code(&c->ctx, "wall.card.alarm",
                               alarm ? bind_choice_word(alarm_choices, (int)alarm) : "own");
    entry->text = text.text;
    entry->pictogram = alarm ? wall_alarm_pictogram(alarm) : NULL;
    entry->is_strong = !alarm;
}

void section_wallet_card(struct composition *c, struct block_builder *out)
{
    builder_paragraph(out, phrase(&c->ctx, "wall.card.how"));
    struct panel *panel = wall_panel(c, out, PANEL_CARD);
    write_front(c, panel);
    panel->second_title = phrase(&c->ctx, "wall.go-now");
    panel->after = phrase(&c->ctx, "wall.card.left");
    for (int alarm = ALARM_NONE; alarm < ALARM_COUNT; alarm++)
        add_signs(c, panel, (enum alarm)alarm);
}
