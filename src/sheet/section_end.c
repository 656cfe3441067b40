/* The set-up list, sources and who signed. */
#include <string.h>

#include "base/strbuf.h"
#include "sheet/sections.h"

/* ---- set-up list ---------------------------------------------------------------------- */

/* Bullets that say something only where the plan has the number. */
void section_setup_list(struct composition *c, struct block_builder *out)
{
    bool lives_in_water = c->plan->measured[ZONE_WATER].applies;
    const char *const keys[] = {
        "sheet.setup.size",
        "sheet.setup.basking",
        "sheet.setup.warm",
        "sheet.setup.cool",
        "sheet.setup.night",
        "sheet.setup.water",
        "sheet.setup.limit",
        "sheet.setup.thermostat",
        "sheet.setup.guard",
        "sheet.setup.probes",
        "sheet.setup.humidity",
        "sheet.setup.light",
        "sheet.setup.hours",
        "sheet.setup.hides",
        c->plan->humidity.moist_hide ? "sheet.setup.moist-hide" : NULL,
        "sheet.setup.floor",
        lives_in_water ? "sheet.setup.clean-water" : "sheet.setup.dish",
        "sheet.setup.food",
        "sheet.setup.scale",
        "sheet.setup.papers",
        "sheet.setup.run",
    };
    section_title(c, out, "sheet.setup.title");
    builder_paragraph(out, phrase(&c->ctx, "sheet.setup.how"));
    struct block *list = builder_list(out, LIST_TICK_BOXES);
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        if (keys[i])
            section_bullet(c, list, keys[i]);
}

/* ---- sources ---------------------------------------------------------------------------- */

static bool cites(const struct derivations *how, const char *text)
{
    for (const struct derivation *d = how->first; d; d = d->next)
        if (d->source && strcmp(d->source, text) == 0)
            return true;
    return false;
}

/* The publication of a formula, not of a value that stands on the sheet. */
static bool is_of_formula(const struct care_plan *plan, const char *text)
{
    return cites(&plan->humidity.how, text) || cites(&plan->uvb.how, text) ||
           cites(&plan->growth.how, text) || cites(&plan->feeding.how, text);
}

static const char *trust_key(enum trust trust)
{
    static const char *const keys[] = {
        [TRUST_ORIGINAL] = "sheet.trust.original",
        [TRUST_COPY] = "sheet.trust.copy",
        [TRUST_MEMORY] = "sheet.trust.memory",
    };
    return keys[trust];
}

/* Who and where: up to the second comma outside of brackets. The table or page of it is in the full
 * list. */
static size_t named_length(const char *text)
{
    int commas = 0, depth = 0;
    size_t length = 0;
    for (; text[length] && commas < 2; length++) {
        depth += (text[length] == '(') - (text[length] == ')');
        commas += text[length] == ',' && depth == 0;
    }
    return commas == 2 ? length - 1 : length;
}

/* Without the remark that it was read from memory: that is for explain and for a review. */
static size_t owner_length(const char *text, size_t length)
{
    const char *remark = strstr(text, "from memory");
    if (!remark || remark >= text + length)
        return length;
    while (remark > text && *remark != ',' && *remark != ';')
        remark--;
    return remark > text ? (size_t)(remark - text) : length;
}

static bool is_listed(const struct strbuf *list, const char *text, size_t length)
{
    for (const char *at = list->text; list->length && (at = memmem(at, strlen(at), text, length));
         at++)
        if ((at == list->text || at[-1] == ' ') && (!at[length] || at[length] == ';'))
            return true;
    return false;
}

/* The hung sheet names so many, those read in the original first; the full list has them all. */
enum { SOURCES_NAMED_IN_BRIEF = 3 };

/* All sources of one trust that there is room to name, behind its words. */
static struct span *sources_text(struct composition *c, enum trust trust, size_t *room)
{
    struct strbuf sourced;
    strbuf_init(&sourced, c->arena);
    if (c->sheet->compact.value && trust == TRUST_MEMORY)
        return span_plain(c->arena, phrase(&c->ctx, "sheet.sources.practice"));
    for (size_t i = 0; i < c->plan->source_count && *room; i++) {
        const struct plan_source *source = &c->plan->sources[i];
        if (source->trust != trust ||
            (c->sheet->compact.value && is_of_formula(c->plan, source->text)))
            continue;
        size_t length =
            owner_length(source->text, c->sheet->compact.value ? named_length(source->text)
                                                               : strlen(source->text));
        if (trust == TRUST_MEMORY && is_listed(&sourced, source->text, length))
            continue;
        strbuf_addf(&sourced, "%s%.*s", sourced.length ? "; " : "", (int)length, source->text);
        *room -= 1;
    }
    if (sourced.length == 0)
        return NULL;
    strbuf_add_char(&sourced, '.');
    return span_join(c->arena, span_strong(c->arena, phrase(&c->ctx, trust_key(trust))),
                     span_plain(c->arena, sourced.text));
}

void section_sources(struct composition *c, struct block_builder *out)
{
    bool compact = c->sheet->compact.value;
    if (c->plan->source_count == 0)
        return;
    struct span *text = NULL;
    if (compact)
        text = span_strong(c->arena, section_with_text(c, "sheet.run-in", "name",
                                                       phrase(&c->ctx, "sheet.sources.title")));
    else
        section_title(c, out, "sheet.sources.title");
    size_t room = compact ? SOURCES_NAMED_IN_BRIEF : c->plan->source_count;
    for (int trust = TRUST_ORIGINAL; trust <= TRUST_MEMORY && !section_in_brief(c); trust++) {
        struct span *sourced = sources_text(c, (enum trust)trust, &room);
        if (sourced)
            text =
                compact ? span_join(c->arena, text, sourced) : span_below(c->arena, text, sourced);
    }
    if (compact)
        text =
            span_join(c->arena, text, span_plain(c->arena, phrase(&c->ctx, "sheet.sources.more")));
    builder_spans(out, text, PARAGRAPH_SMALL);
}

/* ---- signature ----------------------------------------------------------------------------- */

/* Her reason may have no stop of its own, and a sentence follows it. */
static const char *reason_text(struct composition *c, const char *because)
{
    return section_with_text(c, "sheet.signature.because", "because",
                             text_ended(c->arena, because));
}

static struct span *own_targets_text(struct composition *c)
{
    const struct own_targets_plan *own = &c->plan->own_targets;
    if (!own->any)
        return NULL;
    struct span *text = span_plain(
        c->arena, own->by ? section_with_text(c, "sheet.signature.own-targets", "by", own->by)
                          : phrase(&c->ctx, "sheet.signature.own-targets-clinic"));
    if (own->because)
        text = span_join(c->arena, text, span_plain(c->arena, reason_text(c, own->because)));
    return text;
}

static const char *signature_text(struct composition *c)
{
    if (!c->is_signed || !c->signed_by || !date_is_set(c->signed_on))
        return phrase(&c->ctx, "sheet.signature.draft");
    struct plan_fact on = {.name = "date",
                           .kind = FACT_TEXT,
                           .text = c->sheet->compact.value
                                       ? format_date_short(&c->ctx.format, c->signed_on)
                                       : format_date_long(&c->ctx.format, c->signed_on)};
    struct plan_fact by = {.name = "by", .kind = FACT_TEXT, .text = c->signed_by, .next = &on};
    struct phrase_context ctx = c->ctx;
    ctx.facts = &by;
    return phrase(&ctx, "sheet.signature.signed");
}

/* Who reviewed the sheet and how much is left, or that it is the clinic's own. */
static const char *own_species_text(struct composition *c)
{
    const struct taxon_plan *species = &c->plan->taxon;
    if (!species->review.by)
        return phrase(&c->ctx, "sheet.signature.own-species");
    double left_count = (double)species->review.left;
    struct plan_fact left = {
        .name = "count", .kind = FACT_COUNT, .low = left_count, .high = left_count};
    struct plan_fact on = {.name = "date",
                           .kind = FACT_TEXT,
                           .text = format_date_short(&c->ctx.format, species->review.on),
                           .next = &left};
    struct plan_fact by = {
        .name = "by", .kind = FACT_TEXT, .text = species->review.by, .next = &on};
    struct phrase_context ctx = c->ctx;
    ctx.facts = &by;
    const char *text = phrase(&ctx, "sheet.signature.reviewed");
    return species->review.left
               ? arena_format(c->arena, "%s %s", text, phrase(&ctx, "sheet.signature.left"))
               : text;
}

/* Text alone, behind what stands already. */
static const char *append_spans(struct composition *c, const char *text, const struct span *spans)
{
    for (; spans; spans = spans->next)
        text = arena_format(c->arena, "%s%s", text, spans->text);
    return text;
}

const char *section_sources_line(struct composition *c)
{
    const char *text =
        section_with_text(c, "sheet.run-in", "name", phrase(&c->ctx, "sheet.sources.title"));
    size_t room = SOURCES_NAMED_IN_BRIEF;
    for (int trust = TRUST_ORIGINAL; trust <= TRUST_MEMORY && !section_in_brief(c); trust++) {
        struct span *sourced = sources_text(c, (enum trust)trust, &room);
        if (sourced)
            text = append_spans(c, arena_format(c->arena, "%s ", text), sourced);
    }
    text = arena_format(c->arena, "%s %s", text, phrase(&c->ctx, "sheet.sources.more"));
    struct span *own = own_targets_text(c);
    text = own ? append_spans(c, arena_format(c->arena, "%s ", text), own) : text;
    if (c->plan->taxon.from_clinic)
        text = arena_format(c->arena, "%s %s", text, own_species_text(c));
    return arena_format(c->arena, "%s %s", text,
                        phrase_code(&c->ctx, "caution", "supports-not-replaces"));
}

void section_signature(struct composition *c, struct block_builder *out)
{
    struct span *text = NULL;
    /* on a compact sheet the mark on every page says that it is a draft */
    if (c->is_signed || !c->sheet->compact.value) {
        const char *title = c->is_signed ? "sheet.signature.title" : "sheet.signature.title-draft";
        text = span_join(c->arena, span_strong(c->arena, phrase(&c->ctx, title)),
                         span_plain(c->arena, signature_text(c)));
    }
    text = span_join(c->arena, text, own_targets_text(c));
    if (c->plan->taxon.from_clinic)
        text = span_join(c->arena, text, span_plain(c->arena, own_species_text(c)));
    if (text)
        builder_spans(out, text, c->sheet->compact.value ? PARAGRAPH_SMALL : PARAGRAPH_BODY);
}
