/* Looks up every character of a document in the font that is to draw it. */
#include "layout/check_text.h"

#include <string.h>

#include "base/utf8.h"

struct checker {
    const struct measure *measure;
    struct diag *diag;
    struct arena arena; /* holds `said` */
    int *said;          /* code points that were complained of */
    size_t count, capacity;
    unsigned ascii[0x80]; /* the styles that have a glyph for it, as bits */
    bool failed;
};

/* True the first time that a code point is asked for. */
static bool is_news(struct checker *checker, int code_point)
{
    for (size_t i = 0; i < checker->count; i++)
        if (checker->said[i] == code_point)
            return false;
    if (checker->count == checker->capacity) {
        size_t capacity = checker->capacity == 0 ? 16 : 2 * checker->capacity;
        int *moved = ARENA_ARRAY(&checker->arena, int, capacity);
        if (checker->count > 0)
            memcpy(moved, checker->said, checker->count * sizeof *moved);
        checker->said = moved;
        checker->capacity = capacity;
    }
    checker->said[checker->count++] = code_point;
    return true;
}

static bool is_control(int code_point)
{
    return code_point < 0x20 || (code_point >= 0x7F && code_point < 0xA0);
}

static void complain(struct checker *checker, const char *code, const char *what, int code_point)
{
    checker->failed = true;
    if (is_news(checker, code_point))
        diag_report(checker->diag, DIAG_ERROR, code, (struct mark){0}, what, (unsigned)code_point);
}

/* Most of what is checked is ASCII, and asked for over and over. */
static void look_up_ascii(struct checker *checker)
{
    for (unsigned c = 0x20; c < 0x7F; c++) {
        for (int style = 0; style < TEXT_STYLE_COUNT; style++)
            if (checker->measure->has_glyph(checker->measure, (enum text_style)style, c))
                checker->ascii[c] |= 1u << style;
    }
}

static bool is_known(const struct checker *checker, unsigned char c, unsigned styles)
{
    return c >= 0x20 && c < 0x7F && (styles & ~checker->ascii[c]) == 0;
}

/* `styles` is a set of bits 1 << style; 0 for text that is not drawn. */
static void check(struct checker *checker, const char *text, unsigned styles)
{
    size_t length = text != NULL ? strlen(text) : 0;
    for (size_t at = 0; at < length;) {
        if (is_known(checker, (unsigned char)text[at], styles)) {
            at++;
            continue;
        }
        size_t begin = at;
        int code_point = utf8_next(text, length, &at);
        if (code_point == UTF8_INVALID) {
            checker->failed = true;
            diag_report(checker->diag, DIAG_ERROR, "invalid-utf8", (struct mark){0},
                        "byte 0x%02X at offset %zu of a text is not valid UTF-8",
                        (unsigned char)text[begin], begin);
            return;
        }
        if (is_control(code_point)) {
            if (code_point != '\n') {
                complain(checker, "control-character", "control character U+%04X in a text",
                         code_point);
            }
            continue;
        }
        for (int style = 0; style < TEXT_STYLE_COUNT; style++)
            if ((styles & 1u << style) != 0 &&
                !checker->measure->has_glyph(checker->measure, (enum text_style)style,
                                             (unsigned)code_point))
                complain(checker, "no-glyph", "the font has no character U+%04X", code_point);
    }
}

static const unsigned PLAIN = 1u << TEXT_PLAIN, STRONG = 1u << TEXT_STRONG, UNDRAWN = 0;

static void check_spans(struct checker *checker, const struct span *spans, bool strong)
{
    for (const struct span *span = spans; span != NULL; span = span->next) {
        check(checker, span->text, strong ? STRONG : 1u << span->style);
        check(checker, span->lang, UNDRAWN);
        check(checker, span->uri, UNDRAWN);
    }
}

static void check_rows(struct checker *checker, const struct table_row *rows, bool strong)
{
    for (const struct table_row *row = rows; row != NULL; row = row->next)
        for (const struct table_cell *cell = row->cells; cell != NULL; cell = cell->next)
            check_spans(checker, cell->text, strong || cell->is_row_head);
}

static void check_picture(struct checker *checker, const struct block *block)
{
    const struct scene *scene = block->as.picture.scene;
    for (const struct shape *shape = scene != NULL ? scene->first : NULL; shape != NULL;
         shape = shape->next)
        check(checker, shape->text, 1u << shape->text_style);
    check_spans(checker, block->as.picture.caption, false);
    check(checker, block->as.picture.alternative, UNDRAWN);
}

static void check_blocks(struct checker *checker, const struct block *blocks);

static void check_entry(void *context, const char *text, bool is_drawn)
{
    check(context, text, is_drawn ? PLAIN | STRONG : UNDRAWN);
}

static void check_block(struct checker *checker, const struct block *block)
{
    switch (block->kind) {
    case BLOCK_HEADING:
        check_spans(checker, block->as.heading.text, true);
        break;
    case BLOCK_PARAGRAPH:
        check_spans(checker, block->as.paragraph.text, false);
        break;
    case BLOCK_LIST:
        for (const struct list_item *i = block->as.list.items; i != NULL; i = i->next) {
            check_spans(checker, i->text, false);
            check_blocks(checker, i->more);
        }
        break;
    case BLOCK_TABLE:
        check_spans(checker, block->as.table.caption, true);
        check_rows(checker, block->as.table.head, true);
        check_rows(checker, block->as.table.rows, false);
        break;
    case BLOCK_CALLOUT:
        check_spans(checker, block->as.callout.title, true);
        check_blocks(checker, block->as.callout.blocks);
        break;
    case BLOCK_PICTURE:
        check_picture(checker, block);
        break;
    case BLOCK_COLUMNS:
        for (const struct column *c = block->as.columns.columns; c != NULL; c = c->next)
            check_blocks(checker, c->blocks);
        break;
    case BLOCK_PANEL:
        panel_each_text(block->as.panel, check_entry, checker);
        break;
    case BLOCK_PAGE:
        check_blocks(checker, block->as.page.running);
        check_blocks(checker, block->as.page.blocks);
        check_blocks(checker, block->as.page.foot);
        break;
    case BLOCK_PAGE_BREAK:
        break;
    }
}

static void check_blocks(struct checker *checker, const struct block *blocks)
{
    for (const struct block *block = blocks; block != NULL; block = block->next)
        check_block(checker, block);
}

bool check_text_document(const struct document *document, const struct measure *measure,
                         struct diag *diag)
{
    struct checker checker = {.measure = measure, .diag = diag};
    arena_init(&checker.arena);
    look_up_ascii(&checker);
    const struct {
        const char *text;
        unsigned styles;
    } texts[] = {
        {document->head_left, PLAIN},
        {document->head_right, PLAIN},
        {document->foot_left, PLAIN},
        {document->page_of, PLAIN},
        {document->draft_mark, STRONG},
        {document->lang, UNDRAWN},
        {document->title, UNDRAWN},
        {document->subject, UNDRAWN},
        {document->author, UNDRAWN},
        {document->keywords, UNDRAWN},
        {document->created, UNDRAWN},
        {document->logo != NULL ? document->logo->alternative : NULL, UNDRAWN},
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        check(&checker, texts[i].text, texts[i].styles);
    check_blocks(&checker, document->blocks);
    arena_finish(&checker.arena);
    return !checker.failed;
}
