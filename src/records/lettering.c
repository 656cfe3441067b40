/* Goes through a record's values and settles each text; emoji are those of Unicode's emoji-data. */
#include "records/lettering.h"

#include <string.h>

#include "base/strbuf.h"
#include "base/utf8.h"

/* Signs that the sheet's font lacks and what says the same. "" for signs that nobody sees. */
static const struct {
    unsigned code_point;
    const char *text;
} signs[] = {
    {0x00AD, ""},        {0x180E, ""},       {0x2000, " "},      {0x2001, " "},
    {0x2002, " "},       {0x2003, " "},      {0x2004, " "},      {0x2005, " "},
    {0x2006, " "},       {0x2007, "\u00A0"}, {0x2008, " "},      {0x2009, " "},
    {0x200A, " "},       {0x2012, "\u2013"}, {0x201F, "\u201C"}, {0x202F, "\u00A0"},
    {0x2043, "-"},       {0x205F, " "},      {0x2060, ""},       {0x2103, "\u00B0C"},
    {0x2109, "\u00B0F"}, {0x2150, "1/7"},    {0x2151, "1/9"},    {0x2152, "1/10"},
    {0x2153, "1/3"},     {0x2154, "2/3"},    {0x2155, "1/5"},    {0x2156, "2/5"},
    {0x2157, "3/5"},     {0x2158, "4/5"},    {0x2159, "1/6"},    {0x215A, "5/6"},
    {0x2023, "\u2022"},  {0x2610, "\u25A1"}, {0x2611, "\u221A"}, {0x2612, "\u00D7"},
    {0x2705, "\u221A"},  {0x2713, "\u221A"}, {0x2714, "\u221A"}, {0x2715, "\u00D7"},
    {0x2716, "\u00D7"},  {0x2717, "\u00D7"}, {0x2718, "\u00D7"}, {0x274C, "\u00D7"},
    {0x301D, "\u201C"},  {0x301E, "\u201D"}, {0xFE63, "-"},      {0xFE0E, ""},
    {0xFE0F, ""},        {0xFEFF, ""},       {0xFF0D, "-"},
};

/* Emoji_Presentation, in the blocks that hold nothing else, and what belongs to emoji alone. */
static const struct {
    unsigned first, last;
} emoji[] = {
    {0x20E3, 0x20E3},   {0x231A, 0x231B},   {0x23E9, 0x23EC},   {0x23F0, 0x23F0},
    {0x23F3, 0x23F3},   {0x25FD, 0x25FE},   {0x2614, 0x2615},   {0x2648, 0x2653},
    {0x267F, 0x267F},   {0x2693, 0x2693},   {0x26A1, 0x26A1},   {0x26AA, 0x26AB},
    {0x26BD, 0x26BE},   {0x26C4, 0x26C5},   {0x26CE, 0x26CE},   {0x26D4, 0x26D4},
    {0x26EA, 0x26EA},   {0x26F2, 0x26F3},   {0x26F5, 0x26F5},   {0x26FA, 0x26FA},
    {0x26FD, 0x26FD},   {0x270A, 0x270B},   {0x2728, 0x2728},   {0x274E, 0x274E},
    {0x2753, 0x2755},   {0x2757, 0x2757},   {0x2795, 0x2797},   {0x27B0, 0x27B0},
    {0x27BF, 0x27BF},   {0x2B1B, 0x2B1C},   {0x2B50, 0x2B50},   {0x2B55, 0x2B55},
    {0x2764, 0x2764},   {0x1F000, 0x1F0FF}, {0x1F170, 0x1F1FF}, {0x1F300, 0x1FAFF},
    {0xE0020, 0xE007F},
};

static const char in_latin[] = "in-latin";

struct settling {
    struct arena *arena;
    struct diag *diag;
    const struct node *words; /* in-latin: list of {of, write}; NULL for none */
    bool failed;
};

/* Most letters of most records lie below both tables, and are not looked up. */
static const char *sign_text(unsigned code_point)
{
    if (code_point < 0xAD)
        return NULL;
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
        if (signs[i].code_point == code_point)
            return signs[i].text;
    return NULL;
}

static bool is_emoji(unsigned code_point)
{
    if (code_point < 0x20E3)
        return false;
    for (size_t i = 0; i < sizeof emoji / sizeof *emoji; i++)
        if (code_point >= emoji[i].first && code_point <= emoji[i].last)
            return true;
    return false;
}

static const char *word_of(const struct node *row, const char *key)
{
    const struct node *node = tree_find(row, key);
    return node && node->kind == NODE_SCALAR ? node->text : "";
}

static const char *replace(const char *text, const char *of, const char *write, struct arena *arena)
{
    struct strbuf out;
    const char *found = *of ? strstr(text, of) : NULL;
    if (!found)
        return text;
    strbuf_init(&out, arena);
    for (; found; found = strstr(text, of)) {
        strbuf_add_bytes(&out, text, (size_t)(found - text));
        strbuf_add(&out, write);
        text = found + strlen(of);
    }
    strbuf_add(&out, text);
    return out.text;
}

/* What the record says shall stand in its place. */
static const char *put_words(const struct settling *s, const char *text)
{
    for (size_t i = 0; s->words && s->words->kind == NODE_LIST && i < s->words->count; i++) {
        const struct node *row = s->words->items[i];
        const char *of = lettering_compose(word_of(row, "of"), s->arena);
        text = replace(text, of, word_of(row, "write"), s->arena);
    }
    return text;
}

static bool ends_in(const struct strbuf *out, const char *set)
{
    return out->length > 0 && strchr(set, out->text[out->length - 1]);
}

/* Says what was left out, and takes the room that it leaves. */
static void leave_out(const struct settling *s, const struct node *node, const char *sign,
                      size_t length, unsigned code_point)
{
    diag_report(s->diag, DIAG_REMARK, "emoji-left-out", node->at,
                "'%.*s' (U+%04X) is left out: emoji are not printed; '%s' can put a word in its "
                "place",
                (int)length, sign, code_point, in_latin);
}

static const char *change_signs(const struct settling *s, const struct node *node, const char *text)
{
    struct strbuf out;
    size_t length = strlen(text);
    bool left_out = false;
    strbuf_init(&out, s->arena);
    for (size_t at = 0; at < length;) {
        size_t begin = at;
        unsigned code_point = (unsigned)utf8_next(text, length, &at);
        const char *instead = sign_text(code_point);
        if (instead && *instead >= '1' && *instead <= '9' && ends_in(&out, "0123456789"))
            strbuf_add(&out, "\u00A0"); /* one and a third is not eleven thirds */
        if (instead) {
            strbuf_add(&out, instead);
        } else if (is_emoji(code_point)) {
            leave_out(s, node, text + begin, at - begin, code_point);
            left_out = true;
            at += text[at] == ' ' && (out.length == 0 || ends_in(&out, " "));
            if (strchr(",.;:!?)", text[at]) && ends_in(&out, " "))
                out.text[--out.length] = '\0'; /* at the text's end, too */
        } else if (code_point != 0x200D || !left_out) {
            strbuf_add_bytes(&out, text + begin, at - begin);
        }
    }
    return out.text ? out.text : "";
}

static struct node *settle(struct settling *s, struct node *node);

static struct node *settle_scalar(struct settling *s, struct node *node)
{
    const char *text = change_signs(s, node, put_words(s, lettering_compose(node->text, s->arena)));
    if (text == node->text || strcmp(text, node->text) == 0)
        return node;
    if (utf8_is_blank(node->text))
        return node; /* told as empty where it is read */
    if (utf8_is_blank(text)) {
        diag_report(s->diag, DIAG_ERROR, "nothing-to-print", node->at,
                    "nothing of '%s' can be printed; write it in letters", node->text);
        s->failed = true;
    }
    struct node *settled = ARENA_NEW(s->arena, struct node);
    *settled = *node;
    settled->text = text;
    return settled;
}

static struct node *settle_items(struct settling *s, struct node *node)
{
    struct node **items = ARENA_ARRAY(s->arena, struct node *, node->count + 1);
    bool changed = false;
    for (size_t i = 0; i < node->count; i++) {
        bool passed = node->kind == NODE_MAP && strcmp(node->keys[i]->text, in_latin) == 0;
        items[i] = passed ? node->items[i] : settle(s, node->items[i]);
        changed = changed || items[i] != node->items[i];
    }
    if (!changed)
        return node;
    struct node *settled = ARENA_NEW(s->arena, struct node);
    *settled = *node;
    settled->items = items;
    return settled;
}

static struct node *settle(struct settling *s, struct node *node)
{
    return node->kind == NODE_SCALAR ? settle_scalar(s, node) : settle_items(s, node);
}

const struct node *lettering_settle(const struct node *tree, struct arena *arena, struct diag *diag)
{
    struct settling s = {.arena = arena, .diag = diag, .words = tree_find(tree, in_latin)};
    struct node *own = ARENA_NEW(arena, struct node);
    *own = *tree;
    struct node *settled = settle(&s, own);
    return s.failed ? NULL : settled == own ? tree : settled;
}
