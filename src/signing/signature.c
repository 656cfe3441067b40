/* Digests of the parts that a sheet depends on, and their comparison with a signature. */
#include "signing/signature.h"

#include <string.h>
#include <nettle/hmac.h>
#include <nettle/sha2.h>

#include "words/catalogue.h"
#include "yaml/tree.h"
#include "base/hex.h"
#include "base/strbuf.h"

const char *signature_part_word(enum signature_part part)
{
    static const char *const words[] = {
        [SIGNATURE_VISIT] = "visit",   [SIGNATURE_SPECIES] = "species",
        [SIGNATURE_RULES] = "rules",   [SIGNATURE_WORDING] = "wording",
        [SIGNATURE_CLINIC] = "clinic", [SIGNATURE_PROGRAM] = "program",
    };
    return words[part];
}

/* ---- digests ------------------------------------------------------------------------------ */

static struct sha256_ctx begun(void)
{
    struct sha256_ctx sha;
    sha256_init(&sha);
    return sha;
}

static void add(struct sha256_ctx *sha, const char *bytes, size_t length)
{
    sha256_update(sha, length, (const uint8_t *)bytes);
}

/* With its length before it, so that no two sequences of texts give the same bytes. */
static void add_text(struct sha256_ctx *sha, const char *text)
{
    uint64_t length = text ? strlen(text) : UINT64_MAX;
    add(sha, (const char *)&length, sizeof length);
    if (text)
        add(sha, text, (size_t)length);
}

static void write_hex(struct sha256_ctx *sha, char out[SIGNATURE_HEX_BYTES])
{
    uint8_t digest[SHA256_DIGEST_SIZE];
    sha256_digest(sha, sizeof digest, digest);
    hex_write(out, digest, sizeof digest, HEX_SMALL);
}

static bool add_file(struct sha256_ctx *sha, const char *name, const char *path,
                     struct arena *arena, struct diag *diag)
{
    struct bytes bytes;
    if (!file_read(path, FILE_LIMIT_BYTES, arena, diag, &bytes))
        return false;
    uint64_t length = bytes.length;
    add_text(sha, name);
    add(sha, (const char *)&length, sizeof length);
    add(sha, bytes.data, bytes.length);
    return true;
}

/* The files of a folder that end so, but for those whose name begins so (NULL: none). */
static bool add_folder(struct sha256_ctx *sha, const char *folder, const char *ending,
                       const char *left_out, struct arena *arena, struct diag *diag)
{
    const char **names = NULL;
    size_t count = file_list(folder, ending, arena, diag, &names);
    bool good = !diag_failed(diag);
    for (size_t i = 0; i < count && good; i++)
        if (!left_out || strncmp(names[i], left_out, strlen(left_out)) != 0)
            good = add_file(sha, names[i], file_join(arena, folder, names[i]), arena, diag);
    return good;
}

static bool digest_rules(const char *templates, struct arena *arena, struct diag *diag,
                         char out[SIGNATURE_HEX_BYTES])
{
    static const char *const names[] = {
        "rules.yaml",        "topics.yaml",           "settlements.yaml",
        "instructions.yaml", "findings.yaml",         "warning-signs.yaml",
        "steps.yaml",        "reference-values.yaml", "foods.yaml"};
    struct sha256_ctx sha = begun();
    bool good = true;
    for (size_t i = 0; i < sizeof names / sizeof *names && good; i++)
        good = add_file(&sha, names[i], file_join(arena, templates, names[i]), arena, diag);
    write_hex(&sha, out);
    return good;
}

/* Everything of the page but the words. */
static bool digest_page(const struct resources *resources, struct arena *arena, struct diag *diag,
                        char out[SIGNATURE_HEX_BYTES])
{
    struct sha256_ctx sha = begun();
    const char *templates = resources->templates;
    bool good =
        add_file(&sha, "look", file_join(arena, templates, "look.yaml"), arena, diag) &&
        add_folder(&sha, file_join(arena, templates, "sheets"), ".yaml", NULL, arena, diag) &&
        add_folder(&sha, resources->fonts, ".z", NULL, arena, diag) &&
        add_folder(&sha, resources->fonts, ".ttf", NULL, arena, diag);
    write_hex(&sha, out);
    return good;
}

/* The words that a sheet can print: all of a language but the desk's own. */
static bool digest_words(const char *folder, struct arena *arena, struct diag *diag,
                         char out[SIGNATURE_HEX_BYTES])
{
    struct sha256_ctx sha = begun();
    bool good = add_folder(&sha, folder, ".yaml", WORDING_OF_DESK, arena, diag);
    write_hex(&sha, out);
    return good;
}

static bool digest_languages(const char *templates, struct arena *arena, struct diag *diag,
                             struct signature_digests *out)
{
    const char **names = NULL;
    const char *wording = file_join(arena, templates, "wording");
    size_t count = file_list(wording, "", arena, diag, &names);
    struct signature_words *words = ARENA_ARRAY(arena, struct signature_words, count + 1);
    size_t languages = 0;
    bool good = !diag_failed(diag);
    for (size_t i = 0; i < count && good && languages < SIGNATURE_LANGUAGES_MOST; i++) {
        const char *folder = file_join(arena, wording, names[i]);
        if (!file_is_folder(folder))
            continue;
        words[languages].language = names[i];
        good = digest_words(folder, arena, diag, words[languages++].digest);
    }
    out->words = words;
    out->language_count = languages;
    return good;
}

static void digest_program(char out[SIGNATURE_HEX_BYTES])
{
    struct sha256_ctx sha = begun();
    char epoch[32];
    snprintf(epoch, sizeof epoch, "formulas %d", CARE_FORMULA_EPOCH);
    add_text(&sha, epoch);
    write_hex(&sha, out);
}

static bool digest_file(const char *path, struct arena *arena, struct diag *diag,
                        char out[SIGNATURE_HEX_BYTES])
{
    struct sha256_ctx sha = begun();
    bool good = add_file(&sha, "", path, arena, diag);
    write_hex(&sha, out);
    return good;
}

/* Keys, values and kinds; the visit's signature is left out at the second level. */
static void add_node(struct sha256_ctx *sha, const struct node *node, int level)
{
    static const char *const kinds[] = {[NODE_SCALAR] = "=", [NODE_LIST] = "[", [NODE_MAP] = "{"};
    add_text(sha, kinds[node->kind]);
    add_text(sha, node->kind == NODE_SCALAR ? node->text : NULL);
    for (size_t i = 0; i < node->count; i++) {
        const char *key = node->kind == NODE_MAP ? node->keys[i]->text : NULL;
        if (level == 1 && key && strcmp(key, "signed-off") == 0)
            continue;
        add_text(sha, key);
        add_node(sha, node->items[i], level + 1);
    }
    add_text(sha, "end");
}

static bool digest_clinic(const struct clinic *clinic, struct arena *arena, struct diag *diag,
                          char out[SIGNATURE_HEX_BYTES])
{
    struct sha256_ctx sha = begun();
    struct bytes bytes;
    const char *logo = clinic_logo_path(clinic, arena);
    bool good = add_file(&sha, "", clinic->file, arena, diag) &&
                (!logo || file_read(logo, FILE_LIMIT_BYTES, arena, diag, &bytes));
    if (good && logo)
        add(&sha, bytes.data, bytes.length);
    write_hex(&sha, out);
    return good;
}

bool signature_read_shared(const struct resources *resources, const struct fonts *fonts,
                           struct arena *arena, struct diag *diag, struct signature_digests *out)
{
    *out = (struct signature_digests){.key = resources->places.signing_key, .fonts = fonts};
    digest_program(out->parts[SIGNATURE_PROGRAM]);
    return digest_rules(resources->templates, arena, diag, out->parts[SIGNATURE_RULES]) &&
           digest_page(resources, arena, diag, out->parts[SIGNATURE_WORDING]) &&
           digest_languages(resources->templates, arena, diag, out) &&
           digest_clinic(resources->clinic, arena, diag, out->parts[SIGNATURE_CLINIC]);
}

static void digest_whole(struct signature_digests *out)
{
    struct sha256_ctx sha = begun();
    for (int part = 0; part < SIGNATURE_PART_COUNT; part++)
        add_text(&sha, out->parts[part]);
    write_hex(&sha, out->whole);
}

static void name_further(const struct fonts *fonts, const struct node *node, struct strbuf *out)
{
    if (node->kind == NODE_SCALAR)
        fonts_name_further(fonts, node->text, out);
    for (size_t i = 0; i < node->count; i++)
        name_further(fonts, node->items[i], out);
}

/* The fonts of this machine that draw letters of a record; false where ours draw all of them. */
static bool add_further(struct sha256_ctx *sha, const struct fonts *fonts, const struct node *tree)
{
    struct arena arena;
    struct strbuf names;
    if (!fonts)
        return false;
    arena_init(&arena);
    strbuf_init(&names, &arena);
    name_further(fonts, tree, &names);
    bool has_some = names.length > 0;
    if (has_some)
        add_text(sha, names.text);
    arena_finish(&arena);
    return has_some;
}

/* They are part of the wording's digest, which other records' sheets keep as it is. */
static void put_further(struct sha256_ctx *sha, struct signature_digests *out)
{
    add_text(sha, out->parts[SIGNATURE_WORDING]);
    write_hex(sha, out->parts[SIGNATURE_WORDING]);
}

/* What stands behind the record: the visit before and the photo as they were read, the loggers'
 * files of both visits by their own digests. */
struct beside {
    const struct node *previous;
    struct bytes photo;
    const char *log, *previous_log;
};

static void digest_trees(const struct node *tree, const struct beside *beside, const char *species,
                         const struct signature_digests *shared, struct signature_digests *out)
{
    struct sha256_ctx sha = begun(), further = begun();
    *out = *shared;
    bool has_further = add_further(&further, shared->fonts, tree);
    if ((beside->previous && add_further(&further, shared->fonts, beside->previous)) || has_further)
        put_further(&further, out);
    add_node(&sha, tree, 0);
    if (beside->previous)
        add_node(&sha, beside->previous, 0);
    if (beside->photo.data) {
        add_text(&sha, "photo");
        add(&sha, beside->photo.data, beside->photo.length);
    }
    if (beside->log || beside->previous_log) {
        add_text(&sha, "logger");
        add_text(&sha, beside->log);
        add_text(&sha, beside->previous_log);
    }
    write_hex(&sha, out->parts[SIGNATURE_VISIT]);
    snprintf(out->parts[SIGNATURE_SPECIES], SIGNATURE_HEX_BYTES, "%s", species);
    digest_whole(out);
}

/* What is printed of those that share the box comes from their sheets: their names. */
static void add_mates(const struct company_plan *company, char species[SIGNATURE_HEX_BYTES])
{
    struct sha256_ctx sha = begun();
    if (!company->mate_count)
        return;
    add_text(&sha, species);
    for (size_t i = 0; i < company->mate_count; i++) {
        const struct mate_plan *mate = &company->mates[i];
        add_text(&sha, mate->code);
        add_text(&sha, mate->scientific);
        for (size_t k = 0; k < mate->name_count; k++) {
            add_text(&sha, mate->names[k].language);
            add_text(&sha, mate->names[k].text);
        }
    }
    write_hex(&sha, species);
}

bool signature_digest(const struct visit_record *record, const struct signature_digests *shared,
                      struct arena *arena, struct diag *diag, struct signature_digests *out)
{
    char species[SIGNATURE_HEX_BYTES];
    if (!signature_digest_species(record->species_file, record->species_below, arena, diag,
                                  species))
        return false;
    add_mates(&record->plan->enclosure.company, species);
    const struct log_plan *log = &record->plan->log;
    const struct beside beside = {record->previous, record->photo, log->sha256,
                                  log->previous_sha256};
    digest_trees(record->tree, &beside, species, shared, out);
    return true;
}

bool signature_digest_species(const char *path, const char *below, struct arena *arena,
                              struct diag *diag, char out[SIGNATURE_HEX_BYTES])
{
    char own[SIGNATURE_HEX_BYTES], ours[SIGNATURE_HEX_BYTES];
    if (!below)
        return digest_file(path, arena, diag, out);
    if (!digest_file(path, arena, diag, own) || !digest_file(below, arena, diag, ours))
        return false;
    signature_digest_texts((const char *const[]){own, ours}, 2, out);
    return true;
}

void signature_digest_tree(const struct node *tree, const char *species,
                           const struct signature_digests *shared, struct signature_digests *out)
{
    digest_trees(tree, &(struct beside){0}, species, shared, out);
}

void signature_digest_texts(const char *const *texts, size_t count, char out[SIGNATURE_HEX_BYTES])
{
    struct sha256_ctx sha = begun();
    for (size_t i = 0; i < count; i++)
        add_text(&sha, texts[i]);
    write_hex(&sha, out);
}

void signature_digest_bytes(struct bytes bytes, char out[SIGNATURE_HEX_BYTES])
{
    struct sha256_ctx sha = begun();
    add(&sha, bytes.data, bytes.length);
    write_hex(&sha, out);
}

/* ---- many records under one signature ------------------------------------------------------ */

struct signature_roll {
    struct sha256_ctx records, species, further;
    const struct fonts *fonts;
    bool has_further;
};

struct signature_roll *signature_roll_new(const struct fonts *fonts, struct arena *arena)
{
    struct signature_roll *roll = ARENA_NEW(arena, struct signature_roll);
    *roll = (struct signature_roll){
        .records = begun(), .species = begun(), .further = begun(), .fonts = fonts};
    return roll;
}

void signature_roll_add(struct signature_roll *roll, const struct node *tree, const char *species)
{
    add_node(&roll->records, tree, 0);
    add_text(&roll->species, species);
    roll->has_further = add_further(&roll->further, roll->fonts, tree) || roll->has_further;
}

void signature_roll_end(struct signature_roll *roll, const struct signature_digests *shared,
                        struct signature_digests *out)
{
    *out = *shared;
    write_hex(&roll->records, out->parts[SIGNATURE_VISIT]);
    write_hex(&roll->species, out->parts[SIGNATURE_SPECIES]);
    if (roll->has_further)
        put_further(&roll->further, out);
    digest_whole(out);
}

/* ---- the code -------------------------------------------------------------------------------- */

static void add_coded(struct hmac_sha256_ctx *mac, const char *text)
{
    hmac_sha256_update(mac, strlen(text) + 1, (const uint8_t *)text);
}

static void begin_code(struct hmac_sha256_ctx *mac, const struct signature_digests *digests,
                       const char *by, struct date on)
{
    char day[16];
    const char *key = digests->key ? digests->key : "";
    date_write_iso(on, day);
    hmac_sha256_set_key(mac, strlen(key), (const uint8_t *)key);
    add_coded(mac, digests->whole);
    add_coded(mac, by);
    add_coded(mac, day);
}

static void code_words(struct hmac_sha256_ctx *mac, const char *language, const char *digest)
{
    char start[SIGNATURE_SHORT_LETTERS + 1];
    snprintf(start, sizeof start, "%.16s", digest);
    add_coded(mac, language);
    add_coded(mac, start);
}

static void write_code(struct hmac_sha256_ctx *mac, char out[SIGNATURE_HEX_BYTES])
{
    uint8_t code[SHA256_DIGEST_SIZE];
    hmac_sha256_digest(mac, sizeof code, code);
    hex_write(out, code, sizeof code, HEX_SMALL);
}

void signature_code(const struct signature_digests *digests, const char *by, struct date on,
                    char out[SIGNATURE_HEX_BYTES])
{
    struct hmac_sha256_ctx mac;
    begin_code(&mac, digests, by, on);
    for (size_t i = 0; i < digests->language_count; i++)
        code_words(&mac, digests->words[i].language, digests->words[i].digest);
    write_code(&mac, out);
}

const char *signature_key_beside(const char *path, struct arena *arena)
{
    const char *slash = strrchr(path, '/');
    const char *folder =
        slash ? arena_copy_bytes(arena, path, (size_t)(slash - path) + (slash == path)) : ".";
    const char *file = file_join(arena, folder, ".signing-key");
    struct diag quiet;
    struct bytes text;
    diag_init(&quiet);
    bool good = file_exists(file) &&
                file_read(file, SIGNATURE_HEX_BYTES + 1, arena, &quiet, &text) &&
                text.length >= SIGNATURE_HEX_BYTES - 1;
    diag_finish(&quiet);
    return good ? arena_copy_bytes(arena, text.data, SIGNATURE_HEX_BYTES - 1) : NULL;
}

/* ---- comparing ------------------------------------------------------------------------------ */

static const char *signed_part(const struct visit_signature *signature, const char *name)
{
    for (size_t i = 0; i < signature->parts.count; i++) {
        const struct named_text *named = LIST_AT(signature->parts, struct named_text, i);
        if (strcmp(named->name.text, name) == 0)
            return named->text.text;
    }
    return "";
}

static const char words_start[] = "words-";

/* The language whose words a signed part is, or NULL. */
static const char *words_of(const struct named_text *part)
{
    size_t length = sizeof words_start - 1;
    return strncmp(part->name.text, words_start, length) == 0 ? part->name.text + length : NULL;
}

/* The code out of a signature: with the words that it says it was given for. */
static void code_again(const struct visit_signature *signature,
                       const struct signature_digests *digests, char out[SIGNATURE_HEX_BYTES])
{
    struct hmac_sha256_ctx mac;
    begin_code(&mac, digests, signature->by.text, signature->on.date);
    for (size_t i = 0; i < signature->parts.count; i++) {
        const struct named_text *part = LIST_AT(signature->parts, struct named_text, i);
        if (words_of(part))
            code_words(&mac, words_of(part), part->text.text);
    }
    write_code(&mac, out);
}

void signature_compare(const struct visit_signature *signature,
                       const struct signature_digests *digests, struct signature *out)
{
    char code[SIGNATURE_HEX_BYTES];
    *out =
        (struct signature){.by = signature->by.text, .on = signature->on.date, .at = signature->at};
    if (!signature_has_digest(signature))
        return;
    code_again(signature, digests, code);
    out->is_signed = strcmp(signature->digest.text, code) == 0;
    out->is_stale = !out->is_signed;
    /* a part's digest may be written short: its first letters count */
    for (int i = 0; i < SIGNATURE_PART_COUNT && out->is_stale; i++) {
        const char *then = signed_part(signature, signature_part_word((enum signature_part)i));
        out->changed[i] = !*then || strncmp(then, digests->parts[i], strlen(then)) != 0;
    }
}

const char *signature_words_digest(const struct signature_digests *digests, const char *language)
{
    for (size_t i = 0; i < digests->language_count; i++)
        if (strcmp(digests->words[i].language, language) == 0)
            return digests->words[i].digest;
    return "";
}

void signature_compare_words(const struct visit_signature *signature,
                             const struct signature_digests *digests, const char *language,
                             struct signature *out)
{
    if (!out->is_signed && !out->is_stale)
        return;
    const char *then = "";
    for (size_t i = 0; i < signature->parts.count; i++) {
        const struct named_text *part = LIST_AT(signature->parts, struct named_text, i);
        if (words_of(part) && strcmp(words_of(part), language) == 0)
            then = part->text.text;
    }
    const char *now = signature_words_digest(digests, language);
    if (strlen(then) >= SIGNATURE_SHORT_LETTERS && strncmp(then, now, strlen(then)) == 0)
        return;
    out->is_signed = false;
    out->is_stale = true;
    out->changed[SIGNATURE_WORDING] = true;
}

static const char *changed_words(const struct signature *signature, struct arena *arena)
{
    static const char *const words[] = {
        [SIGNATURE_VISIT] = "the visit record",      [SIGNATURE_SPECIES] = "the species sheet",
        [SIGNATURE_RULES] = "the rules or findings", [SIGNATURE_WORDING] = "the wording or look",
        [SIGNATURE_CLINIC] = "the clinic's details", [SIGNATURE_PROGRAM] = "the program's formulas",
    };
    const char *text = NULL;
    for (int i = 0; i < SIGNATURE_PART_COUNT; i++)
        if (signature->changed[i])
            text = text ? arena_format(arena, "%s, %s", text, words[i]) : words[i];
    return text ? text : "the signature itself";
}

bool signature_has_digest(const struct visit_signature *signature)
{
    return signature->by.text && signature->digest.text;
}

void signature_tell_stale(const struct signature *signature, struct arena *arena, struct diag *diag)
{
    char on[16];
    date_write_iso(signature->on, on);
    diag_report(diag, DIAG_REMARK, "stale-signature", signature->at,
                "signed by %s on %s, but changed since: %s; a draft again", signature->by, on,
                changed_words(signature, arena));
}

bool signature_may_leave(const struct signature *signature, const char *file, bool drafts_too,
                         struct diag *diag)
{
    if (signature->is_signed || drafts_too)
        return true;
    diag_report(diag, DIAG_ERROR, "draft", (struct mark){.file = file},
                signature->is_stale
                    ? "is a draft again, because something changed after it was "
                      "signed; 'baskleaf approve' signs it anew, --drafts lets it go"
                    : "is a draft: no veterinarian has signed it; 'baskleaf "
                      "approve' signs it, --drafts lets it go");
    return false;
}
