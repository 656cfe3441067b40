/* Writes blocks as HTML with its styles in place, as readers of mail drop style sheets. */
#include "document/html_export.h"

#include <string.h>

#include "document/plain_blocks.h"

struct page {
    struct strbuf *out;
    const char *alert; /* "#8F001A" */
};

/* ---- letters ---- */

/* Also fit for an attribute in double quotes. A line feed is a forced line. */
static void add_text(struct page *p, const char *text)
{
    for (const char *c = text; *c; c++) {
        switch (*c) {
        case '&':
            strbuf_add(p->out, "&amp;");
            break;
        case '<':
            strbuf_add(p->out, "&lt;");
            break;
        case '>':
            strbuf_add(p->out, "&gt;");
            break;
        case '"':
            strbuf_add(p->out, "&quot;");
            break;
        case '\'':
            strbuf_add(p->out, "&#39;");
            break;
        case '\n':
            strbuf_add(p->out, "<br>\n");
            break;
        default:
            if ((unsigned char)*c >= ' ' && *c != 0x7f)
                strbuf_add_char(p->out, *c);
        }
    }
}

static bool is_link(const char *uri)
{
    static const char *const schemes[] = {"tel:", "mailto:", "https://"};
    for (size_t i = 0; uri && i < sizeof schemes / sizeof *schemes; i++)
        if (strncmp(uri, schemes[i], strlen(schemes[i])) == 0)
            return true;
    return false;
}

/* A link to be pressed is at least 44 px high: the least size of a target (WCAG 2.2, 2.5.5). */
static const char button_style[] =
    "display:block;min-height:28px;padding:8px 14px;border:2px solid;border-radius:8px;"
    "font-size:22px;font-weight:bold;text-decoration:none;background:#FFFFFF;color:";

static void add_span(struct page *p, const struct span *span, bool is_button)
{
    bool link = is_link(span->uri), strong = span->style == TEXT_STRONG && !(link && is_button);
    if (link) {
        strbuf_add(p->out, "<a href=\"");
        add_text(p, span->uri);
        strbuf_addf(p->out, "\" style=\"%s%s\">",
                    is_button ? button_style : "color:", is_button ? p->alert : "inherit");
    }
    if (strong)
        strbuf_add(p->out, "<b>");
    if (span->lang) {
        strbuf_add(p->out, "<span lang=\"");
        add_text(p, span->lang);
        strbuf_add(p->out, "\">");
    }
    add_text(p, span->text);
    strbuf_addf(p->out, "%s%s%s", span->lang ? "</span>" : "", strong ? "</b>" : "",
                link ? "</a>" : "");
}

static void add_spans(struct page *p, const struct span *spans, bool is_button)
{
    for (; spans; spans = spans->next)
        add_span(p, spans, is_button);
}

/* ---- blocks ---- */

static void write_blocks(struct page *p, const struct block *blocks);

static void write_heading(struct page *p, const struct block *block)
{
    static const int sizes_px[] = {28, 22, 18};
    int level = block->as.heading.level < 1   ? 1
                : block->as.heading.level > 3 ? 3
                                              : block->as.heading.level;
    strbuf_addf(p->out, "<h%d style=\"margin:%dpx 0 6px;font-size:%dpx;line-height:1.2%s\">", level,
                level == 1 ? 8 : 24, sizes_px[level - 1],
                level == 2 ? ";border-top:2px solid;padding-top:8px" : "");
    add_spans(p, block->as.heading.text, false);
    strbuf_addf(p->out, "</h%d>\n", level);
}

static void write_paragraph(struct page *p, const struct block *block)
{
    static const char *const styles[] = {[PARAGRAPH_BODY] = "margin:6px 0",
                                         [PARAGRAPH_LEAD] = "margin:6px 0;font-size:20px",
                                         [PARAGRAPH_SMALL] = "margin:6px 0;font-size:14px",
                                         [PARAGRAPH_FIGURE] =
                                             "margin:18px 0 0;font-size:30px;line-height:1.2",
                                         [PARAGRAPH_BUTTON] = "margin:8px 0"};
    enum paragraph_size size = block->as.paragraph.size;
    strbuf_addf(p->out, "<p style=\"%s\">", styles[size]);
    add_spans(p, block->as.paragraph.text, size == PARAGRAPH_BUTTON);
    strbuf_add(p->out, "</p>\n");
}

static void write_list(struct page *p, const struct block *block)
{
    bool ordered = block->as.list.marks == LIST_NUMBERS;
    bool boxes = block->as.list.marks == LIST_TICK_BOXES;
    strbuf_addf(p->out, "<%s style=\"margin:6px 0;padding-left:%s\">\n", ordered ? "ol" : "ul",
                boxes ? "0;list-style:none" : "22px");
    for (const struct list_item *item = block->as.list.items; item; item = item->next) {
        strbuf_add(p->out, "<li style=\"margin:5px 0\">");
        strbuf_add(p->out, boxes ? "&#9744; " : ""); /* ballot box */
        add_spans(p, item->text, false);
        if (item->more)
            write_blocks(p, item->more);
        strbuf_add(p->out, "</li>\n");
    }
    strbuf_add(p->out, ordered ? "</ol>\n" : "</ul>\n");
}

static void write_row(struct page *p, const struct table_row *row, bool is_head)
{
    strbuf_add(p->out, "<tr>");
    for (const struct table_cell *cell = row->cells; cell; cell = cell->next) {
        const char *tag = is_head || cell->is_row_head ? "th" : "td";
        strbuf_addf(p->out, "<%s%s style=\"border:1px solid;padding:5px;text-align:left;%s\">", tag,
                    is_head             ? " scope=\"col\""
                    : cell->is_row_head ? " scope=\"row\""
                                        : "",
                    "vertical-align:top");
        strbuf_add(p->out, cell->tick_box ? "&#9744; " : "");
        add_spans(p, cell->text, false);
        strbuf_addf(p->out, "</%s>", tag);
    }
    strbuf_add(p->out, "</tr>\n");
}

static void write_table(struct page *p, const struct block *block)
{
    strbuf_add(p->out, "<table style=\"border-collapse:collapse;width:100%;margin:6px 0;"
                       "font-size:inherit\">\n");
    if (block->as.table.caption) {
        strbuf_add(p->out, "<caption>");
        add_spans(p, block->as.table.caption, false);
        strbuf_add(p->out, "</caption>\n");
    }
    if (block->as.table.head)
        write_row(p, block->as.table.head, true);
    for (const struct table_row *row = block->as.table.rows; row; row = row->next)
        write_row(p, row, false);
    strbuf_add(p->out, "</table>\n");
}

static void write_callout(struct page *p, const struct block *block)
{
    bool grave = block->as.callout.tone == CALLOUT_GRAVE;
    bool heavy = grave || block->as.callout.tone == CALLOUT_KEY;
    strbuf_addf(p->out, "<div style=\"margin:12px 0;padding:8px 14px;border:%dpx solid %s", //
                heavy ? 3 : 1, grave ? p->alert : "#000000");
    if (grave)
        strbuf_addf(p->out, ";background:%s;color:#FFFFFF", p->alert);
    strbuf_add(p->out, "\">\n");
    if (block->as.callout.title) {
        strbuf_add(p->out, "<p style=\"margin:6px 0;font-weight:bold\">");
        add_spans(p, block->as.callout.title, false);
        strbuf_add(p->out, "</p>\n");
    }
    write_blocks(p, block->as.callout.blocks);
    strbuf_add(p->out, "</div>\n");
}

static void write_block(struct page *p, const struct block *block)
{
    switch (block->kind) {
    case BLOCK_HEADING:
        write_heading(p, block);
        break;
    case BLOCK_PARAGRAPH:
        write_paragraph(p, block);
        break;
    case BLOCK_LIST:
        write_list(p, block);
        break;
    case BLOCK_TABLE:
        write_table(p, block);
        break;
    case BLOCK_CALLOUT:
        write_callout(p, block);
        break;
    case BLOCK_PICTURE:
        strbuf_add(p->out, "<p style=\"margin:6px 0\">");
        add_text(p, block->as.picture.alternative);
        strbuf_add(p->out, "</p>\n");
        break;
    case BLOCK_COLUMNS: /* plain_blocks leaves none of these */
    case BLOCK_PANEL:
    case BLOCK_PAGE:
    case BLOCK_PAGE_BREAK:
        break;
    }
}

static void write_blocks(struct page *p, const struct block *blocks)
{
    for (; blocks; blocks = blocks->next)
        write_block(p, blocks);
}

void html_export(const struct document *document, struct strbuf *out)
{
    struct rgb ink = document->look.inks[INK_ALERT];
    struct page p = {out, arena_format(out->arena, "#%02X%02X%02X", ink.r, ink.g, ink.b)};
    strbuf_add(out, "<!DOCTYPE html>\n<html lang=\"");
    add_text(&p, document->lang);
    strbuf_add(out, "\">\n<head>\n<meta charset=\"utf-8\">\n"
                    "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                    "<title>");
    add_text(&p, document->title);
    strbuf_add(out, "</title>\n</head>\n<body style=\"margin:0;padding:12px;background:#FFFFFF;"
                    "color:#000000;font-family:Arial,Helvetica,sans-serif;font-size:17px;"
                    "line-height:1.4\">\n<div style=\"max-width:600px;margin:0 auto\">\n");
    if (document->draft_mark) {
        strbuf_add(out, "<p style=\"margin:0;padding:8px 12px;background:#000000;color:#FFFFFF;"
                        "font-weight:bold\">");
        add_text(&p, document->draft_mark);
        strbuf_add(out, "</p>\n");
    }
    write_blocks(&p, plain_blocks(document->blocks, out->arena).first);
    strbuf_add(out, "</div>\n</body>\n</html>\n");
}
