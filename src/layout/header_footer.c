/* Sets head and foot on every page, with the draft notice where there is one. */
#include "layout/header_footer.h"

#include <string.h>

#include "layout/paginate.h"
#include "base/strbuf.h"
#include "base/utf8.h"

static const double LEADING = 1.25;
static const double GAP_PT = 4;         /* between letters and rule */
static const double HEAD_BELOW_PT = 14; /* between the head's rule and the text */
static const double FOOT_ABOVE_PT = 10; /* between the text and the foot's rule */
static const double DRAFT_ABOVE_PT = 7; /* between the head's rule and the draft mark */
static const double RULE_PT = 0.5;
static const double BESIDE_PT = 16; /* between the left and the right text */
static const double DRAFT_RULE_PT = 2;

/* Head and foot keep more of their distance than blocks do: they are not part of the flow. */
static double own_room(const struct composer *composer)
{
    return (1 + gaps_share(composer)) / 2;
}

enum { HEAD_LINES = 2, DRAFT_LINES = 4 };

static struct text_lines break_text(const struct composer *composer,
                                    const struct type_setting *type, const char *text,
                                    double width_pt)
{
    struct span *span = ARENA_NEW(composer->arena, struct span);
    span->text = text;
    struct lines_job job = {.spans = span,
                            .lang = composer->document->lang,
                            .size_pt = type->size_pt,
                            .width_pt = width_pt,
                            .strong = type->strong};
    return lines_break(&job, composer->texts);
}

/* Drops the last character (code point) of a text. */
static void drop_character(char *text)
{
    size_t length = strlen(text);
    while (length > 0 && utf8_goes_on(text[length - 1]))
        length--;
    text[length > 0 ? length - 1 : 0] = '\0';
}

/* At most `limit` lines; what is longer ends in an ellipsis. */
static struct text_lines break_short(const struct composer *composer,
                                     const struct type_setting *type, const char *text,
                                     double width_pt, size_t limit)
{
    struct text_lines lines = break_text(composer, type, text != NULL ? text : "", width_pt);
    if (lines.count <= limit)
        return lines;
    /* the text up to the end of the last line that stands, then shorter until all fits */
    struct strbuf kept;
    strbuf_init(&kept, composer->arena);
    for (size_t i = 0; i < limit; i++) {
        for (const struct line_piece *p = lines.items[i].first; p != NULL; p = p->next)
            strbuf_add(&kept, p->text);
        strbuf_add(&kept, i + 1 < limit ? "\n" : "");
    }
    const struct measure *measure = composer->measure;
    enum text_style style = type->strong ? TEXT_STRONG : TEXT_PLAIN;
    const char *ellipsis = measure->has_glyph(measure, style, 0x2026) ? "\u2026" : "...";
    do {
        lines = break_text(composer, type,
                           arena_format(composer->arena, "%s%s", kept.text, ellipsis), width_pt);
        drop_character(kept.text);
    } while (lines.count > limit && kept.text[0] != '\0');
    return lines;
}

/* `element`: of the structure tree, or OPS_ARTIFACT. */
static void draw_lines_in(const struct composer *composer, const struct type_setting *type,
                          const struct text_lines *lines, int element, struct fragment *fragment,
                          double top)
{
    for (size_t i = 0; i < lines->count; i++) {
        double y = top + typeset_line_pt(type) * (double)i + typeset_baseline_pt(composer, type);
        typeset_draw(composer, type, &lines->items[i], element == OPS_ARTIFACT ? NULL : &element,
                     fragment, (struct line_place){composer->left_pt, composer->width_pt, y});
    }
}

/* Where the document asks for it they are read aloud once: the head on the first page, the foot on
 * the last; elsewhere they are artifacts, see add_head. */
static void draw_read_lines(struct composer *composer, const struct type_setting *type,
                            const struct text_lines *lines, struct fragment *fragment, double top)
{
    bool is_read = composer->document->reads_head && lines->count > 0;
    int element = is_read ? elements_add(&composer->elements, ELEMENT_P, 0) : OPS_ARTIFACT;
    draw_lines_in(composer, type, lines, element, fragment, top);
}

static struct op *draw_rule(const struct composer *composer, struct fragment *fragment, double y)
{
    double left = composer->left_pt, right = left + composer->width_pt;
    struct op *op = fragment_add_line(fragment, composer->arena, OPS_ARTIFACT,
                                      (struct point){left, y}, (struct point){right, y});
    op->stroke_pt = RULE_PT;
    op->ink = composer->look->inks[INK_MUTED];
    return op;
}

/* The mark that nobody has signed yet: strong, above a heavy line (a dashed one would ask to be
 * cut). */
static double draw_draft_mark(struct composer *composer, int element, struct fragment *fragment,
                              double top)
{
    struct type_setting type = {.size_pt = composer->look->table_pt,
                                .leading = LEADING,
                                .ink = INK_TEXT,
                                .strong = true,
                                .align = ANCHOR_MIDDLE};
    struct text_lines lines = break_short(composer, &type, composer->document->draft_mark,
                                          composer->width_pt, DRAFT_LINES);
    draw_lines_in(composer, &type, &lines, element, fragment, top);
    double height = typeset_line_pt(&type) * (double)lines.count + GAP_PT;
    struct op *rule = draw_rule(composer, fragment, top + height + DRAFT_RULE_PT / 2);
    rule->stroke_pt = DRAFT_RULE_PT;
    rule->ink = composer->look->inks[INK_TEXT];
    return height + DRAFT_RULE_PT;
}

static double head_plan(struct composer *composer, struct header_footer *running)
{
    const struct document *document = composer->document;
    struct type_setting left = running->type, right = running->type;
    right.align = ANCHOR_RIGHT;
    /* the first thing that is read aloud */
    int draft = document->draft_mark != NULL ? elements_add(&composer->elements, ELEMENT_P, 0)
                                             : OPS_ARTIFACT;
    struct text_lines at_right =
        break_short(composer, &right, document->head_right, composer->width_pt / 2, HEAD_LINES);
    double beside = lines_width_pt(&at_right);
    struct text_lines at_left =
        break_short(composer, &left, document->head_left,
                    composer->width_pt - (beside > 0 ? beside + BESIDE_PT : 0), HEAD_LINES);
    size_t lines = at_left.count > at_right.count ? at_left.count : at_right.count;
    double below = typeset_line_pt(&running->type) * (double)lines + GAP_PT;
    double y = lines > 0 ? below : 0;
    /* drawn in the order in which it is read */
    if (document->draft_mark != NULL) {
        y += lines > 0 ? DRAFT_ABOVE_PT * own_room(composer) : 0;
        y += draw_draft_mark(composer, draft, &running->head, y);
    }
    draw_read_lines(composer, &left, &at_left, &running->head, 0);
    draw_read_lines(composer, &right, &at_right, &running->head, 0);
    if (lines > 0)
        draw_rule(composer, &running->head, below);
    return y > 0 ? y + HEAD_BELOW_PT * own_room(composer) : 0;
}

const char *header_footer_page_of(const struct composer *composer, size_t number, size_t count)
{
    struct strbuf text;
    strbuf_init(&text, composer->arena);
    const char *at = composer->document->page_of != NULL ? composer->document->page_of : "";
    while (*at != '\0') {
        bool is_slot = strncmp(at, "{n}", 3) == 0 || strncmp(at, "{m}", 3) == 0;
        if (is_slot) {
            strbuf_addf(&text, "%zu", at[1] == 'n' ? number : count);
            at += 3;
        } else {
            strbuf_add_char(&text, *at++);
        }
    }
    return text.text;
}

static struct text_lines break_page_of(const struct composer *composer,
                                       const struct type_setting *type, size_t number, size_t count)
{
    return break_short(composer, type, header_footer_page_of(composer, number, count),
                       composer->width_pt / 2, HEAD_LINES);
}

void header_footer_plan(struct composer *composer, struct header_footer *out)
{
    *out = (struct header_footer){
        .type = {.size_pt = composer->look->small_pt, .leading = LEADING, .ink = INK_MUTED}};
    double margin = composer->look->margin_pt;
    double head = head_plan(composer, out);
    /* no page's number is wider than this one's */
    struct text_lines right = break_page_of(composer, &out->type, 888, 888);
    out->foot_left =
        break_short(composer, &out->type, composer->document->foot_left,
                    composer->width_pt - lines_width_pt(&right) - BESIDE_PT, HEAD_LINES);
    size_t lines = out->foot_left.count > right.count ? out->foot_left.count : right.count;
    out->foot_height_pt =
        FOOT_ABOVE_PT * own_room(composer) + GAP_PT + typeset_line_pt(&out->type) * (double)lines;
    composer->top_pt = margin + head;
    composer->height_pt = composer->page_height_pt - 2 * margin - head - out->foot_height_pt;
}

/* The page's own operations go behind the head's. */
static void add_head(struct composer *composer, const struct header_footer *running,
                     struct paged *out, size_t page)
{
    struct page body = out->pages[page];
    out->pages[page] = (struct page){0};
    paginate_copy(composer, &running->head,
                  (struct page_place){out, page, 0, composer->look->margin_pt}, page > 0);
    struct page *whole = &out->pages[page];
    if (whole->first == NULL) {
        *whole = body;
    } else if (body.first != NULL) {
        whole->last->next = body.first;
        whole->last = body.last;
        whole->count += body.count;
    }
}

void header_footer_add(struct composer *composer, const struct header_footer *running,
                       struct paged *out)
{
    struct type_setting right = running->type;
    right.align = ANCHOR_RIGHT;
    double top = composer->top_pt + composer->height_pt + FOOT_ABOVE_PT * own_room(composer);
    for (size_t page = 0; page < out->page_count; page++) {
        struct fragment foot = {0};
        struct text_lines lines = break_page_of(composer, &right, page + 1, out->page_count);
        draw_rule(composer, &foot, 0);
        bool is_last = page + 1 == out->page_count;
        if (is_last)
            draw_read_lines(composer, &running->type, &running->foot_left, &foot, GAP_PT);
        else
            draw_lines_in(composer, &running->type, &running->foot_left, OPS_ARTIFACT, &foot,
                          GAP_PT);
        draw_lines_in(composer, &right, &lines, OPS_ARTIFACT, &foot, GAP_PT);
        add_head(composer, running, out, page);
        paginate_copy(composer, &foot, (struct page_place){out, page, 0, top}, !is_last);
    }
}
