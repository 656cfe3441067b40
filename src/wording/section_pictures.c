/* The sections that are pictures, and the card to cut out. */
#include "wording/draw.h"

static void add_picture(struct chain *out, const struct picture *picture)
{
    chain_picture(out, picture->scene, picture->caption, picture->alternative);
}

void section_enclosure(struct composition *c, struct chain *out)
{
    struct picture picture;
    if (!draw_enclosure(c, &picture))
        return;
    if (!c->sheet->compact.value) /* there its caption does */
        section_title(c, out, "picture.enclosure.title");
    add_picture(out, &picture);
}

void section_bands(struct composition *c, struct chain *out)
{
    struct picture picture;
    if (!draw_bands(c, &picture))
        return;
    section_title(c, out, "picture.bands.title");
    add_picture(out, &picture);
}

void section_weight(struct composition *c, struct chain *out)
{
    struct picture picture;
    if (!draw_weight(c, &picture))
        return;
    section_title(c, out, "picture.weight.title");
    section_sentence(c, out, "sheet.weight.change");
    add_picture(out, &picture);
}

/* ---- the emergency card ---------------------------------------------------------------- */

static void add_card_words(struct composition *c, struct chain *out)
{
    chain_spans(out, span_strong(c->arena, say(&c->speech, "picture.card.call")), PARAGRAPH_BODY);
    chain_paragraph(out, say(&c->speech, "picture.card.who"));
    chain_paragraph(out, say(&c->speech, "picture.card.signs"));
    struct block *list = chain_list(out, LIST_BULLETS);
    for (size_t i = 0; i < c->plan->warning_count; i++) {
        const struct warning *warning = &c->plan->warnings[i];
        if (warning->tier == TIER_NOW)
            list_add(c->arena, list,
                     span_plain(c->arena, say_code(&c->speech, "sign", warning->code)));
    }
}

void section_card(struct composition *c, struct chain *out)
{
    struct chain words = chain_start(c->arena, out->section), code = words, inside = words;
    struct picture picture;
    add_card_words(c, &words);
    if (draw_qr(c, &picture))
        add_picture(&code, &picture);
    chain_beside(&inside, &words, &code, 0.7);
    section_title(c, out, "picture.card.title");
    chain_callout(out, CALLOUT_CUT_OUT, say(&c->speech, "picture.card.heading"), &inside)
        ->keep_together = true;
}
