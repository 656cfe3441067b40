/* Finds the field of a fault by its place in the tree, and words it for the page. */
#include "desk/faults.h"

#include <string.h>

#include "base/messages.h"

static bool same_place(struct mark a, struct mark b)
{
    return a.line > 0 && a.line == b.line && a.column == b.column;
}

static const char *below(const char *path, const struct node *parent, size_t i, struct arena *arena)
{
    if (parent->kind == NODE_LIST)
        return arena_format(arena, "%s[%zu]", path, i + 1);
    return *path ? arena_format(arena, "%s.%s", path, parent->keys[i]->text)
                 : parent->keys[i]->text;
}

static const char *search(const struct node *node, struct mark at, const char *path,
                          struct arena *arena)
{
    for (size_t i = 0; node->kind != NODE_SCALAR && i < node->count; i++) {
        const char *own = below(path, node, i, arena);
        bool here = same_place(node->items[i]->at, at) ||
                    (node->kind == NODE_MAP && same_place(node->keys[i]->at, at));
        const char *found = here ? own : search(node->items[i], at, own, arena);
        if (found)
            return found;
    }
    return NULL;
}

/* "findings[2].severity" (items count from 1) of the deepest value that begins at `at`; NULL where
 * none does. */
static const char *faults_path_of(const struct node *tree, struct mark at, struct arena *arena)
{
    return tree ? search(tree, at, "", arena) : NULL;
}

/* Of a fault in a file that lies beside the record: the field that names the file. */
static const char *naming_path(const struct node *node, const char *file, const char *path,
                               struct arena *arena)
{
    const char *found = NULL;
    for (size_t i = 0; node->kind != NODE_SCALAR && i < node->count && !found; i++) {
        const struct node *item = node->items[i];
        const char *own = below(path, node, i, arena);
        found = item->kind != NODE_SCALAR       ? naming_path(item, file, own, arena)
                : strcmp(item->text, file) == 0 ? own
                                                : NULL;
    }
    return found;
}

static const char *path_of(const struct diag_message *m, const struct node *tree,
                           struct arena *arena)
{
    const char *slash = m->at.file ? strrchr(m->at.file, '/') : NULL;
    const char *file = slash ? slash + 1 : m->at.file;
    const char *path = tree && file ? naming_path(tree, file, "", arena) : NULL;
    return path ? path : faults_path_of(tree, m->at, arena);
}

/* A missing key has no place of its own: the message begins with its name in quotes. */
static const char *missing_path(const char *path, const char *text, struct arena *arena)
{
    const char *end = text[0] == '\'' ? strchr(text + 1, '\'') : NULL;
    if (!end)
        return path;
    int length = (int)(end - text - 1);
    return *path ? arena_format(arena, "%s.%.*s", path, length, text + 1)
                 : arena_format(arena, "%.*s", length, text + 1);
}

/* ---- the sentence -----------------------------------------------------------------------------
 */

struct quoted {
    struct slot_source source; /* first, so that the one is found through the other */
    const char *text;
    int line;
    struct arena *arena;
};

static const struct {
    const char *slot, *before, *after;
} quoted_rows[] = {
    {"near", "did you mean '", "'"},
    {"other", "write it as ", ""},
    {"value", "'", "'"},
    {"low", "(", " to "},
    {"high", " to ", ")"},
    {"today", "today is ", ""},
};

static bool find_quoted(const struct slot_source *self, const char *name, struct slot_value *out)
{
    const struct quoted *quoted = (const struct quoted *)(const void *)self;
    if (strcmp(name, "line") == 0 && quoted->line > 0) {
        *out = (struct slot_value){.text = arena_format(quoted->arena, "%d", quoted->line)};
        return true;
    }
    for (size_t i = 0; i < sizeof quoted_rows / sizeof *quoted_rows; i++) {
        const char *before = strcmp(name, quoted_rows[i].slot) == 0
                                 ? strstr(quoted->text, quoted_rows[i].before)
                                 : NULL;
        if (!before)
            continue;
        before += strlen(quoted_rows[i].before);
        const char *end =
            *quoted_rows[i].after ? strstr(before, quoted_rows[i].after) : before + strlen(before);
        if (!end)
            continue;
        *out = (struct slot_value){
            .text = arena_copy_bytes(quoted->arena, before, (size_t)(end - before))};
        return true;
    }
    return false;
}

static const char *sentence(const struct diag_message *message, const struct wording *words,
                            struct arena *arena)
{
    const struct quoted quoted = {{find_quoted}, message->text, message->at.line, arena};
    const struct wording_entry *entry =
        words ? catalogue_find(words, arena_format(arena, "desk.fault.%s", message->code)) : NULL;
    return entry ? catalogue_fill(words, entry, &quoted.source, arena, NULL) : NULL;
}

/* Where a command of the program or an option of one is named; NULL where none is. */
static const char *command_in(const char *text)
{
    const char *command = strstr(text, "'baskleaf ");
    for (const char *at = text; !command && (at = strstr(at, " --")); at++)
        if (at[3] >= 'a' && at[3] <= 'z')
            command = at;
    return command;
}

const char *faults_without_command(const char *text, struct arena *arena)
{
    const char *end = command_in(text);
    if (!end)
        return text;
    while (end > text && *end != ';' && *end != ',')
        end--;
    return arena_copy_bytes(arena, text, (size_t)(end - text));
}

/* What stands in the place of a message that tells to type a command: the desk's own sentence, else
 * what is left of it, else what its kind means. */
static const char *text_for_desk(const struct diag_message *m, const char *said,
                                 struct arena *arena)
{
    if (!command_in(m->text))
        return m->text;
    const char *rest = faults_without_command(m->text, arena);
    const struct message *row = messages_find(m->code);
    return said ? said : *rest || !row ? rest : row->means;
}

static void write_message(struct json *json, const struct diag_message *m, const char *path,
                          const char *said, struct arena *arena)
{
    json_open_object(json);
    json_key_text(json, "path", path);
    json_key_text(json, "code", m->code);
    if (messages_find(m->code))
        json_key_integer(json, "number", messages_find(m->code)->number);
    json_key_text(json, "text", text_for_desk(m, said, arena));
    if (said)
        json_key_text(json, "said", said);
    json_close_object(json);
}

void faults_write_json(const struct diag *diag, const struct node *tree,
                       const struct wording *words, struct arena *arena, struct json *json)
{
    json_open_list(json);
    for (const struct diag_message *m = diag->first; m; m = m->next) {
        if (m->severity == DIAG_REMARK)
            continue;
        const char *path = path_of(m, tree, arena);
        if (!path)
            path = m->path ? m->path : "";
        if (strcmp(m->code, "missing-key") == 0)
            path = missing_path(path, m->text, arena);
        write_message(json, m, path, sentence(m, words, arena), arena);
    }
    json_close_list(json);
}

void faults_write_notes_json(const struct diag *diag, const struct node *tree,
                             const struct wording *words, struct arena *arena, struct json *json)
{
    json_open_list(json);
    for (const struct diag_message *m = diag->first; m; m = m->next) {
        const char *path = faults_path_of(tree, m->at, arena);
        const char *said = sentence(m, words, arena);
        if (m->severity == DIAG_REMARK && path && said)
            write_message(json, m, path, said, arena);
    }
    json_close_list(json);
}
