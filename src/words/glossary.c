/* Looks for each term in reading order and puts its meaning behind the first. */
#include "words/glossary.h"

#include <ctype.h>
#include <string.h>

#include "document/block_builder.h"

struct term {
    const struct wording_entry *word;
    bool is_in_panels; /* once mark_in_panels was there */
};

struct glossary {
    const struct phrase_context *ctx;
    struct arena *arena;
    struct term *terms; /* those not explained yet */
    size_t count;
};

static struct glossary read_terms(const struct phrase_context *ctx)
{
    const struct wording *words = ctx->format.words;
    struct arena *arena = ctx->format.arena;
    struct glossary g = {
        .ctx = ctx, .arena = arena, .terms = ARENA_ARRAY(arena, struct term, words->terms.count)};
    for (; g.count < words->terms.count; g.count++)
        g.terms[g.count].word = words->terms.entries[g.count];
    return g;
}

static const char *meaning_of(const struct glossary *g, const struct term *term)
{
    const char *key = term->word->key;
    const size_t length = catalogue_code_length(key, WORDING_TERM, WORDING_TERM_LAST);
    return phrase(g->ctx, arena_format(g->arena, WORDING_TERM "%.*s.means", (int)length,
                                       key + strlen(WORDING_TERM)));
}

/* ---- finding ------------------------------------------------------------------------------ */

static bool is_letter(char c)
{
    const unsigned char byte = (unsigned char)c, small = byte | 0x20;
    return byte >= 0x80 || (byte >= '0' && byte <= '9') || (small >= 'a' && small <= 'z');
}

/* A number is held to its unit by a blank that does not break, which is no letter. */
static bool begins_word(const char *text, const char *at)
{
    return at == text || !is_letter(at[-1]) ||
           (at - text > 1 && memcmp(at - 2, "\xc2\xa0", 2) == 0);
}

static char small_of(char c)
{
    return (char)tolower((unsigned char)c);
}

static char capital_of(char c)
{
    return (char)toupper((unsigned char)c);
}

/* The word stands at `at` whole; its first letter may be a capital. */
static bool stands_at(const char *text, const char *at, const char *word)
{
    const size_t length = strlen(word);
    return (*at == small_of(*word) || *at == capital_of(*word)) &&
           strncmp(at + 1, word + 1, length - 1) == 0 && !is_letter(at[length]) &&
           begins_word(text, at);
}

/* Most letters of a text begin none. */
static bool holds_word(const char *text, const char *word)
{
    const char small = small_of(*word), capital = capital_of(*word);
    for (const char *at = text; *at; at++)
        if ((*at == small || *at == capital) && stands_at(text, at, word))
            return true;
    return false;
}

/* One of the ways to write a term; NULL where it has a slot. */
static const char *way_of(const struct wording_entry *word, size_t i)
{
    const struct wording_phrase *phrase = &word->alternatives[i].forms[0];
    return phrase->count == 1 ? phrase->pieces[0].text : NULL;
}

static bool stands_in(const char *text, const struct wording_entry *word)
{
    for (size_t i = 0; i < word->count; i++) {
        const char *way = way_of(word, i);
        if (way && holds_word(text, way))
            return true;
    }
    return false;
}

static struct span *find_term(struct span *text, const struct wording_entry *word)
{
    while (text && !stands_in(text->text, word))
        text = text->next;
    return text;
}

/* ---- explaining ---------------------------------------------------------------------------- */

/* A label stays with what it is the label of. */
static bool is_label(const struct span *span)
{
    size_t length = strlen(span->text);
    return length > 0 && span->text[length - 1] == ':';
}

/* The meaning is a sentence of its own; what stands before it becomes one. */
static struct span *meaning(struct glossary *g, const struct span *before, const char *means)
{
    size_t length = strlen(before->text);
    bool ended = length == 0 || strchr(".!?:", before->text[length - 1]) != NULL;
    return span_plain(g->arena, arena_format(g->arena, "%s %s", ended ? "" : ".", means));
}

/* Behind the stretch that holds the word, else at the end. */
static void put(struct glossary *g, struct span *behind, struct span **where, const char *means)
{
    if (!*where) {
        *where = span_plain(g->arena, means);
        return;
    }
    if (!behind || is_label(behind))
        for (behind = *where; behind->next;)
            behind = behind->next;
    struct span *said = meaning(g, behind, means);
    said->next = behind->next;
    behind->next = said;
}

/* Explains every new word of `text`, there or, when `where` is another text, behind that. */
static void explain(struct glossary *g, struct span *text, struct span **where)
{
    size_t kept = 0, count = g->count;
    for (size_t i = 0; i < count; i++) {
        struct span *found = find_term(text, g->terms[i].word);
        if (found)
            put(g, *where == text ? found : NULL, where, meaning_of(g, &g->terms[i]));
        else
            g->terms[kept++] = g->terms[i];
    }
    g->count = kept;
}

/* A row's head is a name; what it means stands in the cell beside it. */
static void explain_row(struct glossary *g, struct table_row *row)
{
    for (struct table_cell *cell = row->cells; cell; cell = cell->next) {
        struct table_cell *where = cell;
        while (where->is_row_head && where->next)
            where = where->next;
        explain(g, cell->text, &where->text);
    }
}

static void explain_blocks(struct glossary *g, struct block *blocks)
{
    for (struct block *block = blocks; block && g->count > 0; block = block->next) {
        switch (block->kind) {
        case BLOCK_PARAGRAPH:
            explain(g, block->as.paragraph.text, &block->as.paragraph.text);
            break;
        case BLOCK_LIST:
            for (struct list_item *item = block->as.list.items; item; item = item->next) {
                explain(g, item->text, &item->text);
                explain_blocks(g, item->more);
            }
            break;
        case BLOCK_TABLE:
            for (struct table_row *row = block->as.table.rows; row; row = row->next)
                explain_row(g, row);
            break;
        case BLOCK_CALLOUT:
            explain_blocks(g, block->as.callout.blocks);
            break;
        case BLOCK_COLUMNS:
            for (struct column *column = block->as.columns.columns; column; column = column->next)
                explain_blocks(g, column->blocks);
            break;
        case BLOCK_PICTURE:
            explain(g, block->as.picture.caption, &block->as.picture.caption);
            break;
        default:
            break;
        }
    }
}

/* ---- panels ---- */

enum { SEARCHED_MOST = 64, BYTES = 256 }; /* a bit a term */

/* All terms are looked for in one pass over a text, and a block of a trial remembers what it holds.
 */
struct search {
    const struct term *terms;
    size_t count;
    bool has_all;               /* a block can remember no more than that */
    uint64_t begin_with[BYTES]; /* the terms that this byte may begin */
    uint64_t go_on_with[BYTES]; /* and those that have it second; of one letter, any */
    uint64_t found;
};

static struct search start_search(const struct glossary *g, size_t from)
{
    const size_t left = g->count - from;
    struct search search = {.terms = g->terms + from,
                            .count = left < SEARCHED_MOST ? left : SEARCHED_MOST,
                            .has_all = g->count <= SEARCHED_MOST};
    for (size_t i = 0; i < search.count; i++)
        for (size_t k = 0; k < search.terms[i].word->count; k++) {
            const char *way = way_of(search.terms[i].word, k);
            if (!way)
                continue;
            search.begin_with[(unsigned char)small_of(*way)] |= UINT64_C(1) << i;
            search.begin_with[(unsigned char)capital_of(*way)] |= UINT64_C(1) << i;
            for (size_t byte = 0; byte < BYTES && !way[1]; byte++)
                search.go_on_with[byte] |= UINT64_C(1) << i;
            search.go_on_with[(unsigned char)way[1]] |= UINT64_C(1) << i;
        }
    return search;
}

static bool term_stands_at(const char *text, const char *at, const struct wording_entry *word)
{
    for (size_t i = 0; i < word->count; i++) {
        const char *way = way_of(word, i);
        if (way && stands_at(text, at, way))
            return true;
    }
    return false;
}

static void search_text(void *context, const char *text, bool is_drawn)
{
    struct search *search = context;
    if (!is_drawn)
        return;
    for (const char *at = text; *at; at++) {
        const uint64_t perhaps = search->begin_with[(unsigned char)*at] &
                                 search->go_on_with[(unsigned char)at[1]] & ~search->found;
        if (!perhaps || (at > text && is_letter(at[-1]) && at[-1] != '\xa0') ||
            !begins_word(text, at))
            continue;
        for (uint64_t left = perhaps; left; left &= left - 1) {
            const uint64_t bit = left & -left; /* the lowest */
            if (term_stands_at(text, at, search->terms[__builtin_ctzll(bit)].word))
                search->found |= bit;
        }
    }
}

static void search_panel(struct search *search, const struct block *block)
{
    struct block_memory *memory = search->has_all ? block->memory : NULL;
    if (memory && memory->knows_terms) {
        search->found |= memory->terms;
        return;
    }
    const uint64_t before = search->found;
    search->found = 0;
    panel_each_text(block->as.panel, search_text, search);
    if (memory) {
        memory->terms = search->found;
        memory->knows_terms = true;
    }
    search->found |= before;
}

static void search_panels(struct search *search, const struct block *block)
{
    for (; block; block = block->next) {
        if (block->kind == BLOCK_PANEL)
            search_panel(search, block);
        if (block->kind == BLOCK_COLUMNS)
            for (const struct column *c = block->as.columns.columns; c; c = c->next)
                search_panels(search, c->blocks);
        if (block->kind != BLOCK_PAGE)
            continue;
        search_panels(search, block->as.page.blocks);
        search_panels(search, block->as.page.foot);
    }
}

static void mark_in_panels(const struct glossary *g, const struct block *blocks)
{
    for (size_t from = 0; from < g->count; from += SEARCHED_MOST) {
        struct search search = start_search(g, from);
        search_panels(&search, blocks);
        for (size_t i = 0; i < search.count; i++)
            g->terms[from + i].is_in_panels = search.found >> i & 1;
    }
}

/* Pages that are filled hold panels alone. */
static bool has_running_text(const struct block *block)
{
    while (block && block->kind == BLOCK_PAGE)
        block = block->next;
    return block != NULL;
}

const char *glossary_of_panels(const struct phrase_context *ctx, const struct block *blocks)
{
    struct glossary g = read_terms(ctx);
    const char *text = NULL;
    mark_in_panels(&g, blocks);
    for (size_t i = 0; i < g.count; i++) {
        if (!g.terms[i].is_in_panels)
            continue;
        const char *means = meaning_of(&g, &g.terms[i]);
        text = text ? arena_format(g.arena, "%s %s", text, means) : means;
    }
    return text;
}

void glossary_explain(const struct phrase_context *ctx, struct block *blocks,
                      bool panels_are_explained)
{
    if (!has_running_text(blocks))
        return;
    struct glossary g = read_terms(ctx);
    if (panels_are_explained)
        mark_in_panels(&g, blocks);
    for (size_t i = 0; panels_are_explained && i < g.count;)
        if (g.terms[i].is_in_panels)
            g.terms[i] = g.terms[--g.count];
        else
            i++;
    explain_blocks(&g, blocks);
}
