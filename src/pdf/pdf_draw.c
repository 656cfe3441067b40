/* One libharu call or a few for each drawing operation. */
#include "pdf/pdf_draw.h"

#include <math.h>
#include <string.h>

#include "pdf/content.h"
#include "pdf/uri.h"

/* Kinds of artifact, beside the elements' indices (ISO 32000-1, 14.8.2.2). */
enum { MARK_NONE = -1, MARK_LAYOUT = -2, MARK_PAGINATION = -3, MARK_HEADER = -4, MARK_FOOTER = -5 };

/* Running text stands in the outer eighths of a page; other unstructured text, such as a
 * table's head repeated after a page break, does not. */
static const double RUNNING_SHARE = 0.125;

/* From the top edge downward to libharu's upward. */
static float flip(const struct pdf_drawing *drawing, double y)
{
    return content_grid(drawing->paged->page_height_pt - y);
}

/* Appends to the page's content what libharu has no call for. */
static void write_text(struct pdf_drawing *drawing, const char *text)
{
    haru_write(drawing->page, text, strlen(text));
}

/* A point of a path, and what it is for. */
static void write_point(struct pdf_drawing *drawing, float x, float y, const char *operator)
{
    content_write(drawing->page, (const float[]){x, y}, 2, operator);
}

static void write_rectangle(struct pdf_drawing *drawing, struct point corner, double width,
                            double height)
{
    const float numbers[] = {(float)corner.x, (float)corner.y, (float)width, (float)height};
    content_write(drawing->page, numbers, 4, "re");
}

/* Ends the text object, if one is open. */
static void end_text(struct pdf_drawing *drawing)
{
    if (drawing->in_text) {
        HPDF_Page_EndText(drawing->page);
        drawing->in_text = false;
    }
}

/* Ends the marked content, if some is open, and the text object in it. */
static void end_mark(struct pdf_drawing *drawing)
{
    end_text(drawing);
    if (drawing->mark != MARK_NONE) {
        write_text(drawing, "EMC\n");
        drawing->mark = MARK_NONE;
    }
}

/* Which mark an operation belongs to. */
static int find_mark(const struct pdf_drawing *drawing, const struct op *op)
{
    double height = drawing->paged->page_height_pt;
    if (op->element >= 0)
        return op->element;
    if (op->kind != OP_TEXT)
        return MARK_LAYOUT;
    if (op->y < height * RUNNING_SHARE)
        return MARK_HEADER;
    return op->y > height * (1 - RUNNING_SHARE) ? MARK_FOOTER : MARK_PAGINATION;
}

/* Opens the marked content that an operation belongs to, unless it is open already. */
static void begin_mark(struct pdf_drawing *drawing, const struct op *op)
{
    int mark = find_mark(drawing, op);
    if (mark == drawing->mark)
        return;
    end_mark(drawing);
    drawing->mark = mark;
    switch (mark) {
    case MARK_LAYOUT:
        write_text(drawing, "/Artifact <</Type /Layout>> BDC\n");
        return;
    case MARK_PAGINATION:
        write_text(drawing, "/Artifact <</Type /Pagination>> BDC\n");
        return;
    case MARK_HEADER:
        write_text(drawing, "/Artifact <</Type /Pagination /Subtype /Header>> BDC\n");
        return;
    case MARK_FOOTER:
        write_text(drawing, "/Artifact <</Type /Pagination /Subtype /Footer>> BDC\n");
        return;
    default:
        break;
    }
    double top = op->kind == OP_TEXT ? op->y - op->size_pt : op->y;
    int mcid = structure_mark(drawing->structure, mark, drawing->page_index, top);
    const char *name = draw_ops_element_name(drawing->paged->elements[mark].type);
    write_text(drawing, arena_format(drawing->haru->arena, "/%s <</MCID %d>> BDC\n", name, mcid));
}

/* Whether two inks are one. */
static bool same_rgb(struct rgb a, struct rgb b)
{
    return a.r == b.r && a.g == b.g && a.b == b.b;
}

/* The ink of areas and letters. */
/* Black, white, and what is mixed of them by whole parts, which is most of a page. */
static bool write_plain_colour(struct pdf_drawing *drawing, struct rgb rgb, const char *operator)
{
    enum { WHOLE = 255 };
    const unsigned char parts[] = {rgb.r, rgb.g, rgb.b};
    float numbers[3];
    for (int i = 0; i < 3; i++) {
        if (parts[i] != 0 && parts[i] != WHOLE)
            return false;
        numbers[i] = parts[i] == WHOLE;
    }
    content_write(drawing->page, numbers, 3, operator);
    return true;
}

static void set_fill(struct pdf_drawing *drawing, struct rgb rgb)
{
    if (same_rgb(drawing->state.fill, rgb))
        return;
    if (!write_plain_colour(drawing, rgb, "rg"))
        HPDF_Page_SetRGBFill(drawing->page, rgb.r / 255.0f, rgb.g / 255.0f, rgb.b / 255.0f);
    drawing->state.fill = rgb;
}

/* Ink, width and dash of a line. */
static void set_stroke(struct pdf_drawing *drawing, const struct op *op)
{
    static const char *const dashes[] = {
        [DASH_SOLID] = "[] 0 d\n", [DASH_DASHED] = "[4 3] 0 d\n", [DASH_DOTTED] = "[1 2] 0 d\n"};
    struct pdf_draw_state *state = &drawing->state;
    if (!same_rgb(state->stroke, op->ink)) {
        if (!write_plain_colour(drawing, op->ink, "RG"))
            HPDF_Page_SetRGBStroke(drawing->page, op->ink.r / 255.0f, op->ink.g / 255.0f,
                                   op->ink.b / 255.0f);
        state->stroke = op->ink;
    }
    if (state->stroke_pt != op->stroke_pt) {
        content_write(drawing->page, (const float[]){content_grid(op->stroke_pt)}, 1, "w");
        state->stroke_pt = op->stroke_pt;
    }
    if (state->round != op->round) {
        write_text(drawing, op->round ? "1 J 1 j\n" : "0 J 0 j\n");
        state->round = op->round;
    }
    if (state->dash != op->dash) {
        /* written by hand: the type of libharu's dash array differs between its versions */
        write_text(drawing, dashes[op->dash]);
        state->dash = op->dash;
    }
}

/* Where the next text begins. */
static void move_to(struct pdf_drawing *drawing, double x, double y)
{
    const float left = content_grid(x), base = flip(drawing, y);
    write_point(drawing, left - drawing->line_x, base - drawing->line_y, "Td");
    drawing->line_x = left;
    drawing->line_y = base;
}

/* What the body's fonts draw, one show for each font that it needs. */
static void show(struct pdf_drawing *drawing, const struct op *op, const char *text)
{
    size_t length = strlen(text), at = 0;
    struct run run;
    while (at < length && typefaces_next_run(drawing->faces, op->style, text, length, &at, &run)) {
        if (drawing->state.font != run.font || drawing->state.size_pt != op->size_pt) {
            HPDF_Page_SetFontAndSize(drawing->page, run.font, (float)op->size_pt);
            drawing->state.font = run.font;
            drawing->state.size_pt = op->size_pt;
        }
        HPDF_Page_ShowText(drawing->page, run.codes);
    }
}

/* Begins what a text is or is read as, inside the marked content of its element (ISO 32000-1,
 * 14.9.2 and 14.9.4). */
static void begin_span(struct pdf_drawing *drawing, const char *key, const char *value)
{
    struct strbuf span;
    strbuf_init(&span, drawing->haru->arena);
    strbuf_addf(&span, "/Span <</%s <FEFF", key);
    haru_add_utf16(&span, value);
    strbuf_add(&span, ">>> BDC\n");
    write_text(drawing, span.text);
}

static void end_span(struct pdf_drawing *drawing)
{
    write_text(drawing, "EMC\n");
}

/* Is anything of the text read as other words? Not where no voice reads, in another language or in
 * further letters. */
static bool has_short_forms(const struct pdf_drawing *drawing, const struct op *op)
{
    struct short_form_found found;
    const struct bytes text = {op->text, op->kind == OP_TEXT ? strlen(op->text) : 0};
    return text.length > 0 && op->element != OPS_ARTIFACT && op->lang == NULL &&
           short_forms_next(&drawing->short_forms, op->text, op->text, &found) &&
           !fonts_needs_letters(drawing->faces->fonts, op->style, text);
}

/* A part of a text as marked content of its own; `means` NULL: it is read as it stands. */
static void show_part(struct pdf_drawing *drawing, const struct op *op, const char *text,
                      size_t length, const char *means)
{
    if (length == 0)
        return;
    struct arena *arena = drawing->haru->arena;
    struct strbuf mark;
    int mcid =
        structure_mark(drawing->structure, op->element, drawing->page_index, op->y - op->size_pt);
    const char *name =
        means ? "Span" : draw_ops_element_name(drawing->paged->elements[op->element].type);
    strbuf_init(&mark, arena);
    strbuf_addf(&mark, "/%s <</MCID %d", name, mcid);
    if (means) {
        strbuf_add(&mark, " /E <FEFF");
        haru_add_utf16(&mark, means);
        strbuf_add(&mark, ">");
    }
    strbuf_add(&mark, ">> BDC\n");
    write_text(drawing, mark.text);
    show(drawing, op, arena_copy_bytes(arena, text, length));
    write_text(drawing, "EMC\n");
}

/* Short forms with what they are read as (ISO 32000-1, 14.9.5). The parts stand one behind the
 * other and not one in the other: some readers lose what follows a nested one. */
static void show_short_forms(struct pdf_drawing *drawing, const struct op *op, const char *text)
{
    struct short_form_found found;
    const char *rest = text;
    while (short_forms_next(&drawing->short_forms, text, rest, &found)) {
        show_part(drawing, op, rest, (size_t)(found.at - rest), NULL);
        show_part(drawing, op, found.at, found.length, found.means);
        rest = found.at + found.length;
    }
    show_part(drawing, op, rest, strlen(rest), NULL);
}

static void show_run(struct pdf_drawing *drawing, const struct op *op, const struct letter_run *run)
{
    if (run->reads != NULL)
        begin_span(drawing, "ActualText", run->reads);
    if (run->face == LETTERS_BODY) {
        show(drawing, op, run->text);
    } else {
        letter_fonts_show(&drawing->faces->letters, drawing->page, run, op->size_pt);
        drawing->state.font = NULL;
    }
    if (run->reads != NULL)
        end_span(drawing);
}

/* What further letters stand in, in the order in which it is read, wherever on the line that may be
 * (ISO 32000-1, 14.8.2.3.3). Where the letters of a run are not what it reads, the text itself
 * stands beside it (14.9.4). */
static void show_letters(struct pdf_drawing *drawing, const struct op *op, struct bytes text)
{
    const struct fonts *fonts = drawing->faces->fonts;
    struct letter_line line;
    if (!fonts->calls->lay(fonts->letters, op->style, text, drawing->haru->arena, &line)) {
        haru_refuse(drawing->haru, "no-glyph", "no font has all letters of '%s'", text.data);
        return;
    }
    for (size_t i = 0; i < line.count && haru_ok(drawing->haru); i++) {
        if (line.is_reordered)
            move_to(drawing, op->x + line.runs[i].left * op->size_pt / 1000, op->y);
        show_run(drawing, op, &line.runs[i]);
    }
}

/* OP_TEXT: one move to its place, then one show for each font that it needs, or for each part. */
static void draw_text(struct pdf_drawing *drawing, const struct op *op, bool is_parted)
{
    const char *text = op->text;
    size_t length = strlen(text);
    if (length == 0)
        return;
    /* ISO 32000-1, 14.8.2.5: words at the ends of lines must not glue together */
    if (op->space_after && op->element != OPS_ARTIFACT)
        text = arena_format(drawing->haru->arena, "%s ", text), length++;
    set_fill(drawing, op->ink);
    if (!drawing->in_text) {
        HPDF_Page_BeginText(drawing->page);
        drawing->in_text = true;
        drawing->line_x = drawing->line_y = 0;
    }
    move_to(drawing, op->x, op->y);
    const struct bytes whole = {text, length};
    bool is_foreign = op->lang != NULL && op->element != OPS_ARTIFACT;
    if (is_foreign)
        begin_span(drawing, "Lang", op->lang);
    if (is_parted)
        show_short_forms(drawing, op, text);
    else if (fonts_needs_letters(drawing->faces->fonts, op->style, whole) &&
             fonts_load_letters(drawing->faces->fonts))
        show_letters(drawing, op, whole);
    else
        show(drawing, op, text);
    if (is_foreign)
        end_span(drawing);
}

/* A path of straight lines and cubic curves (ISO 32000-1, 8.5.2). */
static void trace_curves(struct pdf_drawing *drawing, const struct op *op)
{
    enum { CURVE_POINTS = 3 };
    static const char *const operators[] = {['M'] = "m", ['L'] = "l", ['C'] = "c", ['Z'] = "h"};
    size_t at = 0;
    for (const char *verb = op->verbs; *verb != '\0'; verb++) {
        size_t takes = *verb == 'C' ? CURVE_POINTS : *verb == 'Z' ? 0 : 1;
        float numbers[2 * CURVE_POINTS];
        if (at + takes > op->count)
            return;
        for (size_t i = 0; i < takes; i++, at++) {
            numbers[2 * i] = content_grid(op->points[at].x);
            numbers[2 * i + 1] = flip(drawing, op->points[at].y);
        }
        content_write(drawing->page, numbers, 2 * takes, operators[(unsigned char)*verb]);
    }
}

/* Lays the outline of a shape; a rectangle's edges are rounded, not its sides, so that shapes
 * that touch stay together. */
static void trace_shape(struct pdf_drawing *drawing, const struct op *op)
{
    float left = content_grid(op->x), top = flip(drawing, op->y);
    switch (op->kind) {
    case OP_RECT: {
        float right = content_grid(op->x + op->width), bottom = flip(drawing, op->y + op->height);
        write_rectangle(drawing, (struct point){left, bottom}, right - left, top - bottom);
        break;
    }
    case OP_CIRCLE:
        HPDF_Page_Circle(drawing->page, left, top, content_grid(op->width));
        break;
    default:
        if (op->verbs != NULL) {
            trace_curves(drawing, op);
            break;
        }
        for (size_t i = 0; i < op->count; i++) {
            float x = content_grid(op->points[i].x), y = flip(drawing, op->points[i].y);
            write_point(drawing, x, y, i == 0 ? "m" : "l");
        }
        if (op->closed)
            write_text(drawing, "h\n");
        break;
    }
}

/* libharu has to end the path that it began. */
static void paint(struct pdf_drawing *drawing, bool is_by_haru, bool filled, bool stroked)
{
    if (!is_by_haru)
        write_text(drawing, filled && stroked ? "B\n" : filled ? "f\n" : "S\n");
    else if (filled && stroked)
        HPDF_Page_FillStroke(drawing->page);
    else if (filled)
        HPDF_Page_Fill(drawing->page);
    else
        HPDF_Page_Stroke(drawing->page);
}

/* OP_LINE, OP_PATH, OP_RECT and OP_CIRCLE; lines and paths inside their clip. */
static void draw_shape(struct pdf_drawing *drawing, const struct op *op)
{
    bool is_path = op->kind == OP_LINE || op->kind == OP_PATH;
    bool stroked = op->stroked || op->kind == OP_LINE;
    bool filled = op->filled && op->kind != OP_LINE;
    if ((is_path && op->count < 2) || (!stroked && !filled))
        return;
    struct pdf_draw_state before = drawing->state;
    bool clipped = op->clipped && is_path;
    if (clipped) {
        HPDF_Page_GSave(drawing->page);
        const struct point corner = {content_grid(op->x), flip(drawing, op->y + op->height)};
        write_rectangle(drawing, corner, content_grid(op->width), content_grid(op->height));
        write_text(drawing, "W\nn\n");
    }
    if (stroked)
        set_stroke(drawing, op);
    if (filled)
        set_fill(drawing, op->fill);
    trace_shape(drawing, op);
    paint(drawing, op->kind == OP_CIRCLE, filled, stroked);
    if (clipped) {
        HPDF_Page_GRestore(drawing->page);
        drawing->state = before;
    }
}

static void draw_image(struct pdf_drawing *drawing, HPDF_Image image, const struct op *op)
{
    if (image != NULL)
        HPDF_Page_DrawImage(drawing->page, image, content_grid(op->x),
                            flip(drawing, op->y + op->height), content_grid(op->width),
                            content_grid(op->height));
}

/* OP_IMAGE: the pixels go into the document once. */
static void draw_logo(struct pdf_drawing *drawing, const struct op *op)
{
    const struct logo *logo = drawing->paged->document->logo;
    HPDF_Doc doc = drawing->haru->doc;
    if (logo == NULL || logo->pixels == NULL || logo->width_px < 1 || logo->height_px < 1 ||
        logo->width_px > PLAYER_LOGO_SIDE_PX || logo->height_px > PLAYER_LOGO_SIDE_PX ||
        logo->width_px > PLAYER_LOGO_AREA_PX / logo->height_px) {
        haru_refuse(drawing->haru, "logo-unusable",
                    "the logo must have 1 to %d pixels a side and at most %d in all",
                    PLAYER_LOGO_SIDE_PX, PLAYER_LOGO_AREA_PX);
        return;
    }
    if (drawing->logo == NULL) {
        drawing->logo = HPDF_LoadRawImageFromMem(doc, logo->pixels, (HPDF_UINT)logo->width_px,
                                                 (HPDF_UINT)logo->height_px, HPDF_CS_DEVICE_RGB, 8);
    }
    draw_image(drawing, drawing->logo, op);
}

/* OP_IMAGE of a photo: a document has one, however often it is shown. */
static void draw_photo(struct pdf_drawing *drawing, const struct op *op)
{
    if (drawing->photo == NULL)
        drawing->photo = HPDF_LoadJpegImageFromMem(drawing->haru->doc, op->photo->jpeg,
                                                   (HPDF_UINT)op->photo->length);
    draw_image(drawing, drawing->photo, op);
}

/* A link draws nothing; it lies over what its element has drawn. */
static void add_link(struct pdf_drawing *drawing, const struct op *op)
{
    if (op->element < 0 || drawing->paged->elements[op->element].type != ELEMENT_LINK) {
        haru_refuse(drawing->haru, "structure-broken", "a link stands outside a Link element");
        return;
    }
    HPDF_Rect rect = {.left = content_grid(op->x),
                      .bottom = flip(drawing, op->y + op->height),
                      .right = content_grid(op->x + op->width),
                      .top = flip(drawing, op->y)};
    const char *uri = uri_encode(op->uri, drawing->haru->arena);
    HPDF_Annotation link = HPDF_Page_CreateURILinkAnnot(drawing->page, rect, uri);
    if (link == NULL)
        return;
    const char *alternative = drawing->paged->elements[op->element].alternative;
    HPDF_LinkAnnot_SetBorderStyle(link, 0, 0, 0);
    HPDF_Dict_AddNumber(link, "F", 4); /* Print */
    haru_add_text(drawing->haru, link, "Contents", alternative != NULL ? alternative : op->uri);
    structure_link(drawing->structure, op->element, drawing->page_index, link);
}

/* One operation of any kind. */
static void draw(struct pdf_drawing *drawing, const struct op *op)
{
    if (op->element != OPS_ARTIFACT &&
        (op->element < 0 || (size_t)op->element >= drawing->paged->element_count)) {
        haru_refuse(drawing->haru, "structure-broken", "a mark belongs to no element");
        return;
    }
    if (op->kind == OP_LINK) {
        add_link(drawing, op);
        return;
    }
    bool is_parted = has_short_forms(drawing, op);
    if (!is_parted)
        begin_mark(drawing, op);
    else if (drawing->mark != MARK_NONE)
        end_mark(drawing); /* its parts have marks of their own, inside the text object */
    if (op->kind == OP_TEXT) {
        draw_text(drawing, op, is_parted);
        return;
    }
    end_text(drawing);
    if (op->kind == OP_IMAGE)
        (op->photo != NULL ? draw_photo : draw_logo)(drawing, op);
    else
        draw_shape(drawing, op);
}

void pdf_draw_page(struct pdf_drawing *drawing, int page_index)
{
    drawing->page = drawing->structure->pages[page_index];
    drawing->page_index = page_index;
    drawing->mark = MARK_NONE;
    drawing->in_text = false;
    /* black, one point wide and solid is where every page begins (ISO 32000-1, 8.4.1) */
    drawing->state = (struct pdf_draw_state){.stroke_pt = 1, .dash = DASH_SOLID};
    const struct op *op = drawing->paged->pages[page_index].first;
    for (; op != NULL && haru_ok(drawing->haru); op = op->next)
        draw(drawing, op);
    end_mark(drawing);
}
