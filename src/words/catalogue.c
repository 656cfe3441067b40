/* Parses sentences into pieces, finds them by a hash of their key, and fills their slots. */
#include "words/catalogue.h"

#include <string.h>

#include "base/file.h"
#include "base/hash.h"
#include "base/strbuf.h"
#include "words/agreement.h"
#include "words/shipped_words.h"
#include "yaml/tree.h"

enum { PIECES_MOST = 64, ALTERNATIVES_MOST = 16 };

/* ---- parsing ------------------------------------------------------------------ */

struct parsing {
    const struct language *language;
    struct arena *arena;
    struct diag *diag;
    bool good;
    struct mark at;
    struct wording_piece pieces[PIECES_MOST];
    size_t count;
    struct strbuf text; /* literal under way */
};

static void fault(struct parsing *p, const char *code, const char *text)
{
    diag_report(p->diag, DIAG_ERROR, code, p->at, "%s", text);
    p->good = false;
}

static void add_piece(struct parsing *p, bool is_slot, const char *text)
{
    if (p->count == PIECES_MOST) {
        fault(p, "too-many-slots",
              arena_format(p->arena, "has more than %d pieces of text and slots", PIECES_MOST));
        return;
    }
    p->pieces[p->count++] = (struct wording_piece){is_slot, text};
}

static void end_literal(struct parsing *p)
{
    if (p->text.length > 0)
        add_piece(p, false, arena_copy_text(p->arena, p->text.text));
    strbuf_clear(&p->text);
}

static bool is_slot_character(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '.';
}

/* Reads the slot that begins at `open`; returns what follows it. */
static const char *parse_slot(struct parsing *p, const char *open)
{
    const char *end = open + 1;
    while (is_slot_character(*end))
        end++;
    if (*end != '}' || end == open + 1) {
        fault(p, "bad-slot",
              arena_format(p->arena,
                           "a slot is written {name} with small letters, digits, hyphens and "
                           "dots, and a brace {{; at '%.20s'",
                           open));
        return open + 1;
    }
    end_literal(p);
    add_piece(p, true, arena_copy_bytes(p->arena, open + 1, (size_t)(end - open - 1)));
    return end + 1;
}

static struct wording_phrase phrase_of(const struct parsing *p)
{
    struct wording_piece *copy = ARENA_ARRAY(p->arena, struct wording_piece, p->count + 1);
    memcpy(copy, p->pieces, p->count * sizeof *copy);
    return (struct wording_phrase){copy, p->count};
}

static struct wording_phrase parse_phrase(struct parsing *p, const struct node *node)
{
    p->at = node->at;
    p->count = 0;
    strbuf_clear(&p->text);
    if (node->kind != NODE_SCALAR || tree_is_empty(node) ||
        !node->text[strspn(node->text, " \t\n")]) {
        fault(p, "empty-wording", "must be a sentence; nothing is written here");
        return (struct wording_phrase){0};
    }
    if (!node->text[strcspn(node->text, "{}")]) { /* most sentences have no slot */
        add_piece(p, false, node->text);
        return phrase_of(p);
    }
    for (const char *c = node->text; *c;) {
        if ((c[0] == '{' && c[1] == '{') || (c[0] == '}' && c[1] == '}')) {
            strbuf_add_char(&p->text, *c);
            c += 2;
        } else if (*c == '{') {
            c = parse_slot(p, c);
        } else if (*c == '}') {
            fault(p, "bad-slot", "a lone '}' ends no slot; write }} for a brace");
            c++;
        } else {
            size_t length = strcspn(c, "{}");
            strbuf_add_bytes(&p->text, c, length);
            c += length;
        }
    }
    end_literal(p);
    return phrase_of(p);
}

static bool has_plural(const struct parsing *p, int plural)
{
    return plural == PLURAL_OTHER || p->language->plurals.conditions[plural];
}

static bool is_plural_key(const struct parsing *p, const char *key)
{
    if (strcmp(key, "count-by") == 0)
        return true;
    for (int i = 0; i < PLURAL_COUNT; i++)
        if (has_plural(p, i) && strcmp(key, plural_word((enum plural)i)) == 0)
            return true;
    return false;
}

/* "one, few and other" of this language. */
static const char *plural_list(const struct parsing *p)
{
    const char *list = NULL;
    for (int i = 0; i < PLURAL_OTHER; i++)
        if (has_plural(p, i))
            list = list ? arena_format(p->arena, "%s, %s", list, plural_word((enum plural)i))
                        : plural_word((enum plural)i);
    return list ? arena_format(p->arena, "%s and other", list) : "other";
}

static bool is_slot_name(const char *text)
{
    const char *c = text;
    while (is_slot_character(*c))
        c++;
    return c != text && *c == '\0';
}

static struct wording_form parse_plural(struct parsing *p, const struct node *node)
{
    struct wording_form form = {0};
    p->at = node->at;
    const struct node *by = tree_find(node, "count-by");
    if (!by || by->kind != NODE_SCALAR || tree_is_empty(by))
        fault(p, "no-count", "plural forms need 'count-by' with the name of the counted slot");
    else if (!is_slot_name(by->text))
        fault(p, "bad-slot", "'count-by' is a slot's name: small letters, digits, hyphens, dots");
    else
        form.count_by = by->text;
    for (size_t i = 0; i < node->count; i++) {
        if (!is_plural_key(p, node->keys[i]->text)) {
            p->at = node->keys[i]->at;
            fault(p, "unknown-key",
                  arena_format(p->arena,
                               "unknown key '%s'; plural forms of this language have count-by, %s",
                               node->keys[i]->text, plural_list(p)));
        }
    }
    struct wording_phrase *forms = ARENA_ARRAY(p->arena, struct wording_phrase, PLURAL_COUNT);
    for (int i = 0; i < PLURAL_COUNT; i++) {
        const struct node *text = tree_find(node, plural_word((enum plural)i));
        if (!has_plural(p, i))
            continue;
        if (text) {
            forms[i] = parse_phrase(p, text);
        } else {
            p->at = node->at;
            fault(p, "missing-plural",
                  arena_format(p->arena, "the plural form '%s' is missing",
                               plural_word((enum plural)i)));
        }
    }
    form.forms = forms;
    return form;
}

static struct wording_form parse_form(struct parsing *p, const struct node *node)
{
    if (node->kind == NODE_MAP)
        return parse_plural(p, node);
    struct wording_phrase *alone = ARENA_NEW(p->arena, struct wording_phrase);
    *alone = parse_phrase(p, node);
    return (struct wording_form){.forms = alone};
}

static void parse_entry(struct parsing *p, const struct node *node, struct wording_entry *entry)
{
    size_t count = node->kind == NODE_LIST ? node->count : 1;
    p->at = node->at;
    if (count == 0 || count > ALTERNATIVES_MOST) {
        fault(
            p, "empty-wording",
            arena_format(p->arena, "a list of alternatives has 1 to %d items", ALTERNATIVES_MOST));
        return;
    }
    struct wording_form *forms = ARENA_ARRAY(p->arena, struct wording_form, count);
    for (size_t i = 0; i < count; i++)
        forms[i] = parse_form(p, node->kind == NODE_LIST ? node->items[i] : node);
    entry->alternatives = forms;
    entry->count = count;
}

/* ---- files --------------------------------------------------------------------- */

/* Where the key's number stands in the table, or the free place where it would. */
static uint32_t *place_of(const struct wording *wording, const char *key)
{
    size_t at = hash_quickly(HASH_START, key, strlen(key)) & (wording->room - 1);
    while (wording->table[at] && strcmp(wording->entries[wording->table[at] - 1].key, key) != 0)
        at = (at + 1) & (wording->room - 1);
    return &wording->table[at];
}

/* False when a key stands twice, which is reported. */
static bool index_entries(struct wording *wording, struct arena *arena, struct diag *diag)
{
    bool good = true;
    for (wording->room = 16; wording->room < 2 * wording->count;)
        wording->room *= 2;
    wording->table = ARENA_ARRAY(arena, uint32_t, wording->room);
    for (size_t i = 0; i < wording->count; i++) {
        const struct wording_entry *entry = &wording->entries[i];
        uint32_t *place = place_of(wording, entry->key);
        if (!*place) {
            *place = (uint32_t)(i + 1);
            continue;
        }
        const struct mark *first = &wording->entries[*place - 1].at;
        diag_report(diag, DIAG_ERROR, "key-twice", entry->at,
                    "'%s' already stands in %s:%d; a key stands once over all files", entry->key,
                    first->file, first->line);
        good = false;
    }
    return good;
}

static size_t count_keys(struct node *const *trees, size_t count, struct parsing *p)
{
    size_t keys = 0;
    for (size_t i = 0; i < count; i++) {
        if (!trees[i]) {
            p->good = false;
        } else if (trees[i]->kind != NODE_MAP) {
            p->at = trees[i]->at;
            fault(p, "wrong-kind", "must be a mapping of keys to sentences");
        } else {
            keys += trees[i]->count;
        }
    }
    return keys;
}

static struct wording_family find_family(const struct wording *wording, const char *family,
                                         const char *last, struct arena *arena)
{
    struct wording_family found = {0};
    for (size_t i = 0; i < wording->count; i++)
        found.count += catalogue_code_length(wording->entries[i].key, family, last) > 0;
    found.entries = ARENA_ARRAY(arena, const struct wording_entry *, found.count);
    for (size_t i = 0, at = 0; at < found.count; i++)
        if (catalogue_code_length(wording->entries[i].key, family, last) > 0)
            found.entries[at++] = &wording->entries[i];
    return found;
}

struct wording *catalogue_read_trees(const struct wording_source *source, struct node *const *trees,
                                     size_t count, struct arena *arena, struct diag *diag)
{
    struct parsing p = {.language = source->language, .arena = arena, .diag = diag, .good = true};
    strbuf_init(&p.text, arena);
    struct wording *wording = ARENA_NEW(arena, struct wording);
    wording->lang = arena_copy_text(arena, source->lang);
    wording->folder = source->folder;
    wording->language = source->language;
    wording->entries = ARENA_ARRAY(arena, struct wording_entry, count_keys(trees, count, &p) + 1);
    for (size_t i = 0; i < count; i++) {
        if (!trees[i] || trees[i]->kind != NODE_MAP)
            continue;
        for (size_t j = 0; j < trees[i]->count; j++) {
            struct wording_entry *entry = &wording->entries[wording->count++];
            entry->key = trees[i]->keys[j]->text;
            entry->at = trees[i]->keys[j]->at;
            parse_entry(&p, trees[i]->items[j], entry);
        }
    }
    wording->terms = find_family(wording, WORDING_TERM, WORDING_TERM_LAST, arena);
    wording->short_forms = find_family(wording, WORDING_SHORT, WORDING_SHORT_LAST, arena);
    return index_entries(wording, arena, diag) && p.good ? wording : NULL;
}

const char *wording_file_path(const struct wording_stand_in *stand_in, const char *lang,
                              const char *own_folder, const char *name, struct arena *arena)
{
    return stand_in && strcmp(stand_in->lang, lang) == 0 && strcmp(stand_in->name, name) == 0
               ? stand_in->path
               : file_join(arena, own_folder, name);
}

struct wording *catalogue_read(const char *folder, const char *lang, const char *left_out,
                               struct arena *arena, struct diag *diag)
{
    return catalogue_read_with(folder, lang, left_out, NULL, arena, diag);
}

/* Moves the names that are read to the front; how many they are. */
static size_t leave_out(const char **names, size_t count, const char *left_out)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++)
        if (!left_out || strncmp(names[i], left_out, strlen(left_out)) != 0)
            names[kept++] = names[i];
    return kept;
}

struct wording_reading {
    const char *const *names;
    size_t count;
    const struct wording_stand_in *stand_in;
};

static struct wording *read_files(const struct wording_source *source,
                                  const struct wording_reading *files, struct arena *arena,
                                  struct diag *diag)
{
    struct arena passing; /* the trees are needed until their texts are parsed */
    arena_init(&passing);
    struct node **trees = ARENA_ARRAY(&passing, struct node *, files->count + 1);
    size_t count = 0;
    for (size_t i = 0; i < files->count; i++)
        if (strcmp(files->names[i], LANGUAGE_FILE) != 0)
            trees[count++] =
                tree_read_passing(wording_file_path(files->stand_in, source->lang, source->folder,
                                                    files->names[i], arena),
                                  arena, &passing, diag);
    struct wording *wording = catalogue_read_trees(source, trees, count, arena, diag);
    arena_finish(&passing);
    return wording;
}

struct wording *catalogue_read_with(const char *folder, const char *lang, const char *left_out,
                                    const struct wording_stand_in *stand_in, struct arena *arena,
                                    struct diag *diag)
{
    if (stand_in && stand_in->folder && strcmp(stand_in->lang, lang) == 0)
        folder = stand_in->folder;
    const char *own_folder = file_join(arena, folder, lang);
    const char **names;
    size_t count = file_list(own_folder, ".yaml", arena, diag, &names);
    if (count == 0) {
        diag_report(diag, DIAG_ERROR, "no-wording", (struct mark){.file = own_folder},
                    "there are no words for the language '%s' here", lang);
        return NULL;
    }
    const struct language *language = language_read(own_folder, lang, arena, diag);
    if (!language)
        return NULL;
    const size_t kept = leave_out(names, count, left_out);
    const struct wording_source source = {own_folder, lang, language};
    struct wording *shipped = NULL;
    if (!(stand_in && strcmp(stand_in->lang, lang) == 0) &&
        !shipped_words_find(&source, &(struct shipped_names){names, kept}, arena, diag, &shipped))
        return NULL;
    const struct wording_reading files = {names, kept, stand_in};
    return shipped ? shipped : read_files(&source, &files, arena, diag);
}

size_t catalogue_code_length(const char *key, const char *family, const char *last)
{
    if (*key != *family)
        return 0; /* most keys of a language are asked */
    const size_t before = strlen(family), behind = strlen(last);
    if (strncmp(key, family, before) != 0)
        return 0;
    const size_t length = strlen(key);
    bool is_one = length > before + behind && strcmp(key + length - behind, last) == 0;
    return is_one ? length - before - behind : 0;
}

const struct wording_entry *catalogue_find(const struct wording *wording, const char *key)
{
    uint32_t number = *place_of(wording, key);
    return number ? &wording->entries[number - 1] : NULL;
}

/* ---- filling -------------------------------------------------------------------- */

static const char *fill_phrase(const struct wording_phrase *phrase, const struct slot_source *slots,
                               struct arena *arena, const char **missing)
{
    struct strbuf out;
    if (phrase->count == 1 && !phrase->pieces[0].is_slot)
        return phrase->pieces[0].text;
    strbuf_init(&out, arena);
    for (size_t i = 0; i < phrase->count; i++) {
        const struct wording_piece *piece = &phrase->pieces[i];
        struct slot_value value = {.text = piece->text};
        if (piece->is_slot && !slots->find(slots, piece->text, &value)) {
            *missing = piece->text;
            return NULL;
        }
        strbuf_add(&out, value.text);
    }
    return out.text;
}

static const char *fill_form(const struct wording *wording, const struct wording_form *form,
                             const struct slot_source *slots, struct arena *arena,
                             const char **missing)
{
    enum plural plural = PLURAL_OTHER;
    if (!form->count_by)
        return fill_phrase(form->forms, slots, arena, missing);
    struct slot_value counted;
    if (!slots->find(slots, form->count_by, &counted)) {
        *missing = form->count_by;
        return NULL;
    }
    if (counted.has_number)
        plural = plural_choose(&wording->language->plurals, counted.number);
    return fill_phrase(&form->forms[plural], slots, arena, missing);
}

const char *catalogue_fill(const struct wording *wording, const struct wording_entry *entry,
                           const struct slot_source *slots, struct arena *arena,
                           const char **missing)
{
    const char *lacking = NULL;
    for (size_t i = 0; i < entry->count; i++) {
        const char *text = fill_form(wording, &entry->alternatives[i], slots, arena, &lacking);
        if (text)
            return text;
    }
    if (missing)
        *missing = lacking;
    return NULL;
}

/* ---- comparing languages ---------------------------------------------------------- */

void catalogue_each_slot(const struct wording_entry *entry,
                         void (*visit)(void *context, const char *slot), void *context)
{
    for (size_t i = 0; i < entry->count; i++) {
        const struct wording_form *form = &entry->alternatives[i];
        if (form->count_by)
            visit(context, form->count_by);
        for (size_t k = 0; k < (form->count_by ? PLURAL_COUNT : 1); k++)
            for (size_t j = 0; j < form->forms[k].count; j++)
                if (form->forms[k].pieces[j].is_slot)
                    visit(context, form->forms[k].pieces[j].text);
    }
}

struct slot_hunt {
    const char *wanted;
    bool found;
};

/* A day in its short form is the same day: each language writes the form that is read easily. */
static size_t length_without_form(const char *slot)
{
    static const char form[] = "-short";
    size_t length = strlen(slot), last = strlen(form);
    return length > last && strcmp(slot + length - last, form) == 0 ? length - last : length;
}

static void hunt(void *context, const char *slot)
{
    struct slot_hunt *sought = context;
    size_t length = length_without_form(slot);
    sought->found = sought->found || (length == length_without_form(sought->wanted) &&
                                      strncmp(slot, sought->wanted, length) == 0);
}

struct slot_twins {
    const struct language *language; /* of the entry */
    const struct wording_entry *entry, *twin;
    const char *twin_lang;
    struct diag *diag;
    const char *last_reported; /* the last one that was reported */
    bool good;
};

static void seek_twin(void *context, const char *slot)
{
    struct slot_twins *twins = context;
    struct slot_hunt sought = {.wanted = slot};
    if (agreement_has(twins->language, slot))
        return;
    catalogue_each_slot(twins->twin, hunt, &sought);
    if (sought.found || (twins->last_reported && strcmp(twins->last_reported, slot) == 0))
        return;
    twins->last_reported = slot;
    twins->good = false;
    diag_report(twins->diag, DIAG_ERROR, "slots-differ", twins->entry->at,
                "'%s' has the slot {%s}, which its twin in '%s' (%s:%d) lacks", twins->entry->key,
                slot, twins->twin_lang, twins->twin->at.file, twins->twin->at.line);
}

bool catalogue_check_twins(const struct wording *a, const struct wording *b, struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < a->count; i++) {
        const struct wording_entry *twin = catalogue_find(b, a->entries[i].key);
        if (!twin) {
            diag_report(diag, DIAG_ERROR, "no-twin", a->entries[i].at,
                        "'%s' is not worded in the language '%s'", a->entries[i].key, b->lang);
            good = false;
            continue;
        }
        struct slot_twins twins = {a->language, &a->entries[i], twin, b->lang, diag, NULL, true};
        catalogue_each_slot(&a->entries[i], seek_twin, &twins);
        good = good && twins.good;
    }
    return good;
}

bool catalogue_check_pair(const struct wording *a, const struct wording *b, struct diag *diag)
{
    bool one = catalogue_check_twins(a, b, diag);
    return catalogue_check_twins(b, a, diag) && one;
}
