/* Gathers what is written and sets it as an outline: plain values of an object on one line, what
 * it holds besides below. */
#include "base/outline.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

enum kind { PLAIN_TEXT, PLAIN_NUMBER, OBJECT, LIST };

struct node {
    enum kind kind;
    const char *key; /* NULL in a list */
    const char *text;
    double number;
    struct node *first, *last, *next, *parent;
};

struct outline {
    struct strbuf *out; /* borrowed */
    struct node root, *open;
    const char *key; /* of the next value */
};

/* ---- gathering ---------------------------------------------------------------------------- */

struct outline *outline_new(struct strbuf *out)
{
    struct outline *made = ARENA_NEW(out->arena, struct outline);
    made->out = out;
    made->root.kind = LIST;
    made->open = &made->root;
    return made;
}

void outline_key(struct outline *outline, const char *key)
{
    outline->key = key;
}

static struct node *add(struct outline *outline, enum kind kind)
{
    struct node *made = ARENA_NEW(outline->out->arena, struct node), *parent = outline->open;
    made->kind = kind;
    made->parent = parent;
    made->key = parent->kind == OBJECT ? outline->key : NULL;
    if (parent->last)
        parent->last->next = made;
    else
        parent->first = made;
    parent->last = made;
    return made;
}

void outline_text(struct outline *outline, const char *text)
{
    if (*text)
        add(outline, PLAIN_TEXT)->text = arena_format(outline->out->arena, "%s", text);
}

void outline_number(struct outline *outline, double value)
{
    add(outline, PLAIN_NUMBER)->number = value;
}

void outline_open(struct outline *outline, bool is_list)
{
    outline->open = add(outline, is_list ? LIST : OBJECT);
}

/* ---- values on a line ----------------------------------------------------------------------- */

static bool is_plain(const struct node *node)
{
    return node->kind == PLAIN_TEXT || node->kind == PLAIN_NUMBER;
}

/* A list of plain values, or one whose objects are as short as they. */
static bool is_inline(const struct node *node)
{
    if (is_plain(node))
        return true;
    if (node->key && (strcmp(node->key, "inputs") == 0 || strcmp(node->key, "facts") == 0))
        return node->first != NULL;
    return node->kind == LIST && node->first && is_plain(node->first);
}

/* The ends of keys that are units; the longest first. */
static const struct {
    const char *end, *unit;
} units[] = {
    {"percent_per_30_days", "% in 30 days"},
    {"_kcal_day", "kcal/day"},
    {"_g_day", "g/day"},
    {"_g_cm3", "g/cm3"},
    {"_g_m3", "g/m3"},
    {"_c_hour", "K/h"},
    {"_c_day", "K/day"},
    {"_percent", "%"},
    {"_hours", "h"},
    {"_mg_l", "mg/l"},
    {"_days", "days"},
    {"_cm", "cm"},
    {"_c", "C"},
    {"_g", "g"},
    {"_l", "l"},
    {"_w", "W"},
};

static const char *unit_of(const char *key, size_t *length)
{
    *length = strlen(key);
    for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
        size_t end = strlen(units[i].end);
        if (*length < end || strcmp(key + *length - end, units[i].end) != 0)
            continue;
        *length -= end;
        return units[i].unit;
    }
    return NULL;
}

/* Values that need no name beside them. */
static bool is_bare(const struct node *node)
{
    static const char *const bare[] = {"zone",   "code",   "what", "value", "unit",   "name",
                                       "id",     "on",     "tier", "food",  "text",   "stance",
                                       "source", "origin", "kind", "rule",  "verdict"};
    for (size_t i = 0; i < sizeof bare / sizeof *bare; i++)
        if (strcmp(bare[i], node->key) == 0)
            return node->kind == PLAIN_TEXT || strcmp(node->key, "value") == 0;
    return false;
}

static void add_words(struct strbuf *out, const char *key, size_t length)
{
    for (size_t i = 0; i < length; i++)
        strbuf_add_char(out, key[i] == '_' ? ' ' : key[i]);
}

static void add_value(struct strbuf *line, const struct node *node);

/* Two numbers are a band, its ends alike one number. */
static void add_list(struct strbuf *line, const struct node *list)
{
    const struct node *first = list->first, *second = first->next;
    bool is_band = second && !second->next && first->kind == PLAIN_NUMBER;
    if (is_band && first->number == second->number) {
        add_value(line, first);
        return;
    }
    for (const struct node *one = first; one; one = one->next) {
        if (one != first)
            strbuf_add(line, is_band ? " to " : ", ");
        add_value(line, one);
    }
}

static void add_pairs(struct strbuf *line, const struct node *object, const char *between)
{
    for (const struct node *one = object->first; one; one = one->next) {
        size_t length;
        const char *unit = unit_of(one->key, &length);
        if (!is_inline(one))
            continue;
        if (one != object->first && line->length && line->text[line->length - 1] != '\n')
            strbuf_add(line, strcmp(one->key, "unit") == 0 ? " " : between);
        if (!is_bare(one) && length > 0) {
            add_words(line, one->key, length);
            strbuf_add_char(line, ' ');
        }
        add_value(line, one);
        strbuf_addf(line, "%s%s", unit ? " " : "", unit ? unit : "");
    }
}

static void add_value(struct strbuf *line, const struct node *node)
{
    if (node->kind == PLAIN_TEXT)
        strbuf_add(line, node->text);
    else if (node->kind == PLAIN_NUMBER)
        strbuf_addf(line, "%.6g", node->number == 0 ? 0.0 : node->number);
    else if (node->kind == LIST)
        add_list(line, node);
    else
        add_pairs(line, node, " ");
}

/* ---- lines ---------------------------------------------------------------------------------- */

static bool has_content(const struct node *node)
{
    if (is_plain(node))
        return true;
    for (const struct node *one = node->first; one; one = one->next)
        if (has_content(one))
            return true;
    return false;
}

static const char *line_of(const struct node *object, struct arena *arena)
{
    struct strbuf line;
    strbuf_init(&line, arena);
    if (object->kind == OBJECT)
        add_pairs(&line, object, ", ");
    return line.text;
}

static void write_node(struct strbuf *out, const struct node *node, int indent);

static void write_children(struct strbuf *out, const struct node *node, int indent)
{
    for (const struct node *one = node->first; one; one = one->next)
        if (!is_inline(one) || node->kind == LIST)
            write_node(out, one, indent);
}

/* "key: values", or "- values" in a list; below it what it holds besides. */
static void write_node(struct strbuf *out, const struct node *node, int indent)
{
    const char *line = is_plain(node) ? "" : line_of(node, out->arena);
    if (!has_content(node))
        return;
    strbuf_addf(out, "%*s", indent, "");
    if (node->key)
        add_words(out, node->key, strlen(node->key));
    strbuf_add(out, node->key ? ":" : "-");
    if (*line || is_plain(node))
        strbuf_add_char(out, ' ');
    if (is_plain(node))
        add_value(out, node);
    strbuf_addf(out, "%s\n", line);
    write_children(out, node, indent + 2);
}

/* "Winter rest"; what is as short as UVB is an abbreviation. */
static void add_heading(struct strbuf *out, const char *key)
{
    enum { ABBREVIATION_MOST = 3 };
    size_t length = strlen(key), capitals = length <= ABBREVIATION_MOST ? length : 1;
    for (size_t i = 0; i < capitals; i++)
        strbuf_add_char(out, (char)toupper((unsigned char)key[i]));
    add_words(out, key + capitals, length - capitals);
    strbuf_add_char(out, '\n');
}

/* What stands outermost has a heading of its own. */
static void write_part(struct strbuf *out, const struct node *part)
{
    const char *line = line_of(part, out->arena);
    if (!has_content(part))
        return;
    strbuf_add(out, out->length ? "\n" : "");
    add_heading(out, part->key);
    if (is_inline(part)) {
        strbuf_add(out, "  ");
        add_value(out, part);
        strbuf_add_char(out, '\n');
        return;
    }
    if (*line)
        strbuf_addf(out, "  %s\n", line);
    write_children(out, part, 2);
}

void outline_close(struct outline *outline)
{
    const struct node *closed = outline->open;
    outline->open = closed->parent;
    if (outline->open != &outline->root)
        return;
    for (const struct node *part = closed->first; part; part = part->next)
        write_part(outline->out, part);
}
