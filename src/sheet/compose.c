/* Walks the sections of a kind of sheet and has each written; fills in title, head and foot. */
#include "sheet/compose.h"

#include <math.h>
#include <string.h>

#include "sheet/contact_links.h"
#include "sheet/free_texts.h"

#include "document/plain_blocks.h"
#include "words/glossary.h"
#include "words/short_forms_read.h"
#include "sheet/wall.h"
#include "words/slots.h"

static section_writer *const writers[SECTION_COUNT] = {
#define SECTION_WRITER(code_, name_, ...) [SECTION_##code_] = section_##name_,
    SHEET_SECTIONS(SECTION_WRITER, SECTION_WRITER)
#undef SECTION_WRITER
};

/* ---- the look -------------------------------------------------------------------------- */

static struct rgb colour_of(const struct text_value *value)
{
    unsigned char read[3] = {0};
    look_read_colour(value->text, read);
    return (struct rgb){read[0], read[1], read[2]};
}

/* The look of the file, on this paper where it names none. The file was checked when it was read.
 */
static void compose_look(const struct look_file *file, enum clinic_paper paper, bool live_links,
                         struct look *out)
{
    const struct look_sizes *sizes = &file->sizes;
    const struct look_colours *colours = &file->colours;
    if (file->paper.known)
        paper = (enum clinic_paper)file->paper.value;
    *out = (struct look){
        .paper = paper == CLINIC_PAPER_LETTER ? PAPER_LETTER : PAPER_A4,
        .margin_pt = sizes->margin.value,
        .body_pt = sizes->body.value,
        .table_pt = sizes->table.value,
        .small_pt = sizes->small.value,
        .heading_pt = {sizes->title.value, sizes->section.value, sizes->part.value},
        .leading = sizes->leading.value,
        .inks = {[INK_TEXT] = colour_of(&colours->text),
                 [INK_MUTED] = colour_of(&colours->muted),
                 [INK_ACCENT] = colour_of(&colours->accent),
                 [INK_WARM] = colour_of(&colours->warm),
                 [INK_COOL] = colour_of(&colours->cool),
                 [INK_ALERT] = colour_of(&colours->alert),
                 [INK_LEAF] = colour_of(&colours->leaf),
                 [INK_PAPER] = colour_of(&colours->paper),
                 [INK_TINT] = colour_of(&colours->tint)},
        .live_links = live_links,
    };
}

static void set_closeness(enum closeness closeness, struct look *look)
{
    look->tight = closeness >= CLOSE_LINES;
    look->leads_in = closeness >= CLOSE_HEADINGS;
    look->boxes_flow = closeness >= CLOSE_BOXES;
    look->ticks_flow = closeness >= CLOSE_RUN_ON;
}

/* What a kind of sheet asks for over the look: its own pages, larger text. */
static void look_for_kind(const struct compose_inputs *inputs, struct look *look)
{
    const struct sheet_template *sheet = inputs->sheet;
    static const double PHONE_MARGIN_PT = 18;
    double share = sheet->text_pt.known ? sheet->text_pt.value / look->body_pt : 1;
    set_closeness(inputs->closeness, look);
    look->to_edges = inputs->to_edges;
    if (look->to_edges)
        look->margin_pt = fmin(look->margin_pt, LOOK_LEAST_MARGIN_PT);
    look->inset_pt = look->to_edges ? inputs->inset_pt : 0;
    look->close = sheet->compact.value;
    if (sheet->paper.known) {
        look->paper = PAPER_PHONE;
        look->margin_pt = PHONE_MARGIN_PT;
    }
    if (!sheet->text_pt.known)
        return;
    /* nothing is left smaller than the text itself */
    look->body_pt = look->table_pt = look->small_pt = sheet->text_pt.value;
    for (int level = 0; level < 3; level++)
        look->heading_pt[level] *= share;
}

/* ---- the whole ---------------------------------------------------------------------------- */

static bool is_in_brief(const struct composition *c, enum sheet_section_code code)
{
    const struct list *list = &c->sheet->in_brief;
    for (size_t i = 0; i < c->brief_count && i < list->count; i++)
        if (LIST_AT(*list, struct choice_value, i)->value == (int)code)
            return true;
    return false;
}

static struct block_builder write_anew(struct composition *c, enum sheet_section_code code)
{
    struct block_builder own =
        builder_start(c->arena, bind_choice_word(sheet_section_choices, (int)code));
    writers[code](c, &own);
    builder_drop_empty(&own);
    return own;
}

/* Whatever lasts longer than a trial is written in an arena that does. Returns the arena before. */
static struct arena *write_into(struct composition *c, struct arena *arena, uint64_t *asked)
{
    struct arena *before = c->arena;
    c->arena = c->ctx.format.arena = arena;
    c->state.asked = asked;
    return before;
}

/* Days are written in brief by format.is_brief, which does not say when it is asked. */
static uint64_t always_asked(void)
{
    return section_state_bit(ASK_CLOSE + CLOSE_BOXES);
}

static struct kept_section *write_kept(struct composition *c, enum sheet_section_code code)
{
    struct kept_section *kept = ARENA_NEW(c->kept->arena, struct kept_section);
    uint64_t *asked_before = c->state.asked;
    kept->asked = always_asked();
    struct arena *trial = write_into(c, c->kept->arena, &kept->asked);
    struct block_builder made = write_anew(c, code);
    for (struct block *block = made.first; block; block = block->next)
        block->memory = ARENA_NEW(c->arena, struct block_memory);
    write_into(c, trial, asked_before);
    kept->answers = c->state.answers;
    kept->blocks = made.first;
    kept->next = c->kept->sections[code];
    c->kept->sections[code] = kept;
    return kept;
}

/* As it was written in an earlier trial; a section can stand twice, so each has blocks of its own.
 */
static struct block_builder copy_kept(struct composition *c, enum sheet_section_code code)
{
    const struct kept_section *kept = c->kept->sections[code];
    struct block_builder own = builder_start(c->arena, NULL);
    while (kept && !section_state_is_same(kept->answers, kept->asked, &c->state))
        kept = kept->next;
    if (!kept)
        kept = write_kept(c, code);
    for (const struct block *block = kept->blocks; block; block = block->next) {
        struct block *copy = builder_add(&own, block->kind);
        *copy = *block;
        copy->next = NULL;
    }
    return own;
}

static void write_as_close(struct composition *c, enum closeness closeness)
{
    c->closeness = closeness;
    /* a bit for each up to this one */
    const uint64_t all =
        section_state_bit(ASK_CLOSE + CLOSENESS_COUNT) - section_state_bit(ASK_CLOSE);
    const uint64_t set =
        section_state_bit(ASK_CLOSE + closeness + 1) - section_state_bit(ASK_CLOSE);
    c->state.answers = (c->state.answers & ~all) | set;
    c->ctx.format.is_brief = closeness >= CLOSE_BOXES;
}

/* What is set less close than its sheet has a look of its own. */
static void give_look(struct composition *c, struct block *blocks)
{
    struct look *look = ARENA_NEW(c->arena, struct look);
    *look = *c->look;
    set_closeness(c->closeness, look);
    for (struct block *block = blocks; block; block = block->next)
        block->look = look;
}

static void write_section(struct composition *c, enum sheet_section_code code,
                          struct block_builder *out)
{
    const enum closeness of_sheet = c->closeness, opened = c->opened[code];
    section_state_set(&c->state, ASK_IN_BRIEF, is_in_brief(c, code));
    write_as_close(c, of_sheet > opened ? of_sheet - opened : CLOSE_AS_USUAL);
    section_state_set(&c->state, ASK_IS_OPENED, opened > 0);
    bool fills_later = code == SECTION_WORDS; /* by what stands on the pages */
    struct block_builder own = c->kept && !fills_later ? copy_kept(c, code) : write_anew(c, code);
    if (c->closeness != of_sheet)
        give_look(c, own.first);
    write_as_close(c, of_sheet);
    section_state_set(&c->state, ASK_IS_OPENED, false);
    builder_append(out, &own);
}

static struct block_builder write_column(struct composition *c, const struct list *codes)
{
    struct block_builder column = builder_start(c->arena, NULL);
    for (size_t i = 0; i < codes->count; i++) {
        int code = LIST_AT(*codes, struct choice_value, i)->value;
        write_section(c, (enum sheet_section_code)code, &column);
    }
    return column;
}

/* ---- pages that are filled ---- */

/* From the roomiest to the closest; the last ones leave out what may be left out (give_way). */
static const struct fit_step first_page_steps[] = {{8, 22, 0},   {6, 22, 0}, {4, 22, 0},
                                                   {2.5, 22, 0}, {4, 22, 1}, {2.5, 22, 2},
                                                   {0.5, 22, 2}, {0, 22, 2}};
static const struct fit_step later_page_steps[] = {
    {10, 25, 0}, {9, 23, 0},   {8, 22, 0},   {7, 21, 0},   {6, 20, 0},   {5, 19, 0},
    {4, 18, 0},  {3, 17.5, 0}, {1.5, 17, 0}, {3, 17.5, 1}, {1.5, 17, 1}, {1.5, 16, 1},
    {1, 15, 1},  {1.5, 16, 2}, {1, 15, 2},   {0.5, 14, 2}, {0, 14, 2}};

/* The first to be left out where a page is too full. On the way to a clinic the home can wait. */
static int give_way(const struct composition *c, enum sheet_section_code code)
{
    bool can_wait = c->plan->go_now && (code == SECTION_BOX || code == SECTION_LIMITS);
    if (code == SECTION_WORDS) /* a word that nobody explains is understood by nobody */
        return c->closeness >= CLOSE_RUN_ON && !c->says_known ? 2 : 0;
    return code == SECTION_NOTES || can_wait ? 1 : 0;
}

static void write_page_section(struct composition *c, enum sheet_section_code code,
                               struct block_builder *out)
{
    struct block_builder own = builder_start(c->arena, NULL);
    write_section(c, code, &own);
    for (struct block *block = own.first; block; block = block->next) {
        block->give_way = give_way(c, code);
        if (!block->memory)
            block->memory = ARENA_NEW(c->arena, struct block_memory);
        bool parts = code == SECTION_FINDINGS || code == SECTION_WATER_HERE;
        block->parts_page = parts && block == own.first;
    }
    if (code == SECTION_WORDS)
        c->words_block = own.first;
    builder_append(out, &own);
}

static bool is_beside_box(enum sheet_section_code code)
{
    return code == SECTION_STEPS || code == SECTION_LIMITS || code == SECTION_BOX;
}

/* What page one may have room for where a later page is too full: it is read there as well. In the
 * order of the bits of compose_inputs.moves_up. */
static const enum sheet_section_code moved_up[] = {SECTION_SOURCE_LINE, SECTION_CAUTION_SIGNS,
                                                   SECTION_SIX_WEEKS, SECTION_SIGNATURE_LINE};

static bool is_moved_up(const struct composition *c, enum sheet_section_code code)
{
    for (size_t i = 0; i < sizeof moved_up / sizeof *moved_up; i++)
        if (moved_up[i] == code)
            return c->moves_up & (1u << i);
    return false;
}

/* Small print stands below all else. */
static void write_moved_up(struct composition *c, bool is_small_print, struct block_builder *out)
{
    for (size_t i = 0; i < sizeof moved_up / sizeof *moved_up; i++)
        if (is_moved_up(c, moved_up[i]) && (moved_up[i] == SECTION_SOURCE_LINE) == is_small_print)
            write_page_section(c, moved_up[i], out);
}

static size_t list_memories(const struct column *columns, const struct block_memory **out)
{
    size_t count = 0;
    for (const struct column *column = columns; column; column = column->next) {
        for (const struct block *block = column->blocks; block; block = block->next, count++)
            if (out)
                out[count] = block->memory;
        if (out)
            out[count] = NULL;
        count++;
    }
    return count;
}

/* Side by side as well they take what they took in an earlier trial. */
static void remember_beside(struct composition *c, struct block *beside)
{
    if (!c->kept || beside->kind != BLOCK_COLUMNS)
        return;
    const size_t count = list_memories(beside->as.columns.columns, NULL);
    const struct block_memory **sides = ARENA_ARRAY(c->arena, const struct block_memory *, count);
    list_memories(beside->as.columns.columns, sides);
    struct kept_beside *kept = c->kept->besides;
    while (kept && (kept->count != count || memcmp(kept->sides, sides, count * sizeof *sides) != 0))
        kept = kept->next;
    if (!kept) {
        struct arena *arena = c->kept->arena;
        const struct block_memory **own = ARENA_ARRAY(arena, const struct block_memory *, count);
        memcpy(own, sides, count * sizeof *own);
        kept = ARENA_NEW(arena, struct kept_beside);
        *kept = (struct kept_beside){own, count, ARENA_NEW(arena, struct block_memory),
                                     c->kept->besides};
        c->kept->besides = kept;
    }
    beside->memory = kept->memory;
}

/* In a tall box the drawing stands beside the rows and the limits. */
static void write_tall(struct composition *c, const struct list *codes, struct block_builder *out)
{
    static const double LEFT_SHARE = 0.5;
    struct block_builder left = builder_start(c->arena, NULL), right = left;
    for (size_t i = 0; i < codes->count; i++) {
        int code = LIST_AT(*codes, struct choice_value, i)->value;
        if (is_beside_box((enum sheet_section_code)code))
            write_page_section(c, (enum sheet_section_code)code,
                               code == SECTION_BOX ? &right : &left);
    }
    builder_beside(out, &left, &right, LEFT_SHARE);
    if (out->last)
        remember_beside(c, out->last);
}

static bool is_beside_high(enum sheet_section_code code)
{
    return code == SECTION_LIMITS || code == SECTION_BOX;
}

/* In a box that is higher than long the limits stand beside the drawing, which takes their height.
 */
static void write_high(struct composition *c, struct block_builder *out)
{
    static const double DRAWING_SHARE = 0.73;
    struct block_builder left = builder_start(c->arena, NULL), right = left;
    write_page_section(c, SECTION_BOX, &left);
    write_page_section(c, SECTION_LIMITS, &right);
    builder_beside(out, &left, &right, DRAWING_SHARE);
    if (out->last)
        remember_beside(c, out->last);
}

static struct block *write_page_part(struct composition *c, const struct list *codes, bool takes_up)
{
    struct block_builder out = builder_start(c->arena, NULL);
    bool tall = wall_is_tall(c), high = !tall && wall_is_high(c), beside_done = false;
    for (size_t i = 0; i < codes->count; i++) {
        enum sheet_section_code code =
            (enum sheet_section_code)LIST_AT(*codes, struct choice_value, i)->value;
        if (is_moved_up(c, code) || (code == SECTION_NORMAL_HERE && c->without_normal))
            continue;
        if (tall ? !is_beside_box(code) : !high || !is_beside_high(code)) {
            write_page_section(c, code, &out);
            continue;
        }
        if (!beside_done && tall)
            write_tall(c, codes, &out);
        else if (!beside_done)
            write_high(c, &out);
        beside_done = true;
    }
    if (takes_up) { /* when to go now stands before what is good to know */
        write_moved_up(c, false, &out);
        write_moved_up(c, true, &out);
    }
    return out.first;
}

static void write_page(struct composition *c, const struct sheet_section *entry,
                       struct block_builder *out)
{
    bool first = out->first == NULL;
    struct block *page = builder_add(out, BLOCK_PAGE);
    page->as.page.blocks = write_page_part(c, &entry->page, false);
    page->as.page.foot = write_page_part(c, &entry->foot, first);
    page->as.page.running = write_page_part(c, &c->sheet->running, false);
    page->as.page.steps = first ? first_page_steps : later_page_steps;
    page->as.page.step_count = first ? sizeof first_page_steps / sizeof *first_page_steps
                                     : sizeof later_page_steps / sizeof *later_page_steps;
}

static void write_entry(struct composition *c, const struct sheet_section *entry,
                        struct block_builder *out)
{
    c->entry = entry;
    if (entry->page.count > 0) {
        write_page(c, entry, out);
        return;
    }
    if (entry->show.known) {
        write_section(c, (enum sheet_section_code)entry->show.value, out);
        return;
    }
    if (entry->columns.count > 0) {
        enum { SIDE_BY_SIDE = 2 };
        struct block_builder both = write_column(c, &entry->columns);
        builder_poured(out, &both, SIDE_BY_SIDE);
        return;
    }
    struct block_builder left = write_column(c, &entry->left),
                         right = write_column(c, &entry->right);
    double share = entry->share_percent.known ? entry->share_percent.value / 100 : 0.5;
    builder_beside(out, &left, &right, share);
}

static bool fills_pages(const struct sheet_template *sheet)
{
    return sheet->sections.count > 0 &&
           LIST_AT(sheet->sections, struct sheet_section, 0)->page.count > 0;
}

static void fill_heads(struct composition *c, struct document *document)
{
    const struct phrase_context *ctx = &c->ctx;
    const struct care_plan *plan = c->plan;
    const char *kind = c->sheet->kind.text;
    char iso[16];
    date_write_iso(plan->on, iso);
    document->lang = ctx->format.words->lang;
    document->title = phrase_code(ctx, "sheet.title", kind);
    document->subject = phrase(ctx, "sheet.subject");
    document->summary = wall_summary(c);
    document->author = plan->letterhead.name.text;
    document->keywords = phrase(ctx, "sheet.keywords");
    document->created = arena_copy_text(c->arena, iso);
    document->head_left = phrase(ctx, "sheet.head-left");
    document->head_right = format_date_long(&ctx->format, plan->on);
    document->reads_head = true; /* whose it is stands nowhere else on most kinds */
    document->foot_left = phrase(ctx, fills_pages(c->sheet) ? "wall.page-foot" : "sheet.foot-left");
    if (c->sheet->paper.known) /* a small page has no room to say it all again */
        document->head_left = document->head_right = "";
    if (c->sheet->plain.value) /* small pages, large type: the number alone is never cut */
        document->foot_left = plan->letterhead.telephone ? plan->letterhead.telephone : "";
    document->page_of = phrase(ctx, "sheet.page-of");
}

/* Who signed, when, and what changed since then. */
static const char *stale_mark(struct composition *c, const struct compose_inputs *inputs)
{
    const char **parts = ARENA_ARRAY(c->arena, const char *, inputs->changed_count);
    for (size_t i = 0; i < inputs->changed_count; i++)
        parts[i] = phrase_code(&c->ctx, "signature", inputs->changed[i]);
    struct plan_fact what = {.name = "what",
                             .kind = FACT_TEXT,
                             .text = phrase_all_of(&c->ctx, parts, inputs->changed_count)};
    struct plan_fact on = {.name = "date", .kind = FACT_DATE, .date = c->signed_on, .next = &what};
    struct plan_fact by = {.name = "by", .kind = FACT_TEXT, .text = c->signed_by, .next = &on};
    struct phrase_context ctx = c->ctx;
    ctx.format.year = 0; /* a signature has its year */
    ctx.facts = &by;
    return phrase(&ctx, "sheet.draft-mark-stale");
}

static const char *draft_mark(struct composition *c, const struct compose_inputs *inputs)
{
    if (c->is_signed)
        return NULL;
    return inputs->changed_count ? stale_mark(c, inputs) : phrase(&c->ctx, "sheet.draft-mark");
}

/* The window's title says it too. */
static const char *draft_title(struct composition *c, const char *title)
{
    struct plan_fact what = {.name = "what", .kind = FACT_TEXT, .text = title};
    struct phrase_context ctx = c->ctx;
    ctx.facts = &what;
    return phrase(&ctx, "sheet.draft-title");
}

static void write_heads(struct composition *c, const struct compose_inputs *inputs,
                        struct document *document)
{
    fill_heads(c, document);
    document->draft_mark = draft_mark(c, inputs);
    if (document->draft_mark)
        document->title = draft_title(c, document->title);
}

static const struct kept_heads *write_kept_heads(struct composition *c,
                                                 const struct compose_inputs *inputs,
                                                 const struct document *begun)
{
    struct kept_heads *kept = ARENA_NEW(c->kept->arena, struct kept_heads);
    uint64_t *asked_before = c->state.asked;
    kept->document = *begun;
    kept->asked = always_asked();
    struct arena *trial = write_into(c, c->kept->arena, &kept->asked);
    write_heads(c, inputs, &kept->document);
    write_into(c, trial, asked_before);
    kept->answers = c->state.answers;
    kept->next = c->kept->heads;
    c->kept->heads = kept;
    return kept;
}

/* Once for all trials that ask for the same. */
static void take_heads(struct composition *c, const struct compose_inputs *inputs,
                       struct document *document)
{
    if (!c->kept) {
        write_heads(c, inputs, document);
        return;
    }
    const struct kept_heads *kept = c->kept->heads;
    while (kept && !section_state_is_same(kept->answers, kept->asked, &c->state))
        kept = kept->next;
    *document = (kept ? kept : write_kept_heads(c, inputs, document))->document;
}

/* On a screen: where to write to. */
static void add_contact(struct composition *c, struct block_builder *out)
{
    const char *text = phrase_if_known(&c->ctx, "sheet.contact");
    if (text)
        builder_spans(out, span_plain(c->arena, text), PARAGRAPH_SMALL);
}

static void set_state(struct composition *c, const struct compose_inputs *inputs)
{
    struct section_state *state = &c->state;
    for (size_t says = 0; says < MESSAGE_COUNT; says++)
        section_state_set(state, ASK_MESSAGE + says, inputs->message == says);
    const size_t of_medicines = fills_pages(inputs->sheet) ? inputs->medicines : MEDICINES_ALL;
    for (size_t says = 0; says < MEDICINES_SAY_COUNT; says++)
        section_state_set(state, ASK_MEDICINES + says, of_medicines >= says);
    section_state_set(state, ASK_CUTS_MEDICINES, inputs->cuts >= CUTS_MEDICINES);
    section_state_set(state, ASK_CUTS_OTHERS,
                      inputs->cuts == CUTS_OTHERS || inputs->cuts >= CUTS_SMALL);
    section_state_set(state, ASK_CUTS_LARGE, inputs->cuts == CUTS_LARGE);
    for (size_t begun = 0; begun < LINES_BEGUN_COUNT; begun++)
        section_state_set(state, ASK_LINES + begun, inputs->lines >= begun);
    for (size_t row = 0; row < SECTION_ROWS_MOST; row++) {
        section_state_set(state, ASK_WHYS + row, inputs->whys >> row & 1);
        section_state_set(state, ASK_ROWS + row, row < inputs->steps_most);
    }
    section_state_set(state, ASK_SAYS_KEY, inputs->says_key);
    section_state_set(state, ASK_SAYS_KNOWN, inputs->says_known);
    section_state_set(state, ASK_SAYS_ADDRESS,
                      inputs->message == MESSAGE_ILLS || inputs->message == MESSAGE_NAMES ||
                          inputs->message == MESSAGE_FULL);
    section_state_set(state, ASK_MESSAGE_IS_SMALL, inputs->message_is_small);
    section_state_set(state, ASK_WITHOUT_NORMAL, inputs->without_normal);
    section_state_set(state, ASK_HAS_MOVED, inputs->moves_up != 0);
    section_state_set(state, ASK_HOMES_LEFT_OUT, is_in_brief(c, SECTION_FINDINGS));
    write_as_close(c, inputs->closeness);
}

/* A sheet that hangs has one way to write a day: the one that is read at a glance. */
static int short_year(const struct compose_inputs *inputs)
{
    return fills_pages(inputs->sheet) ? inputs->plan->on.year : 0;
}

/* The same words are explained by many trials, each with a block of its own. */
static void remember_words(struct composition *c)
{
    if (!c->kept || !c->words_block || !c->words->text)
        return;
    struct kept_words *kept = c->kept->words;
    while (kept && (kept->kind != c->words->kind || strcmp(kept->text, c->words->text) != 0))
        kept = kept->next;
    if (!kept) {
        struct arena *arena = c->kept->arena;
        kept = ARENA_NEW(arena, struct kept_words);
        *kept = (struct kept_words){arena_copy_text(arena, c->words->text), c->words->kind,
                                    ARENA_NEW(arena, struct block_memory), c->kept->words};
        c->kept->words = kept;
    }
    c->words_block->memory = kept->memory;
}

static void explain_words(struct composition *c, struct block *blocks)
{
    glossary_explain(&c->ctx, blocks, c->words != NULL);
    if (!c->words)
        return;
    c->words->text = glossary_of_panels(&c->ctx, blocks);
    remember_words(c);
}

bool compose_sheet(const struct compose_inputs *inputs, struct arena *arena, struct diag *diag,
                   struct document *out)
{
    size_t errors = diag->counts[DIAG_ERROR];
    struct composition c = {
        .ctx = slots_context((struct format){inputs->words, inputs->units, arena, diag,
                                             short_year(inputs), inputs->closeness >= CLOSE_BOXES},
                             inputs->plan),
        .plan = inputs->plan,
        .sheet = inputs->sheet,
        .arena = arena,
        .is_signed = inputs->is_signed,
        .signed_by = inputs->signed_by,
        .signed_on = inputs->signed_on,
        .brief_count = inputs->brief_count,
        .wide = inputs->wide,
        .opened = inputs->opened,
        .moves_up = inputs->moves_up,
        .without_normal = inputs->without_normal,
        .says_known = inputs->says_known,
        .live_links = inputs->live_links || inputs->sheet->live_links.value,
    };
    uint64_t asked_by_nobody = 0; /* of what is not kept */
    c.state.asked = &asked_by_nobody;
    set_state(&c, inputs);
    c.kept = c.live_links ? NULL : inputs->kept; /* links part the texts that they stand in */
    c.ctx.said = inputs->said;
    struct document document = {.logo = inputs->logo};
    struct block_builder blocks = builder_start(arena, NULL);
    take_heads(&c, inputs, &document);
    c.draft_mark = document.draft_mark;
    compose_look(inputs->look, inputs->paper, c.live_links, &document.look);
    look_for_kind(inputs, &document.look);
    c.look = &document.look;
    size_t entries = inputs->sheet->sections.count;
    for (size_t i = 0; i < (inputs->first_page && entries > 0 ? 1 : entries); i++)
        write_entry(&c, LIST_AT(inputs->sheet->sections, struct sheet_section, i), &blocks);
    if (inputs->sheet->plain.value)
        blocks = plain_blocks(blocks.first, arena);
    explain_words(&c, blocks.first);
    /* a page that is filled has its telephones as links already */
    if (document.look.live_links && blocks.first && blocks.first->kind != BLOCK_PAGE)
        add_contact(&c, &blocks);
    if (document.look.live_links)
        contact_links_set(&inputs->plan->letterhead, blocks.first, arena);
    document.blocks = blocks.first;
    free_texts_set(c.plan, &document, arena);
    if (!inputs->is_trial)
        short_forms_set(&c.ctx, &document);
    *out = document;
    return diag->counts[DIAG_ERROR] == errors;
}
