/* One line of text a drawing operation. */
#include "page/trace.h"

static const char *const kind_names[] = {
    [OP_TEXT] = "text",     [OP_LINE] = "line",   [OP_PATH] = "path", [OP_RECT] = "rect",
    [OP_CIRCLE] = "circle", [OP_IMAGE] = "image", [OP_LINK] = "link",
};
static const char *const style_names[] = {[TEXT_PLAIN] = "plain", [TEXT_STRONG] = "strong"};
static const char *const dash_names[] = {
    [DASH_SOLID] = "", [DASH_DASHED] = " dashed", [DASH_DOTTED] = " dotted"};

static void add_rgb(struct strbuf *out, const char *what, struct rgb rgb)
{
    strbuf_addf(out, " %s=%02x%02x%02x", what, rgb.r, rgb.g, rgb.b);
}

static void add_shape(const struct op *op, struct strbuf *out)
{
    if (op->points != NULL) {
        for (size_t i = 0; i < op->count; i++)
            strbuf_addf(out, " %.2f,%.2f", op->points[i].x, op->points[i].y);
        strbuf_add(out, op->closed ? " closed" : "");
        if (op->verbs != NULL)
            strbuf_addf(out, " %s", op->verbs);
    } else if (op->kind == OP_CIRCLE) {
        strbuf_addf(out, " %.2f,%.2f r=%.2f", op->x, op->y, op->width);
    } else {
        strbuf_addf(out, " %.2f,%.2f %.2fx%.2f", op->x, op->y, op->width, op->height);
    }
    if (op->stroked) {
        strbuf_addf(out, " stroke=%.2f%s%s", op->stroke_pt, dash_names[op->dash],
                    op->round ? " round" : "");
        add_rgb(out, "ink", op->ink);
    }
    if (op->filled)
        add_rgb(out, "fill", op->fill);
}

static void add_quoted(struct strbuf *out, const char *text)
{
    strbuf_add(out, " \"");
    for (; *text != '\0'; text++) {
        if (*text == '"' || *text == '\\')
            strbuf_add_char(out, '\\');
        strbuf_add_char(out, *text);
    }
    strbuf_add(out, "\"");
}

static void add_op(const struct paged *paged, const struct op *op, struct strbuf *out)
{
    if (op->element == OPS_ARTIFACT) {
        strbuf_addf(out, " %s artifact", kind_names[op->kind]);
    } else {
        strbuf_addf(out, " %s #%d %s", kind_names[op->kind], op->element,
                    draw_ops_element_name(paged->elements[op->element].type));
    }
    if (op->kind == OP_TEXT) {
        strbuf_addf(out, " %.2f,%.2f w=%.2f %s %.2f", op->x, op->y, op->width,
                    style_names[op->style], op->size_pt);
        add_rgb(out, "ink", op->ink);
        add_quoted(out, op->text);
    } else {
        add_shape(op, out);
    }
    if (op->uri != NULL)
        add_quoted(out, op->uri);
    strbuf_add(out, "\n");
}

void trace_write(const struct paged *paged, struct strbuf *out)
{
    for (size_t page = 0; page < paged->page_count; page++) {
        for (const struct op *op = paged->pages[page].first; op != NULL; op = op->next) {
            strbuf_addf(out, "%zu", page + 1);
            add_op(paged, op, out);
        }
    }
}
