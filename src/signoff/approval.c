/* Digests of the five parts that a sheet depends on, and their comparison with a signature. */
#include "signoff/approval.h"

#include <stdio.h>
#include <string.h>
#include <nettle/sha2.h>

#include "yaml/tree.h"

const char *approval_part_word(enum approval_part part)
{
    static const char *const words[] = {
        [APPROVAL_VISIT] = "visit",     [APPROVAL_SPECIES] = "species", [APPROVAL_RULES] = "rules",
        [APPROVAL_WORDING] = "wording", [APPROVAL_CLINIC] = "clinic",
    };
    return words[part];
}

/* ---- digests ------------------------------------------------------------------------------ */

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

static void write_hex(struct sha256_ctx *sha, char out[APPROVAL_HEX_BYTES])
{
    static const char letters[] = "0123456789abcdef";
    uint8_t digest[SHA256_DIGEST_SIZE];
    sha256_digest(sha, sizeof digest, digest);
    for (size_t i = 0; i < sizeof digest; i++) {
        out[2 * i] = letters[digest[i] >> 4];
        out[2 * i + 1] = letters[digest[i] & 15];
    }
    out[2 * sizeof digest] = '\0';
}

static bool add_file(struct sha256_ctx *sha, const char *name, const char *path,
                     struct arena *arena, struct diag *diag)
{
    struct bytes bytes;
    if (!file_read(path, FILE_LIMIT_BYTES, arena, diag, &bytes))
        return false;
    add_text(sha, name);
    add_text(sha, bytes.data);
    return true;
}

static bool add_folder(struct sha256_ctx *sha, const char *folder, struct arena *arena,
                       struct diag *diag)
{
    const char **names = NULL;
    size_t count = file_list(folder, ".yaml", arena, diag, &names);
    bool good = !diag_failed(diag);
    for (size_t i = 0; i < count && good; i++)
        good = add_file(sha, names[i], file_join(arena, folder, names[i]), arena, diag);
    return good;
}

static bool digest_rules(const char *templates, struct arena *arena, struct diag *diag,
                         char out[APPROVAL_HEX_BYTES])
{
    static const char *const names[] = {"rules.yaml", "findings.yaml", "warning-signs.yaml",
                                        "reference-values.yaml"};
    struct sha256_ctx sha;
    sha256_init(&sha);
    bool good = true;
    for (size_t i = 0; i < sizeof names / sizeof *names && good; i++)
        good = add_file(&sha, names[i], file_join(arena, templates, names[i]), arena, diag);
    write_hex(&sha, out);
    return good;
}

static bool digest_wording(const char *templates, struct arena *arena, struct diag *diag,
                           char out[APPROVAL_HEX_BYTES])
{
    struct sha256_ctx sha;
    sha256_init(&sha);
    const char *wording = file_join(arena, templates, "wording");
    const char **languages = NULL;
    size_t count = file_list(wording, "", arena, diag, &languages);
    bool good = add_file(&sha, "look", file_join(arena, templates, "look.yaml"), arena, diag) &&
                add_folder(&sha, file_join(arena, templates, "sheets"), arena, diag);
    for (size_t i = 0; i < count && good; i++) {
        add_text(&sha, languages[i]);
        good = add_folder(&sha, file_join(arena, wording, languages[i]), arena, diag);
    }
    write_hex(&sha, out);
    return good;
}

static bool digest_file(const char *path, struct arena *arena, struct diag *diag,
                        char out[APPROVAL_HEX_BYTES])
{
    struct sha256_ctx sha;
    sha256_init(&sha);
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
                          char out[APPROVAL_HEX_BYTES])
{
    struct sha256_ctx sha;
    struct bytes bytes;
    const char *logo = clinic_logo_path(clinic, arena);
    sha256_init(&sha);
    bool good = add_file(&sha, "", clinic->file, arena, diag) &&
                (!logo || file_read(logo, FILE_LIMIT_BYTES, arena, diag, &bytes));
    if (good && logo)
        add(&sha, bytes.data, bytes.length);
    write_hex(&sha, out);
    return good;
}

bool approval_read_shared(const struct resources *resources, struct arena *arena, struct diag *diag,
                          struct approval_digests *out)
{
    *out = (struct approval_digests){0};
    return digest_rules(resources->templates, arena, diag, out->parts[APPROVAL_RULES]) &&
           digest_wording(resources->templates, arena, diag, out->parts[APPROVAL_WORDING]) &&
           digest_clinic(resources->clinic, arena, diag, out->parts[APPROVAL_CLINIC]);
}

static void digest_whole(struct approval_digests *out)
{
    struct sha256_ctx sha;
    sha256_init(&sha);
    for (int part = 0; part < APPROVAL_PART_COUNT; part++)
        add_text(&sha, out->parts[part]);
    write_hex(&sha, out->whole);
}

bool approval_digest(const struct visit_record *record, const struct approval_digests *shared,
                     struct arena *arena, struct diag *diag, struct approval_digests *out)
{
    char species[APPROVAL_HEX_BYTES];
    if (!approval_digest_file(record->species_file, arena, diag, species))
        return false;
    approval_digest_tree(record->tree, species, shared, out);
    return true;
}

bool approval_digest_file(const char *path, struct arena *arena, struct diag *diag,
                          char out[APPROVAL_HEX_BYTES])
{
    return digest_file(path, arena, diag, out);
}

void approval_digest_tree(const struct node *tree, const char *species,
                          const struct approval_digests *shared, struct approval_digests *out)
{
    struct sha256_ctx sha;
    *out = *shared;
    sha256_init(&sha);
    add_node(&sha, tree, 0);
    write_hex(&sha, out->parts[APPROVAL_VISIT]);
    snprintf(out->parts[APPROVAL_SPECIES], APPROVAL_HEX_BYTES, "%s", species);
    digest_whole(out);
}

void approval_digest_texts(const char *const *texts, size_t count, char out[APPROVAL_HEX_BYTES])
{
    struct sha256_ctx sha;
    sha256_init(&sha);
    for (size_t i = 0; i < count; i++)
        add_text(&sha, texts[i]);
    write_hex(&sha, out);
}

void approval_digest_bytes(struct bytes bytes, char out[APPROVAL_HEX_BYTES])
{
    struct sha256_ctx sha;
    sha256_init(&sha);
    add(&sha, bytes.data, bytes.length);
    write_hex(&sha, out);
}

/* ---- many records under one signature ------------------------------------------------------ */

struct approval_roll {
    struct sha256_ctx records, species;
};

struct approval_roll *approval_roll_new(struct arena *arena)
{
    struct approval_roll *roll = ARENA_NEW(arena, struct approval_roll);
    sha256_init(&roll->records);
    sha256_init(&roll->species);
    return roll;
}

void approval_roll_add(struct approval_roll *roll, const struct node *tree, const char *species)
{
    add_node(&roll->records, tree, 0);
    add_text(&roll->species, species);
}

void approval_roll_end(struct approval_roll *roll, const struct approval_digests *shared,
                       struct approval_digests *out)
{
    *out = *shared;
    write_hex(&roll->records, out->parts[APPROVAL_VISIT]);
    write_hex(&roll->species, out->parts[APPROVAL_SPECIES]);
    digest_whole(out);
}

/* ---- comparing ------------------------------------------------------------------------------ */

static const char *signed_part(const struct visit_signature *signature, enum approval_part part)
{
    for (size_t i = 0; i < signature->parts.count; i++) {
        const struct named_text *named = LIST_AT(signature->parts, struct named_text, i);
        if (strcmp(named->name.text, approval_part_word(part)) == 0)
            return named->text.text;
    }
    return "";
}

void approval_compare(const struct visit_signature *signature,
                      const struct approval_digests *digests, struct approval *out)
{
    *out =
        (struct approval){.by = signature->by.text, .on = signature->on.date, .at = signature->at};
    if (!approval_has_digest(signature))
        return;
    out->is_signed = strcmp(signature->digest.text, digests->whole) == 0;
    out->is_stale = !out->is_signed;
    /* a part's digest may be written short: its first letters count */
    for (int i = 0; i < APPROVAL_PART_COUNT && out->is_stale; i++) {
        const char *then = signed_part(signature, (enum approval_part)i);
        out->changed[i] = !*then || strncmp(then, digests->parts[i], strlen(then)) != 0;
    }
}

static const char *changed_words(const struct approval *approval, struct arena *arena)
{
    static const char *const words[] = {
        [APPROVAL_VISIT] = "the visit record",      [APPROVAL_SPECIES] = "the species sheet",
        [APPROVAL_RULES] = "the rules or findings", [APPROVAL_WORDING] = "the wording or look",
        [APPROVAL_CLINIC] = "the clinic's details",
    };
    const char *text = NULL;
    for (int i = 0; i < APPROVAL_PART_COUNT; i++)
        if (approval->changed[i])
            text = text ? arena_format(arena, "%s, %s", text, words[i]) : words[i];
    return text ? text : "the signature itself";
}

bool approval_has_digest(const struct visit_signature *signature)
{
    return signature->by.text && signature->digest.text;
}

void approval_tell_stale(const struct approval *approval, struct arena *arena, struct diag *diag)
{
    char on[16];
    date_write_iso(approval->on, on);
    diag_report(diag, DIAG_REMARK, "stale-approval", approval->at,
                "signed by %s on %s, but changed since: %s; a draft again", approval->by, on,
                changed_words(approval, arena));
}

bool approval_may_leave(const struct approval *approval, const char *file, bool drafts_too,
                        struct diag *diag)
{
    if (approval->is_signed || drafts_too)
        return true;
    diag_report(diag, DIAG_ERROR, "draft", (struct mark){.file = file},
                approval->is_stale ? "is a draft again, because something changed after it was "
                                     "signed; 'baskleaf approve' signs it anew, --drafts lets it go"
                                   : "is a draft: no veterinarian has signed it; 'baskleaf "
                                     "approve' signs it, --drafts lets it go");
    return false;
}
