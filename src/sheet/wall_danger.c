/* When to go at once, when to call, and what to take care of. */
#include <string.h>

#include "base/strbuf.h"
#include "sheet/wall.h"

/* ---- go now ---- */

static const char *sign_text(struct composition *c, const struct warning *warning)
{
    return warning->already ? phrase_part(&c->ctx, "sign", warning->code, "worse")
                            : phrase_code(&c->ctx, "sign", warning->code);
}

/* Every sign of the tier in one group, whole, with its qualifier: "..., ... . ..." */
static const char *alarm_text(struct composition *c, enum alarm alarm)
{
    struct strbuf text;
    strbuf_init(&text, c->arena);
    for (size_t i = 0; i < c->plan->warning_count; i++) {
        const struct warning *warning = &c->plan->warnings[i];
        const char *sign =
            warning->tier == TIER_NOW && warning->alarm == alarm ? sign_text(c, warning) : "";
        if (*sign)
            strbuf_addf(&text, "%s%s.", text.length ? " " : "", sign);
    }
    return text.length ? text.text : NULL;
}

/* Where the message is short the address stands in the page's foot alone. */
static bool leaves_address_out(const struct composition *c)
{
    return c->entry->page.count > 0 && !c->plan->go_now && !section_says_address(c);
}

/* Where we are, when we are open and whom to ask where to go when we are not, below the telephones.
 */
static const char *where_text(struct composition *c, bool has_address)
{
    static const char *const keys[] = {"wall.go-now.where", "sheet.open", "wall.go-now.closed"};
    const char *all = NULL;
    for (size_t i = has_address ? 0 : 1; i < sizeof keys / sizeof *keys; i++) {
        const char *text = phrase_if_known(&c->ctx, keys[i]);
        if (text)
            all = all ? arena_format(c->arena, "%s %s", all, text) : text;
    }
    return all;
}

static struct panel *write_go_now(struct composition *c, struct block_builder *out,
                                  bool has_address)
{
    struct panel *panel = wall_panel(c, out, PANEL_ALERT);
    panel->title = phrase(&c->ctx, "wall.go-now");
    panel->telephones = wall_telephones(c);
    panel->aside = where_text(c, has_address);
    /* what was raised for this animal alone and stands in no group */
    const char *own = alarm_text(c, ALARM_NONE);
    panel->text = own ? wall_phrase(c, "wall.go-now.own", "what", own, NULL, NULL) : NULL;
    for (int alarm = ALARM_NONE + 1; alarm < ALARM_COUNT; alarm++) {
        const char *text = alarm_text(c, (enum alarm)alarm);
        if (!text)
            continue;
        struct panel_entry *entry = wall_entry(c, &panel->entries);
        entry->pictogram = wall_alarm_pictogram((enum alarm)alarm);
        entry->text = text;
    }
    return panel;
}

void section_wall_go_now(struct composition *c, struct block_builder *out)
{
    write_go_now(c, out, !leaves_address_out(c));
}

void section_wall_go_now_page(struct composition *c, struct block_builder *out)
{
    write_go_now(c, out, true)->is_large = true;
}

/* Who has moved away has another clinic. */
void section_wall_own_clinic(struct composition *c, struct block_builder *out)
{
    wall_panel(c, out, PANEL_NOTES)->title = phrase(&c->ctx, "wall.own-clinic");
}

/* ---- calls ---- */

static void add_calls(struct composition *c, enum tier tier, struct panel_entry **list)
{
    /* the animal's own first, and the weight last in bold: it is the one that is measured */
    for (int last = 0; last <= 1; last++) {
        for (size_t i = 0; i < c->plan->warning_count; i++) {
            const struct warning *warning = &c->plan->warnings[i];
            bool weight = strcmp(warning->code, "weight-loss") == 0;
            if (warning->tier != tier || weight != last)
                continue;
            const char *sign = sign_text(c, warning);
            if (!*sign)
                continue;
            struct panel_entry *entry = wall_entry(c, list);
            entry->text = sign;
            entry->is_strong = weight;
        }
    }
}

/* Where there is no room: a list as a paragraph, each item behind its sign. */
static const char *run_on(struct composition *c, const struct panel_entry *entries)
{
    struct strbuf text;
    strbuf_init(&text, c->arena);
    for (const struct panel_entry *e = entries; e; e = e->next)
        strbuf_addf(&text, "%s" WALL_ITEM_SIGN "%s", text.length ? " " : "", e->text);
    return text.length ? text.text : NULL;
}

/* The second list in a paragraph of its own, or behind the first one. */
static void write_second(struct composition *c, struct block_builder *out, struct panel *panel)
{
    const char *text = run_on(c, panel->second);
    const char *title = section_with_text(c, "sheet.run-in", "name", panel->second_title);
    panel->second = NULL;
    if (!text)
        return;
    if (!section_is_close(c, CLOSE_PARAGRAPHS))
        panel = wall_panel(c, out, PANEL_TEXT);
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    entry->title = title;
    entry->text = text;
}

/* The first list as a paragraph; the weight, which is measured, in bold. */
static void write_first(struct composition *c, struct panel *panel)
{
    struct panel_entry *all = panel->entries, *weight = NULL;
    for (struct panel_entry **e = &all; *e; e = &(*e)->next)
        if ((*e)->is_strong) {
            weight = *e;
            *e = NULL; /* it is the last */
            break;
        }
    const char *text = run_on(c, all);
    panel->entries = NULL;
    panel->is_small = true;
    if (text)
        wall_entry(c, &panel->entries)->text = text;
    if (weight) {
        struct panel_entry *entry = wall_entry(c, &panel->entries);
        *entry = *weight;
        entry->text = arena_format(c->arena, WALL_ITEM_SIGN "%s.", weight->text);
    }
}

void section_wall_calls(struct composition *c, struct block_builder *out)
{
    struct panel *panel = wall_panel(c, out, PANEL_CALLS);
    panel->title = phrase(&c->ctx, "wall.call-today");
    panel->second_title = phrase(&c->ctx, "wall.call-week");
    panel->telephones = wall_telephones(c);
    add_calls(c, TIER_TODAY, &panel->entries);
    add_calls(c, TIER_SOON, &panel->second);
    bool has_first = panel->entries != NULL;
    if (section_is_close(c, CLOSE_PARAGRAPHS))
        write_first(c, panel);
    if (section_in_brief(c) && has_first)
        write_second(c, out, panel);
}

/* ---- cautions ---- */

/* The sign of a caution; a kind's own variant of it begins with the same code. */
static const struct pictogram *caution_pictogram(const char *code)
{
    static const struct {
        const char *code;
        bool is_named;
        int name;
    } rows[] = {{"salmonella-hygiene", false, WALL_PICTOGRAM_HAND},
                {"who-should-not-handle", false, WALL_PICTOGRAM_PEOPLE},
                {"burns-and-guards", true, PICTOGRAM_GUARD},
                {"electrical-safety", false, WALL_PICTOGRAM_PLUG},
                {"medicines-as-written", true, PICTOGRAM_PILL}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (strncmp(code, rows[i].code, strlen(rows[i].code)) == 0)
            return rows[i].is_named ? wall_pictogram((enum pictogram_name)rows[i].name)
                                    : wall_other_pictogram((enum wall_pictogram)rows[i].name);
    return NULL;
}

/* Those of the plan that have words for here; the others stand in their own places. */
void section_wall_cautions(struct composition *c, struct block_builder *out)
{
    struct panel *panel = wall_panel(c, out, section_in_brief(c) ? PANEL_TEXT : PANEL_SIGNS);
    for (size_t i = 0; i < c->plan->caution_count; i++) {
        const char *code = c->plan->cautions[i];
        const char *text =
            phrase_if_worded(&c->ctx, arena_format(c->arena, "wall.caution.%s", code));
        if (!text || !*text)
            continue;
        if (section_in_brief(c)) { /* one paragraph behind its heading */
            if (!panel->entries)
                wall_entry(c, &panel->entries)->title =
                    section_with_text(c, "sheet.run-in", "name", phrase(&c->ctx, "wall.safety"));
            struct panel_entry *all = panel->entries;
            all->text = all->text ? arena_format(c->arena, "%s %s", all->text, text) : text;
            continue;
        }
        panel->title = phrase(&c->ctx, "wall.safety");
        struct panel_entry *entry = wall_entry(c, &panel->entries);
        entry->pictogram = caution_pictogram(code);
        entry->text = text;
    }
}
