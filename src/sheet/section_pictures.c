/* The sections that are pictures, and the card to cut out. */
#include "sheet/draw.h"

static void add_picture(struct block_builder *out, const struct picture *picture)
{
    builder_picture(out, picture->scene, picture->caption, picture->alternative);
}

const struct photo *section_photo_of(struct composition *c, const char **alternative)
{
    const struct photo_plan *plan = &c->plan->patient.photo;
    if (!plan->jpeg)
        return NULL;
    struct photo *photo = ARENA_NEW(c->arena, struct photo);
    *photo = (struct photo){plan->jpeg, plan->length, plan->width_px, plan->height_px};
    *alternative = phrase(&c->ctx, "picture.photo.alternative");
    return photo;
}

void section_photo(struct composition *c, struct block_builder *out)
{
    const char *alternative = NULL;
    const struct photo *photo = section_photo_of(c, &alternative);
    if (photo)
        builder_photo(out, photo, alternative);
}

void section_enclosure(struct composition *c, struct block_builder *out)
{
    struct picture picture;
    if (!draw_enclosure(c, &picture))
        return;
    if (!c->sheet->compact.value) /* there its caption does */
        section_title(c, out, "picture.enclosure.title");
    add_picture(out, &picture);
}

static void add_titled(struct composition *c, struct block_builder *out, const char *title,
                       bool (*draw)(struct composition *, struct picture *))
{
    struct picture picture;
    if (!draw(c, &picture))
        return;
    section_title(c, out, title);
    add_picture(out, &picture);
}

void section_bands(struct composition *c, struct block_builder *out)
{
    add_titled(c, out, "picture.bands.title", draw_bands);
}

void section_week(struct composition *c, struct block_builder *out)
{
    add_titled(c, out, "picture.week.title", draw_week);
}

void section_week_large(struct composition *c, struct block_builder *out)
{
    add_titled(c, out, "picture.week.title", draw_week_large);
}

void section_uvi_map(struct composition *c, struct block_builder *out)
{
    add_titled(c, out, "picture.uvi-map.title", draw_uvi_map);
}

void section_weight(struct composition *c, struct block_builder *out)
{
    struct picture picture;
    if (!draw_weight(c, &picture))
        return;
    section_title(c, out, "picture.weight.title");
    const struct growth_plan *growth = &c->plan->growth;
    section_sentence(c, out,
                     growth->weight == WEIGHT_FALLING_FAST ? "sheet.weight.fell-fast"
                     : growth->change_percent < 0          ? "sheet.weight.fell"
                                                           : "sheet.weight.rose");
    add_picture(out, &picture);
}

/* ---- the emergency card ---------------------------------------------------------------- */

static void add_card_words(struct composition *c, struct block_builder *out)
{
    builder_spans(out, span_strong(c->arena, phrase(&c->ctx, "picture.card.call")), PARAGRAPH_BODY);
    builder_paragraph(out, phrase(&c->ctx, "picture.card.who"));
    builder_paragraph(out, phrase(&c->ctx, "picture.card.signs"));
    struct block *list = builder_list(out, LIST_BULLETS);
    for (size_t i = 0; i < c->plan->warning_count; i++) {
        const struct warning *warning = &c->plan->warnings[i];
        if (warning->tier == TIER_NOW)
            list_add(c->arena, list, span_plain(c->arena, section_sign(c, warning)));
    }
}

void section_card(struct composition *c, struct block_builder *out)
{
    struct block_builder words = builder_start(c->arena, out->section), code = words,
                         inside = words;
    struct picture picture;
    add_card_words(c, &words);
    if (draw_qr(c, &picture))
        add_picture(&code, &picture);
    builder_beside(&inside, &words, &code, 0.7);
    section_title(c, out, "picture.card.title");
    builder_callout(out, CALLOUT_CUT_OUT, phrase(&c->ctx, "picture.card.heading"), &inside)
        ->keep_together = true;
}
