/* What a signature is, byte by byte, so that one that was given holds for as long as nothing
 * changes: SHA-256 (FIPS 180-4) and HMAC (RFC 2104) by Nettle over the sequence that this test
 * writes down itself. Each text stands behind its length of eight bytes in the machine's own order;
 * a file is its name, its length and its bytes. And where in a record's text a signature may stand,
 * all else left as it is. */
#include <nettle/hmac.h>
#include <nettle/sha2.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/strbuf.h"
#include "common/own_folder.h"
#include "common/suite.h"
#include "signing/sign.h"
#include "yaml/tree.h"

/* ---- digests -------------------------------------------------------------------------------- */

static void add(struct strbuf *out, const char *text)
{
    uint64_t length = text ? strlen(text) : UINT64_MAX;
    strbuf_add_bytes(out, (const char *)&length, sizeof length);
    strbuf_add(out, text ? text : "");
}

static const char *hex(const uint8_t *bytes)
{
    const char *out = "";
    for (size_t i = 0; i < SHA256_DIGEST_SIZE; i++)
        out = arena_format(&arena, "%s%02x", out, bytes[i]);
    return out;
}

static const char *digest(const struct strbuf *of)
{
    uint8_t bytes[SHA256_DIGEST_SIZE];
    struct sha256_ctx sha;
    sha256_init(&sha);
    sha256_update(&sha, of->length, (const uint8_t *)of->text);
    sha256_digest(&sha, sizeof bytes, bytes);
    return hex(bytes);
}

static struct strbuf empty(void)
{
    struct strbuf out;
    strbuf_init(&out, &arena);
    return out;
}

static const char *put(const char *name, const char *text)
{
    const char *path = file_join(&arena, folder, name);
    ck_assert(file_make_folders(path, &arena, &diag));
    ck_assert(file_write_atomic(path, text, strlen(text), 0600, &diag));
    return path;
}

/* FIPS 180-4 as its examples have it: "abc". */
START_TEST(bytes_have_the_published_digest)
{
    char out[SIGNATURE_HEX_BYTES];
    signature_digest_bytes((struct bytes){"abc", 3}, out);
    ck_assert_str_eq(out, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}
END_TEST

/* Two sequences of texts that read the same in a row have not the same digest. */
START_TEST(texts_have_the_digest_of_their_sequence)
{
    char out[SIGNATURE_HEX_BYTES], other[SIGNATURE_HEX_BYTES];
    struct strbuf sequence = empty();
    add(&sequence, "ab"), add(&sequence, "c"), add(&sequence, NULL), add(&sequence, "");
    signature_digest_texts((const char *const[]){"ab", "c", NULL, ""}, 4, out);
    ck_assert_str_eq(out, digest(&sequence));
    signature_digest_texts((const char *const[]){"a", "bc", NULL, ""}, 4, other);
    ck_assert_str_ne(out, other);
    signature_digest_texts((const char *const[]){"ab", "c", "", NULL}, 4, other);
    ck_assert_str_ne(out, other);
}
END_TEST

START_TEST(a_species_sheet_is_its_file_and_ours_below_it)
{
    char out[SIGNATURE_HEX_BYTES];
    const char *own = put("own.yaml", "own\n"), *ours = put("ours.yaml", "our sheet\n");
    struct strbuf first = empty(), second = empty(), both = empty();
    add(&first, ""), add(&first, "own\n");
    add(&second, ""), add(&second, "our sheet\n");
    ck_assert(signature_digest_species(own, NULL, &arena, &diag, out));
    ck_assert_str_eq(out, digest(&first));
    add(&both, digest(&first)), add(&both, digest(&second));
    ck_assert(signature_digest_species(own, ours, &arena, &diag, out));
    ck_assert_str_eq(out, digest(&both));
    ck_assert(
        !signature_digest_species(own, file_join(&arena, folder, "gone"), &arena, &diag, out));
    ck_assert(
        !signature_digest_species(file_join(&arena, folder, "gone"), ours, &arena, &diag, out));
}
END_TEST

static void add_file(struct strbuf *out, const char *name, const char *text)
{
    add(out, name), add(out, text);
}

static const char *const rule_files[] = {
    "rules.yaml",        "topics.yaml",           "settlements.yaml",
    "instructions.yaml", "findings.yaml",         "warning-signs.yaml",
    "steps.yaml",        "reference-values.yaml", "foods.yaml"};

/* The rules, the page, each language's words but the desk's, the clinic with its logo: the parts
 * that all sheets of a run share. */
START_TEST(what_is_shared_has_the_digest_of_its_files)
{
    struct strbuf rules = empty(), page = empty(), english = empty(), spanish = empty(),
                  clinic = empty(), program = empty();
    struct clinic own = {.file = put("clinic.yaml", "name: Fern\n"), .logo.text = "logo.png"};
    for (size_t i = 0; i < sizeof rule_files / sizeof *rule_files; i++) {
        const char *text = arena_format(&arena, "file %zu\n", i);
        put(rule_files[i], text);
        add_file(&rules, rule_files[i], text);
    }
    put("look.yaml", "look\n"), put("sheets/a.yaml", "one\n"), put("sheets/b.yaml", "two\n"),
        put("sheets/c.txt", "none\n");
    put("fonts/x.z", "packed\n"), put("fonts/y.ttf", "font\n");
    add_file(&page, "look", "look\n"), add_file(&page, "a.yaml", "one\n"),
        add_file(&page, "b.yaml", "two\n");
    add_file(&page, "x.z", "packed\n"), add_file(&page, "y.ttf", "font\n");
    put("wording/en/desk.yaml", "desk\n"), put("wording/en/sheet.yaml", "en\n"),
        put("wording/es/sheet.yaml", "es\n");
    put("wording/README", "no folder\n");
    add_file(&english, "sheet.yaml", "en\n"), add_file(&spanish, "sheet.yaml", "es\n");
    put("logo.png", "a logo");
    add_file(&clinic, "", "name: Fern\n"), strbuf_add(&clinic, "a logo");
    add(&program, arena_format(&arena, "formulas %d", CARE_FORMULA_EPOCH));
    const struct resources resources = {.templates = folder,
                                        .fonts = file_join(&arena, folder, "fonts"),
                                        .clinic = &own,
                                        .places.signing_key = "key"};
    struct signature_digests out;
    ck_assert(signature_read_shared(&resources, NULL, &arena, &diag, &out));
    ck_assert_str_eq(out.parts[SIGNATURE_RULES], digest(&rules));
    ck_assert_str_eq(out.parts[SIGNATURE_WORDING], digest(&page));
    ck_assert_str_eq(out.parts[SIGNATURE_CLINIC], digest(&clinic));
    ck_assert_str_eq(out.parts[SIGNATURE_PROGRAM], digest(&program));
    ck_assert_uint_eq(out.language_count, 2);
    ck_assert_str_eq(signature_words_digest(&out, "en"), digest(&english));
    ck_assert_str_eq(signature_words_digest(&out, "es"), digest(&spanish));
    ck_assert_str_eq(signature_words_digest(&out, "fr"), "");
    ck_assert_str_eq(out.key, "key");
    own.logo.text = NULL;
    clinic = empty();
    add_file(&clinic, "", "name: Fern\n");
    ck_assert(signature_read_shared(&resources, NULL, &arena, &diag, &out));
    ck_assert_str_eq(out.parts[SIGNATURE_CLINIC], digest(&clinic));
    /* a part that cannot be read is no part */
    static const char *const needed[] = {"foods.yaml", "rules.yaml", "look.yaml", "clinic.yaml"};
    for (size_t i = 0; i < 4; i++) {
        const char *path = file_join(&arena, folder, needed[i]),
                   *aside = file_join(&arena, folder, "aside");
        ck_assert_int_eq(rename(path, aside), 0);
        ck_assert_msg(!signature_read_shared(&resources, NULL, &arena, &diag, &out), "%s",
                      needed[i]);
        ck_assert_int_eq(rename(aside, path), 0);
    }
}
END_TEST

/* ---- a record ------------------------------------------------------------------------------- */

static const struct node *tree_of(const char *text)
{
    const struct node *tree =
        tree_read_bytes("v.yaml", (struct bytes){text, strlen(text)}, &arena, &diag);
    ck_assert_ptr_nonnull(tree);
    return tree;
}

static const struct signature_digests shared = {.parts = {"", "", "r", "w", "c", "p"}};

static const char *visit_digest(const char *text)
{
    struct signature_digests out;
    signature_digest_tree(tree_of(text), "s", &shared, &out);
    ck_assert_str_eq(out.parts[SIGNATURE_SPECIES], "s");
    struct strbuf whole = empty();
    for (int i = 0; i < SIGNATURE_PART_COUNT; i++)
        add(&whole, out.parts[i]);
    ck_assert_str_eq(out.whole, digest(&whole));
    return arena_copy_text(&arena, out.parts[SIGNATURE_VISIT]);
}

/* Keys, values, their kinds and their order; the signature of the record, a level down, is none of
 * it. */
START_TEST(a_record_is_its_keys_and_values)
{
    static const char text[] =
        "visit: {kind: a, signed-off: {by: x}}\nlist: [b, {signed-off: c}]\n";
    static const char *const sequence[] = {"{", NULL,  "visit", "{",    NULL, "kind", "=",
                                           "a", "end", "end",   "list", "[",  NULL,   NULL,
                                           "=", "b",   "end",   NULL,   "{",  NULL};
    struct strbuf of = empty();
    for (size_t i = 0; i < sizeof sequence / sizeof *sequence; i++)
        add(&of, sequence[i]);
    add(&of, "signed-off"), add(&of, "="), add(&of, "c"), add(&of, "end");
    add(&of, "end"), add(&of, "end"), add(&of, "end");
    ck_assert_str_eq(visit_digest(text), digest(&of));
    ck_assert_str_eq(
        visit_digest("{visit:   {'kind': \"a\"}, # words\n list: [b, {signed-off: c}]}\n"),
        digest(&of));
    ck_assert_str_ne(visit_digest("visit: {kind: a}\nlist: [b, {signed-off: d}]\n"), digest(&of));
    ck_assert_str_ne(visit_digest("list: [b, {signed-off: c}]\nvisit: {kind: a}\n"), digest(&of));
    ck_assert_str_ne(visit_digest("visit: {kind: [a]}\nlist: [b, {signed-off: c}]\n"), digest(&of));
}
END_TEST

START_TEST(a_roll_is_its_records_in_order)
{
    const char *first = "visit: {kind: a}\n", *second = "visit: {kind: b}\n";
    struct signature_digests out, other;
    struct signature_roll *roll = signature_roll_new(NULL, &arena);
    struct strbuf species = empty();
    signature_roll_add(roll, tree_of(first), "s1");
    signature_roll_add(roll, tree_of(second), NULL);
    signature_roll_end(roll, &shared, &out);
    add(&species, "s1"), add(&species, NULL);
    ck_assert_str_eq(out.parts[SIGNATURE_SPECIES], digest(&species));
    roll = signature_roll_new(NULL, &arena);
    signature_roll_add(roll, tree_of(first), "s1");
    signature_roll_end(roll, &shared, &other);
    ck_assert_str_eq(other.parts[SIGNATURE_VISIT], visit_digest(first));
    ck_assert_str_ne(other.parts[SIGNATURE_VISIT], out.parts[SIGNATURE_VISIT]);
    struct strbuf whole = empty();
    for (int i = 0; i < SIGNATURE_PART_COUNT; i++)
        add(&whole, out.parts[i]);
    ck_assert_str_eq(out.whole, digest(&whole));
    ck_assert_str_eq(out.parts[SIGNATURE_WORDING], "w");
}
END_TEST

/* ---- the code ------------------------------------------------------------------------------- */

static const struct signature_words own_words[] = {{"en", "0123456789abcdefXXXX"},
                                                   {"es", "fedcba9876543210YYYY"}};

static const char *code_of(const char *key, const char *by, const char *day)
{
    uint8_t bytes[SHA256_DIGEST_SIZE];
    struct hmac_sha256_ctx mac;
    const char *const texts[] = {"whole",           by, day, "en", "0123456789abcdef", "es",
                                 "fedcba9876543210"};
    hmac_sha256_set_key(&mac, strlen(key), (const uint8_t *)key);
    for (size_t i = 0; i < 7; i++)
        hmac_sha256_update(&mac, strlen(texts[i]) + 1, (const uint8_t *)texts[i]);
    hmac_sha256_digest(&mac, sizeof bytes, bytes);
    return hex(bytes);
}

static struct list listed(const char *const (*rows)[2], size_t count)
{
    struct named_text *items = ARENA_ARRAY(&arena, struct named_text, count + 1);
    for (size_t i = 0; i < count; i++)
        items[i] = (struct named_text){.name.text = rows[i][0], .text.text = rows[i][1]};
    return (struct list){.items = items, .count = count};
}

static const char *const parts[][2] = {{"visit", "v"},
                                       {"species", "s"},
                                       {"rules", "r"},
                                       {"wording", "w"},
                                       {"clinic", "c"},
                                       {"program", "p"},
                                       {"words-en", "0123456789abcdef"},
                                       {"words-es", "fedcba9876543210"}};

static struct signature compared(const char *code, struct list of)
{
    struct signature_digests now = {.parts = {"v1", "s1", "r1", "w1", "c1", "p1"},
                                    .whole = "whole",
                                    .words = own_words,
                                    .language_count = 2};
    struct visit_signature written = {.by.text = "Dr Calder",
                                      .on = {.known = true, .date = {2026, 3, 14}},
                                      .digest.text = code,
                                      .parts = of,
                                      .at = {"v.yaml", 3, 1}};
    struct signature out = {0};
    signature_compare(&written, &now, &out);
    signature_compare_words(&written, &now, "en", &out);
    return out;
}

START_TEST(a_code_is_of_all_that_was_signed)
{
    const struct signature_digests digests = {
        .whole = "whole", .words = own_words, .language_count = 2};
    struct signature_digests keyed = digests;
    char code[SIGNATURE_HEX_BYTES];
    signature_code(&digests, "Dr Calder", (struct date){2026, 3, 14}, code);
    ck_assert_str_eq(code, code_of("", "Dr Calder", "2026-03-14"));
    keyed.key = "a key";
    signature_code(&keyed, "Dr Calder", (struct date){2026, 3, 14}, code);
    ck_assert_str_eq(code, code_of("a key", "Dr Calder", "2026-03-14"));
}
END_TEST

START_TEST(a_signature_holds_or_says_what_changed)
{
    struct signature out = compared(code_of("", "Dr Calder", "2026-03-14"), listed(parts, 8));
    ck_assert(out.is_signed && !out.is_stale);
    ck_assert_str_eq(out.by, "Dr Calder");
    ck_assert_int_eq(out.at.line, 3);
    struct diag quiet;
    diag_init(&quiet);
    ck_assert(signature_may_leave(&out, "v.yaml", false, &quiet));
    /* a code of anything else; of the parts each that differs is named */
    for (int part = 0; part < SIGNATURE_PART_COUNT; part++) {
        const char *rows[8][2];
        memcpy(rows, parts, sizeof rows);
        rows[part][1] = "x";
        out = compared("another", listed((const char *const(*)[2])rows, 8));
        ck_assert(!out.is_signed && out.is_stale);
        for (int i = 0; i < SIGNATURE_PART_COUNT; i++)
            ck_assert_int_eq(out.changed[i], i == part);
        rows[part][1] = "";
        out = compared("another", listed((const char *const(*)[2])rows, 8));
        ck_assert(out.changed[part]);
        ck_assert(!signature_may_leave(&out, "v.yaml", false, &quiet));
        ck_assert_ptr_nonnull(strstr(quiet.last->text, "a draft again"));
        ck_assert(signature_may_leave(&out, "v.yaml", true, &quiet));
    }
    signature_tell_stale(&out, &arena, &quiet);
    ck_assert_ptr_nonnull(
        strstr(quiet.last->text,
               "signed by Dr Calder on 2026-03-14, but changed since: the program's formulas;"));
    out = compared(NULL, listed(parts, 8));
    ck_assert(!out.is_signed && !out.is_stale);
    ck_assert(!signature_may_leave(&out, "v.yaml", false, &quiet));
    ck_assert_ptr_nonnull(strstr(quiet.last->text, "no veterinarian has signed it"));
    diag_finish(&quiet);
}
END_TEST

/* The words of the sheet's own language alone; a digest shorter than what is written down says
 * nothing. */
START_TEST(words_are_of_one_language)
{
    const struct signature_digests now = {.words = own_words, .language_count = 2};
    static const struct {
        const char *en, *language;
        bool good;
    } rows[] = {{"0123456789abcdef", "en", true},  {"0123456789abcde", "en", false},
                {"0123456789abcdeX", "en", false}, {"another-one-here", "es", true},
                {"0123456789abcdef", "fr", false}, {"0123456789abcdefX", "en", true}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const char *own[2][2] = {{"words-en", rows[i].en}, {"words-es", "fedcba9876543210"}};
        struct visit_signature written = {.parts = listed((const char *const(*)[2])own, 2)};
        struct signature out = {.is_signed = true};
        signature_compare_words(&written, &now, rows[i].language, &out);
        ck_assert_msg(out.is_signed == rows[i].good && out.is_stale == !rows[i].good, "row %zu", i);
        ck_assert_int_eq(out.changed[SIGNATURE_WORDING], !rows[i].good);
        out = (struct signature){0};
        signature_compare_words(&written, &now, rows[i].language, &out);
        ck_assert(!out.is_stale); /* nobody signed */
    }
}
END_TEST

/* 64 letters of a file beside the record; one that is shorter is no key. */
START_TEST(a_key_lies_beside_the_record)
{
    static const char key[] = "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";
    const char *record = file_join(&arena, folder, "visit.yaml");
    ck_assert_ptr_null(signature_key_beside(record, &arena));
    put(".signing-key", arena_format(&arena, "%s\n", key));
    ck_assert_str_eq(signature_key_beside(record, &arena), key);
    put(".signing-key", key);
    ck_assert_str_eq(signature_key_beside(record, &arena), key);
    put(".signing-key", key + 1);
    ck_assert_ptr_null(signature_key_beside(record, &arena));
    put(".signing-key", key);
    ck_assert_int_eq(chdir(folder), 0);
    ck_assert_str_eq(signature_key_beside("visit.yaml", &arena), key);
    ck_assert_int_eq(chdir("/"), 0);
    ck_assert_ptr_null(signature_key_beside("/no-such-record.yaml", &arena));
}
END_TEST

/* ---- the text ------------------------------------------------------------------------------- */

static struct signature_digests signing_digests(void)
{
    struct signature_digests out = {.parts = {"v", "s", "r", "w", "c", "p"},
                                    .whole = "whole",
                                    .words = own_words,
                                    .language_count = 2};
    return out;
}

static bool signs(const char *text, const char **out)
{
    struct signature_digests digests = signing_digests();
    const struct signing signing = {"visit", "Dr \"Ines\" Calder", {2026, 3, 14}, &digests};
    struct bytes result = {.data = "untouched"};
    bool good =
        sign_text("v.yaml", (struct bytes){text, strlen(text)}, &signing, &arena, &diag, &result);
    *out = result.data;
    ck_assert(good || strcmp(result.data, "untouched") == 0);
    return good;
}

static const char value[] =
    "{\"by\": \"Dr \\\"Ines\\\" Calder\", \"on\": \"2026-03-14\", \"digest\": \"%s\", \"parts\": "
    "{\"visit\": \"v\", \"species\": \"s\", \"rules\": \"r\", "
    "\"wording\": \"w\", \"clinic\": \"c\", \"program\": \"p\", \"words-en\": "
    "\"0123456789abcdef\", \"words-es\": \"fedcba9876543210\"}%s}";

/* @ stands for the signature; what stood before it is its own text, put back by taking "signed-off:
 * @" out. */
static const struct {
    const char *before, *after, *earlier;
} places[] = {
    {"visit: {kind: a}\n", "visit: {signed-off: @, kind: a}\n", ""},
    {"{\"visit\": {\"kind\": \"a\"}}\n", "{\"visit\": {\"signed-off\": @, \"kind\": \"a\"}}\n", ""},
    {"visit:\n  kind: a # words\n  date: b\n",
     "visit:\n  signed-off: @\n  kind: a # words\n  date: b\n", ""},
    {"visit:\r\n  kind: a\r\n", "visit:\r\n  signed-off: @\r\n  kind: a\r\n", ""},
    {"\xef\xbb\xbfvisit:\n    kind: a\n", "\xef\xbb\xbfvisit:\n    signed-off: @\n    kind: a\n",
     ""},
    {"\xef\xbb\xbf{visit: {kind: a}}", "\xef\xbb\xbf{visit: {signed-off: @, kind: a}}", ""},
    {"patient: {name: \u00d1and\u00fa, \"a\": 1}\nvisit: {kind: \u00e9}",
     "patient: {name: \u00d1and\u00fa, \"a\": 1}\nvisit: {signed-off: @, kind: \u00e9}", ""},
    {"{patient: {name: \u00d1and\u00fa}, visit: {kind: a}}",
     "{patient: {name: \u00d1and\u00fa}, visit: {signed-off: @, kind: a}}", ""},
    {"visit: {kind: a, signed-off: {by: \"Eva } \\\" {\", on: 2026-01-01, digest: x}, date: b}\n",
     "visit: {kind: a, signed-off: @, date: b}\n",
     ", \"earlier\": [{\"by\": \"Eva } \\\" {\", \"on\": \"2026-01-01\", \"digest\": \"x\"}]"},
    {"visit: {signed-off: {by: 'E [', on: 2026-01-01, digest: x, earlier: [{by: F, on: 2025-01-01, "
     "digest: y}]}}\n",
     "visit: {signed-off: @}\n",
     ", \"earlier\": [{\"by\": \"E [\", \"on\": \"2026-01-01\", \"digest\": \"x\"}, {\"by\": "
     "\"F\", \"on\": \"2025-01-01\", \"digest\": \"y\"}]"},
    {"visit:\n  signed-off:\n    by: Eva\n\n    on: 2026-01-01\n  kind: a\n",
     "visit:\n  signed-off: @\n  kind: a\n",
     ", \"earlier\": [{\"by\": \"Eva\", \"on\": \"2026-01-01\", \"digest\": \"\"}]"},
    {"visit:\n  kind: a\n  signed-off:\n    by: Eva\n    on: 2026-01-01\n# the end\npatient: "
     "{name: b}\n",
     "visit:\n  kind: a\n  signed-off: @\n# the end\npatient: {name: b}\n",
     ", \"earlier\": [{\"by\": \"Eva\", \"on\": \"2026-01-01\", \"digest\": \"\"}]"},
    {"visit:\n  kind: a\n  signed-off:\n    by: Eva\n    on: 2026-01-01",
     "visit:\n  kind: a\n  signed-off: @",
     ", \"earlier\": [{\"by\": \"Eva\", \"on\": \"2026-01-01\", \"digest\": \"\"}]"},
    {"visit:\r\n  signed-off:\r\n    by: Eva\r\n  kind: a\r\n",
     "visit:\r\n  signed-off: @\r\n  kind: a\r\n",
     ", \"earlier\": [{\"by\": \"Eva\", \"on\": \"\", \"digest\": \"\"}]"},
    {"visit: {signed-off: {earlier: [{by: F, on: 2025-01-01, digest: y}]}, kind: a}\n",
     "visit: {signed-off: @, kind: a}\n",
     ", \"earlier\": [{\"by\": \"F\", \"on\": \"2025-01-01\", \"digest\": \"y\"}]"},
};

START_TEST(a_signature_stands_in_its_place_and_nothing_else_moves)
{
    char code[SIGNATURE_HEX_BYTES];
    const struct signature_digests digests = signing_digests();
    const char *out, *again, *at = strchr(places[_i].after, '@');
    signature_code(&digests, "Dr \"Ines\" Calder", (struct date){2026, 3, 14}, code);
    ck_assert_msg(signs(places[_i].before, &out), "%s", diag.first ? diag.first->text : "");
    struct strbuf wanted = empty();
    strbuf_add_bytes(&wanted, places[_i].after, (size_t)(at - places[_i].after));
    strbuf_addf(&wanted, value, code, places[_i].earlier);
    strbuf_add(&wanted, at + 1);
    ck_assert_str_eq(out, wanted.text);
    /* the same once more is no other */
    ck_assert(signs(out, &again));
    ck_assert_str_eq(again, out);
}
END_TEST

START_TEST(twenty_who_signed_before_are_kept)
{
    const char *text = "visit: {kind: a, signed-off: {by: E, on: x, digest: y, earlier: [", *out;
    for (int i = 0; i < 25; i++)
        text = arena_format(&arena, "%s%s{by: N%d, on: x, digest: y}", text, i ? ", " : "", i);
    ck_assert(signs(arena_format(&arena, "%s]}}\n", text), &out));
    ck_assert_ptr_nonnull(strstr(out, "\"by\": \"N18\""));
    ck_assert_ptr_null(strstr(out, "\"by\": \"N19\""));
}
END_TEST

/* What finds no safe place is refused with what to write by hand. */
static const char *const unsafe[] = {
    "patient: {name: a}\n",
    "visit: a\n",
    "visit: [a]\n",
    "visit: {}\n",
    "a: &x {kind: b}\nvisit: *x\n",
    "visit: {kind: a, signed-off: b}\n",
    "visit: {kind: a, \"signed-off\": [b]}\n",
    /* a stray quote, which would take the note with it, and a note that is the old signature */
    "visit:\n  kind: a\n  signed-off: {by: O'Hara}\n  note: it's }\n  date: b\n",
    "visit:\n  kind: a\n  signed-off: {by: O'Hara}\n  note: it's }\n",
    "visit: {kind: a, signed-off: &old {by: E}, note: *old}\n",
    "visit: {kind: a, signed-off: &old {by: E}}\nnotes: [a, *old]\n",
};

START_TEST(what_has_no_safe_place_is_refused)
{
    const char *out;
    ck_assert_msg(!signs(unsafe[_i], &out), "%s", out);
    ck_assert_str_eq(diag.first->code, "cannot-sign");
    ck_assert_ptr_nonnull(strstr(diag.first->text, "signed-off: {\"by\": "));
}
END_TEST

START_TEST(what_is_no_yaml_is_refused)
{
    const char *out;
    ck_assert(!signs("visit: {kind: a\n", &out));
    ck_assert_uint_eq(diag.counts[DIAG_ERROR], 1);
}
END_TEST

/* A record that has a second name is not parted from it. */
START_TEST(a_file_of_two_names_is_refused)
{
    struct bytes read;
    const char *path = put("v.yaml", "before"), *other = file_join(&arena, folder, "w.yaml");
    ck_assert(sign_write(path, (struct bytes){"after", 5}, &diag));
    ck_assert_int_eq(link(path, other), 0);
    ck_assert(!sign_write(path, (struct bytes){"later", 5}, &diag));
    ck_assert_str_eq(diag.first->code, "has-two-names");
    ck_assert(file_read(other, 99, &arena, &diag, &read));
    ck_assert_str_eq(read.data, "after");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("signature");
    TCase *own = tcase_create("signature");
    tcase_add_checked_fixture(own, set_up_folder, tear_down_folder);
    tcase_set_timeout(own, 30);
    tcase_add_test(own, bytes_have_the_published_digest);
    tcase_add_test(own, texts_have_the_digest_of_their_sequence);
    tcase_add_test(own, a_species_sheet_is_its_file_and_ours_below_it);
    tcase_add_test(own, what_is_shared_has_the_digest_of_its_files);
    tcase_add_test(own, a_record_is_its_keys_and_values);
    tcase_add_test(own, a_roll_is_its_records_in_order);
    tcase_add_test(own, a_code_is_of_all_that_was_signed);
    tcase_add_test(own, a_signature_holds_or_says_what_changed);
    tcase_add_test(own, words_are_of_one_language);
    tcase_add_test(own, a_key_lies_beside_the_record);
    tcase_add_loop_test(own, a_signature_stands_in_its_place_and_nothing_else_moves, 0,
                        sizeof places / sizeof *places);
    tcase_add_test(own, twenty_who_signed_before_are_kept);
    tcase_add_loop_test(own, what_has_no_safe_place_is_refused, 0, sizeof unsafe / sizeof *unsafe);
    tcase_add_test(own, what_is_no_yaml_is_refused);
    tcase_add_test(own, a_file_of_two_names_is_refused);
    suite_add_tcase(suite, own);
    return suite_run(suite);
}
