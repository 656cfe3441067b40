/* Writes blocks as lines of text, and the sentences of a section for its reading ease. */
#include "document/text_export.h"
#include "base/utf8.h"

#include "document/diagram.h"

#include <string.h>

/* ---- lines ---------------------------------------------------------------------- */

struct text_writer {
    struct strbuf *out;
    size_t indent; /* spaces before each further line of the paragraph under way */
    size_t column;
};

static void end_line(struct text_writer *p)
{
    strbuf_add_char(p->out, '\n');
    p->column = 0;
}

static void begin_line(struct text_writer *p)
{
    for (size_t i = 0; i < p->indent; i++)
        strbuf_add_char(p->out, ' ');
    p->column = p->indent;
}

static void add_word(struct text_writer *p, const char *word, size_t bytes)
{
    size_t length = utf8_count(word, bytes);
    bool full = p->column + 1 + length > TEXT_EXPORT_COLUMNS;
    if (p->column > p->indent && full) { /* it goes on, at the edge */
        strbuf_add(p->out, " \n");
        p->column = p->indent = 0;
    } else if (p->column > p->indent) {
        strbuf_add_char(p->out, ' ');
        p->column++;
    }
    strbuf_add_bytes(p->out, word, bytes);
    p->column += length;
}

/* Words at spaces and line feeds; a no-break space stays inside its word. */
static void add_text(struct text_writer *p, const char *text)
{
    while (*text) {
        size_t skip = strspn(text, " \n");
        text += skip;
        size_t bytes = strcspn(text, " \n");
        if (bytes > 0)
            add_word(p, text, bytes);
        text += bytes;
    }
}

/* Spans follow one another without added space, so they are joined before they are broken. */
static const char *spans_text(struct text_writer *p, const struct span *spans)
{
    struct strbuf text;
    strbuf_init(&text, p->out->arena);
    for (; spans; spans = spans->next)
        strbuf_add(&text, spans->text);
    return text.text;
}

static void add_spans(struct text_writer *p, const struct span *spans)
{
    add_text(p, spans_text(p, spans));
}

/* ---- blocks ----------------------------------------------------------------------- */

static void write_blocks(struct text_writer *p, const struct block *blocks, size_t indent);

static void write_heading(struct text_writer *p, const struct block *block)
{
    static const char rules[] = {'=', '-', '.'};
    const char *text = spans_text(p, block->as.heading.text);
    int level = block->as.heading.level;
    end_line(p);
    begin_line(p);
    add_text(p, text);
    end_line(p);
    begin_line(p);
    size_t width = utf8_count(text, strlen(text));
    for (size_t i = 0; i < width && i < TEXT_EXPORT_COLUMNS; i++)
        strbuf_add_char(p->out, rules[level > 3 || level < 1 ? 2 : level - 1]);
    end_line(p);
}

static void write_list(struct text_writer *p, const struct block *block, size_t indent)
{
    enum { MARK = 4 };
    size_t number = 0;
    for (const struct list_item *item = block->as.list.items; item; item = item->next) {
        p->indent = indent;
        begin_line(p);
        switch (block->as.list.marks) {
        case LIST_NUMBERS:
            strbuf_addf(p->out, "%-*s", MARK, arena_format(p->out->arena, "%zu.", ++number));
            break;
        case LIST_TICK_BOXES:
            strbuf_add(p->out, "[ ] ");
            break;
        case LIST_BULLETS:
            strbuf_add(p->out, "-   ");
            break;
        }
        p->indent = indent + MARK;
        p->column = p->indent;
        add_spans(p, item->text);
        end_line(p);
        if (item->more)
            write_blocks(p, item->more, indent + MARK);
    }
    p->indent = indent;
}

static const struct table_cell *cell_at(const struct table_row *row, size_t index)
{
    const struct table_cell *cell = row ? row->cells : NULL;
    while (cell && index-- > 0)
        cell = cell->next;
    return cell;
}

static void write_cell(struct text_writer *p, const struct table_row *head,
                       const struct table_cell *cell, size_t index)
{
    const char *text = cell->text ? spans_text(p, cell->text) : "";
    if (*text == '\0' && !cell->tick_box)
        return;
    begin_line(p);
    const struct table_cell *title = cell_at(head, index);
    if (title && title->text)
        add_text(p, arena_format(p->out->arena, "%s:", spans_text(p, title->text)));
    for (const char *end; cell->tick_box && (end = strchr(text, '\n')); text = end + 1)
        add_text(p, arena_format(p->out->arena, "[ ] %.*s,", (int)(end - text), text));
    if (cell->tick_box)
        add_text(p, "[ ]");
    add_text(p, text);
    end_line(p);
}

static void write_table(struct text_writer *p, const struct block *block, size_t indent)
{
    if (block->as.table.caption) {
        begin_line(p);
        add_spans(p, block->as.table.caption);
        end_line(p);
    }
    for (const struct table_row *row = block->as.table.rows; row; row = row->next) {
        size_t index = 0;
        for (const struct table_cell *cell = row->cells; cell; cell = cell->next, index++) {
            p->indent = indent + (index > 0 ? 2 : 0);
            write_cell(p, block->as.table.head, cell, index);
        }
    }
    p->indent = indent;
}

/* One entry on one line: the box to tick, what to reach, where it stands, what and how. */
static void write_entry(struct text_writer *p, const struct panel *panel,
                        const struct panel_entry *e)
{
    const char *const texts[] = {e->mark, e->title, e->value, e->turn_said,
                                 e->now,  e->limit, e->text,  e->note};
    begin_line(p);
    if (e->has_tick_box)
        add_text(p, "[ ]");
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        if (texts[i])
            add_text(p, texts[i]);
    for (size_t i = 0; e->cells && i < panel->column_count; i++)
        for (size_t k = 0; k < e->cells[i].day_count; k++)
            add_text(p, arena_format(p->out->arena, "[ ] %s %s", panel->columns[i],
                                     e->cells[i].days[k]));
    end_line(p);
}

static void write_entries(struct text_writer *p, const struct panel *panel,
                          const struct panel_entry *e, size_t indent)
{
    for (; e; e = e->next) {
        p->indent = indent;
        write_entry(p, panel, e);
    }
}

static void write_line(struct text_writer *p, const char *text, size_t indent)
{
    if (!text)
        return;
    p->indent = indent;
    begin_line(p);
    add_text(p, text);
    end_line(p);
}

static void write_labels(struct text_writer *p, const struct diagram *diagram, size_t indent)
{
    for (size_t i = 0; i < diagram->label_count; i++) {
        const struct diagram_label *l = &diagram->labels[i];
        const char *const texts[] = {l->mark, l->title, l->value, l->turn_said, l->now};
        p->indent = indent;
        begin_line(p);
        for (size_t k = 0; k < sizeof texts / sizeof *texts; k++)
            if (texts[k])
                add_text(p, texts[k]);
        end_line(p);
    }
}

static void write_panel(struct text_writer *p, const struct panel *panel, size_t indent)
{
    enum { INSIDE = 2 };
    write_line(p, panel->title, indent);
    write_line(p, panel->aside, indent + INSIDE);
    write_entries(p, panel, panel->telephones, indent + INSIDE);
    write_line(p, panel->text, indent + INSIDE);
    write_line(p, panel->small, indent + INSIDE);
    write_entries(p, panel, panel->entries, indent + INSIDE);
    if (panel->diagram)
        write_labels(p, panel->diagram, indent + INSIDE);
    write_line(p, panel->after, indent + INSIDE);
    write_line(p, panel->trend ? panel->trend->alternative : NULL, indent + INSIDE);
    write_line(p, panel->second_title, indent);
    write_entries(p, panel, panel->second, indent + INSIDE);
}

static void write_one(struct text_writer *p, const struct block *block, size_t indent)
{
    p->indent = indent;
    switch (block->kind) {
    case BLOCK_HEADING:
        write_heading(p, block);
        break;
    case BLOCK_PARAGRAPH:
        begin_line(p);
        add_spans(p, block->as.paragraph.text);
        end_line(p);
        break;
    case BLOCK_LIST:
        write_list(p, block, indent);
        break;
    case BLOCK_TABLE:
        write_table(p, block, indent);
        break;
    case BLOCK_CALLOUT:
        if (block->as.callout.title) {
            begin_line(p);
            strbuf_add(p->out, "! ");
            p->column += 2;
            add_spans(p, block->as.callout.title);
            end_line(p);
        }
        write_blocks(p, block->as.callout.blocks, indent + 2);
        break;
    case BLOCK_PICTURE:
        begin_line(p);
        add_text(p, block->as.picture.alternative);
        end_line(p);
        break;
    case BLOCK_COLUMNS:
        for (const struct column *c = block->as.columns.columns; c; c = c->next)
            write_blocks(p, c->blocks, indent);
        break;
    case BLOCK_PANEL:
        if (block->as.panel->kind != PANEL_DRAWING)
            write_panel(p, block->as.panel, indent);
        break;
    case BLOCK_PAGE:
        write_blocks(p, block->as.page.blocks, indent);
        write_blocks(p, block->as.page.foot, indent);
        break;
    case BLOCK_PAGE_BREAK:
        break;
    }
}

static void write_blocks(struct text_writer *p, const struct block *blocks, size_t indent)
{
    for (; blocks; blocks = blocks->next)
        write_one(p, blocks, indent);
}

static void write_document(const struct document *document, struct strbuf *out)
{
    struct text_writer p = {.out = out};
    if (document->draft_mark) {
        add_text(&p, document->draft_mark);
        end_line(&p);
    }
    write_blocks(&p, document->blocks, 0);
}

/* What a reader could take for a quotation or a mailbox's own line begins with a space that is
 * taken off again (RFC 3676, 4.4). */
static bool is_to_stuff(const char *line)
{
    return *line == ' ' || *line == '>' || strncmp(line, "From ", 5) == 0;
}

void text_export(const struct document *document, struct strbuf *out)
{
    struct strbuf lines;
    strbuf_init(&lines, out->arena);
    write_document(document, &lines);
    for (const char *at = lines.text, *end; *at; at = end + 1) {
        end = strchr(at, '\n');
        if (is_to_stuff(at))
            strbuf_add_char(out, ' ');
        strbuf_add_bytes(out, at, (size_t)(end - at) + 1);
    }
}

/* ---- running text -------------------------------------------------------------------- */

struct sentences {
    struct strbuf *out;
    const char *section;
};

static void add_sentence(struct sentences *s, const struct span *spans)
{
    struct text_writer writer = {.out = s->out};
    const char *text = spans_text(&writer, spans);
    size_t length = strlen(text);
    if (length == 0)
        return;
    strbuf_add(s->out, text);
    strbuf_add(s->out, strchr(".?!:", text[length - 1]) ? "\n" : ".\n");
}

static void add_sentences(struct sentences *s, const struct block *blocks);

static void add_row_sentences(struct sentences *s, const struct table_row *row)
{
    for (const struct table_cell *cell = row->cells; cell; cell = cell->next)
        if (!cell->is_row_head)
            add_sentence(s, cell->text);
}

static void add_panel_sentence(void *context, const char *text, bool is_drawn)
{
    struct sentences *s = context;
    size_t length = strlen(text);
    if (!is_drawn || length == 0)
        return;
    strbuf_add(s->out, text);
    strbuf_add(s->out, strchr(".?!:", text[length - 1]) ? "\n" : ".\n");
}

static void add_block_sentences(struct sentences *s, const struct block *block)
{
    switch (block->kind) {
    case BLOCK_HEADING: /* inside a section it says what to do; a title is no sentence */
        if (block->as.heading.level > 2)
            add_sentence(s, block->as.heading.text);
        break;
    case BLOCK_PARAGRAPH:
        add_sentence(s, block->as.paragraph.text);
        break;
    case BLOCK_LIST:
        for (const struct list_item *item = block->as.list.items; item; item = item->next) {
            add_sentence(s, item->text);
            add_sentences(s, item->more);
        }
        break;
    case BLOCK_TABLE:
        for (const struct table_row *row = block->as.table.rows; row; row = row->next)
            add_row_sentences(s, row);
        break;
    case BLOCK_CALLOUT:
        add_sentence(s, block->as.callout.title);
        add_sentences(s, block->as.callout.blocks);
        break;
    case BLOCK_PICTURE:
        add_sentence(s, block->as.picture.caption);
        break;
    case BLOCK_COLUMNS:
        for (const struct column *c = block->as.columns.columns; c; c = c->next)
            add_sentences(s, c->blocks);
        break;
    case BLOCK_PANEL:
        panel_each_text(block->as.panel, add_panel_sentence, s);
        break;
    case BLOCK_PAGE:
        add_sentences(s, block->as.page.blocks);
        add_sentences(s, block->as.page.foot);
        break;
    case BLOCK_PAGE_BREAK:
        break;
    }
}

static void add_sentences(struct sentences *s, const struct block *blocks)
{
    for (; blocks; blocks = blocks->next) {
        /* columns hold several sections; look inside */
        bool other = s->section && blocks->kind != BLOCK_COLUMNS && blocks->kind != BLOCK_PAGE &&
                     (!blocks->section || strcmp(blocks->section, s->section) != 0);
        if (!other)
            add_block_sentences(s, blocks);
    }
}

void text_export_sentences(const struct document *document, const char *section, struct strbuf *out)
{
    struct sentences s = {out, section};
    add_sentences(&s, document->blocks);
}
