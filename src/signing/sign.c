/* Puts the signature into the text of a record or a roster, leaving every other byte. */
#include "signing/sign.h"

#include <string.h>
#include <sys/stat.h>

#include "base/json.h"
#include "yaml/tree.h"
#include "base/utf8.h"

/* ---- places in the text ---------------------------------------------------------------------- */

/* The byte at a mark; libyaml counts characters from 1, a byte order mark among them. NULL outside
 * the text. */
static const char *byte_at(struct bytes text, struct mark at)
{
    const char *c = text.data, *end = text.data + text.length;
    for (int line = 1; line < at.line; line++) {
        while (c < end && *c != '\n' && *c != '\r')
            c++;
        if (c == end)
            return NULL;
        c += c[0] == '\r' && c + 1 < end && c[1] == '\n' ? 2 : 1;
    }
    for (int column = 1; column < at.column && c < end; column++) {
        c++;
        while (c < end && utf8_goes_on(*c))
            c++;
    }
    return c;
}

/* Behind the flow mapping that opens at `c`, or NULL. */
static const char *flow_end(const char *c, const char *end)
{
    int depth = 0;
    for (char quote = 0; c < end; c++)
        if (quote == '"' && *c == '\\')
            c++;
        else if (quote)
            quote = *c == quote ? 0 : quote;
        else if (*c == '"' || *c == '\'')
            quote = *c;
        else if (*c == '{' || *c == '[')
            depth++;
        else if ((*c == '}' || *c == ']') && --depth == 0)
            return c + 1;
    return NULL;
}

/* Behind the lines that stand further in than `column`, from the line after `c`'s. */
static const char *block_end(struct bytes text, const char *c, int column)
{
    const char *end = text.data + text.length, *last = c;
    while (last < end && *last != '\n')
        last++;
    for (const char *line = last; line < end;) {
        const char *begin = line + 1, *first = begin;
        while (first < end && *first == ' ')
            first++;
        if (first < end && *first != '\n' && *first != '\r' && first - begin < column)
            break;
        line = first;
        while (line < end && *line != '\n')
            line++;
        if (line - begin >= column)
            last = line;
    }
    return last > text.data && last[-1] == '\r' ? last - 1 : last;
}

/* ---- the words of the signature ----------------------------------------------------------------
 */

static void add_quoted(struct strbuf *out, const char *text)
{
    struct json json;
    json_init(&json, out);
    json_text(&json, text);
}

static const char *text_of(const struct node *map, const char *key)
{
    const struct node *node = tree_find(map, key);
    return node && node->kind == NODE_SCALAR ? node->text : "";
}

static void add_signed(struct strbuf *out, const char *before, const struct node *signature)
{
    static const char *const keys[] = {"by", "on", "digest"};
    strbuf_addf(out, "%s{", before);
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        strbuf_addf(out, "%s\"%s\": ", i ? ", " : "", keys[i]);
        add_quoted(out, text_of(signature, keys[i]));
    }
    strbuf_add_char(out, '}');
}

/* Who signed before: the last of them first. The same signature once more is no other. */
static void add_earlier(struct strbuf *out, const struct node *old, const char *code)
{
    enum { EARLIER_MOST = 20 };
    const struct node *list = old ? tree_find(old, "earlier") : NULL;
    bool is_same = strcmp(text_of(old, "digest"), code) == 0;
    bool has_old = old && old->kind == NODE_MAP && *text_of(old, "by") && !is_same;
    size_t count = has_old, from = list && list->kind == NODE_LIST ? list->count : 0;
    if (!has_old && !from)
        return;
    strbuf_add(out, ", \"earlier\": [");
    if (has_old)
        add_signed(out, "", old);
    for (size_t i = 0; i < from && count < EARLIER_MOST; i++, count++)
        add_signed(out, count ? ", " : "", list->items[i]);
    strbuf_add_char(out, ']');
}

/* Flow style and quoted: the same text is YAML and JSON. */
static const char *signature_value(const struct signing *signing, const char *code,
                                   const struct node *old, struct arena *arena)
{
    struct strbuf out;
    char on[16];
    const struct signature_digests *digests = signing->digests;
    strbuf_init(&out, arena);
    date_write_iso(signing->on, on);
    strbuf_add(&out, "{\"by\": ");
    add_quoted(&out, signing->by);
    strbuf_addf(&out, ", \"on\": \"%s\", \"digest\": \"%s\", \"parts\": {", on, code);
    for (int i = 0; i < SIGNATURE_PART_COUNT; i++)
        strbuf_addf(&out, "%s\"%s\": \"%.*s\"", i ? ", " : "",
                    signature_part_word((enum signature_part)i), SIGNATURE_SHORT_LETTERS,
                    digests->parts[i]);
    for (size_t i = 0; i < digests->language_count; i++)
        strbuf_addf(&out, ", \"words-%s\": \"%.*s\"", digests->words[i].language,
                    SIGNATURE_SHORT_LETTERS, digests->words[i].digest);
    strbuf_add_char(&out, '}');
    add_earlier(&out, old, code);
    strbuf_add_char(&out, '}');
    return out.text;
}

/* ---- the edit
 * ------------------------------------------------------------------------------------ */

struct edit {
    const char *from, *to; /* what goes */
    const char *text;      /* what comes */
};

static const struct node *find_key(const struct node *map, const char *key)
{
    for (size_t i = 0; map && map->kind == NODE_MAP && i < map->count; i++)
        if (strcmp(map->keys[i]->text, key) == 0)
            return map->keys[i];
    return NULL;
}

static bool plan_replacement(struct bytes text, const struct node *key, const struct node *value,
                             const char *words, struct arena *arena, struct edit *edit)
{
    edit->from = byte_at(text, value->at);
    if (!edit->from)
        return false;
    if (*edit->from == '{') {
        edit->to = flow_end(edit->from, text.data + text.length);
        edit->text = words;
        return edit->to != NULL;
    }
    const char *at = byte_at(text, key->at);
    if (!at || *at == '"' || value->at.line == key->at.line)
        return false;
    edit->from = at + strlen(key->text);
    edit->to = block_end(text, at, key->at.column);
    edit->text = arena_format(arena, ": %s", words);
    return true;
}

static bool plan_insertion(struct bytes text, const struct node *map, const char *words,
                           struct arena *arena, struct edit *edit)
{
    const char *first = byte_at(text, map->keys[0]->at);
    const char *at = byte_at(text, map->at);
    if (!first || !at)
        return false;
    edit->from = edit->to = first;
    if (*at == '{') {
        edit->text =
            arena_format(arena, "%s: %s, ", *first == '"' ? "\"signed-off\"" : "signed-off", words);
        return true;
    }
    const char *line_end = memchr(first, '\n', (size_t)(text.data + text.length - first));
    bool crlf = line_end && line_end > first && line_end[-1] == '\r';
    edit->text = arena_format(arena, "signed-off: %s%s%*s", words, crlf ? "\r\n" : "\n",
                              map->keys[0]->at.column - 1, "");
    return true;
}

static bool same_without_signature(const struct node *a, const struct node *b, int level);

static bool same_items(const struct node *a, const struct node *b, int level)
{
    size_t i = 0, j = 0;
    for (;; i++, j++) {
        while (level == 1 && i < a->count && a->kind == NODE_MAP &&
               strcmp(a->keys[i]->text, "signed-off") == 0)
            i++;
        while (level == 1 && j < b->count && b->kind == NODE_MAP &&
               strcmp(b->keys[j]->text, "signed-off") == 0)
            j++;
        if (i >= a->count || j >= b->count)
            return i >= a->count && j >= b->count;
        if ((a->kind == NODE_MAP && strcmp(a->keys[i]->text, b->keys[j]->text) != 0) ||
            !same_without_signature(a->items[i], b->items[j], level + 1))
            return false;
    }
}

static bool same_without_signature(const struct node *a, const struct node *b, int level)
{
    return a->kind == b->kind &&
           (a->kind == NODE_SCALAR ? strcmp(a->text, b->text) == 0 : same_items(a, b, level));
}

/* The edit held: the same record, and the signature in it. */
static bool is_sound(const char *name, struct bytes text, const struct node *before,
                     const char *under, const char *whole, struct arena *arena)
{
    struct diag quiet;
    diag_init(&quiet);
    const struct node *after = tree_read_bytes(name, text, arena, &quiet);
    diag_finish(&quiet);
    const struct node *digest =
        after ? tree_find(tree_find(tree_find(after, under), "signed-off"), "digest") : NULL;
    return digest && digest->kind == NODE_SCALAR && strcmp(digest->text, whole) == 0 &&
           same_without_signature(before, after, 0);
}

bool sign_text(const char *name, struct bytes text, const struct signing *signing,
               struct arena *arena, struct diag *diag, struct bytes *out)
{
    const char *under = signing->under;
    const struct node *tree = tree_read_bytes(name, text, arena, diag);
    const struct node *map = tree ? tree_find(tree, under) : NULL;
    if (!tree)
        return false;
    const struct node *old = map ? tree_find(map, "signed-off") : NULL;
    char code[SIGNATURE_HEX_BYTES];
    signature_code(signing->digests, signing->by, signing->on, code);
    const char *words = signature_value(signing, code, old, arena);
    const struct node *key = find_key(map, "signed-off");
    struct edit edit = {0};
    bool good =
        map && map->kind == NODE_MAP && map->count > 0 &&
        (key ? plan_replacement(text, key, tree_find(map, "signed-off"), words, arena, &edit)
             : plan_insertion(text, map, words, arena, &edit));
    struct strbuf result;
    strbuf_init(&result, arena);
    if (good) {
        strbuf_add_bytes(&result, text.data, (size_t)(edit.from - text.data));
        strbuf_add(&result, edit.text);
        strbuf_add_bytes(&result, edit.to, (size_t)(text.data + text.length - edit.to));
        good = is_sound(name, (struct bytes){result.text, result.length}, tree, under, code, arena);
    }
    if (!good) {
        diag_report(
            diag, DIAG_ERROR, "cannot-sign", map ? map->at : tree->at,
            "the signature finds no safe place here; write this by hand under '%s': signed-off: %s",
            under, words);
        return false;
    }
    *out = (struct bytes){result.text, result.length};
    return true;
}

bool sign_write(const char *path, struct bytes text, struct diag *diag)
{
    struct stat st;
    if (stat(path, &st) == 0 && S_ISREG(st.st_mode) && st.st_nlink > 1) {
        diag_report(diag, DIAG_ERROR, "has-two-names", (struct mark){.file = path},
                    "has another name too (a hard link), and signing would part the two; keep one "
                    "of them, or make a copy to sign");
        return false;
    }
    return file_write_atomic(path, text.data, text.length, 0640, diag);
}
