/* The bytes of a PDF: the same for the same input, and faults that are told and leave no file. */
#include <stdlib.h>
#include <string.h>

#include "common/suite.h"
#include "pdf/pdf_parts.h"
#include "pdf/pdf_draw.h"
#include "page/sample.h"

/* What every test here needs. */
struct desk {
    struct arena arena;
    struct diag diag;
    struct fonts *fonts;
    struct sample *sample;
    struct bytes out;
};

static void open_desk(struct desk *desk, enum sample_kind kind)
{
    *desk = (struct desk){0};
    arena_init(&desk->arena);
    diag_init(&desk->diag);
    desk->fonts = fonts_new(FONTS_FOLDER, &desk->diag);
    ck_assert_ptr_nonnull(desk->fonts);
    desk->sample = sample_make(kind, &desk->arena);
}

static void close_desk(struct desk *desk)
{
    fonts_free(desk->fonts);
    diag_finish(&desk->diag);
    arena_finish(&desk->arena);
}

static bool write_sheet(struct desk *desk)
{
    return pdf_write(&desk->sample->paged, desk->fonts, &desk->arena, &desk->diag, &desk->out);
}

static struct op *find_op(struct desk *desk, enum op_kind kind)
{
    struct op *op = desk->sample->paged.pages[0].first;
    while (op != NULL && op->kind != kind)
        op = op->next;
    ck_assert_ptr_nonnull(op);
    return op;
}

static bool holds(const struct bytes *bytes, const char *text)
{
    return memmem(bytes->data, bytes->length, text, strlen(text)) != NULL;
}

START_TEST(same_operations_give_the_same_bytes)
{
    for (int kind = 0; kind < SAMPLE_COUNT; kind++) {
        struct desk one, other;
        open_desk(&one, (enum sample_kind)kind);
        open_desk(&other, (enum sample_kind)kind);
        ck_assert(write_sheet(&one) && write_sheet(&other));
        ck_assert_uint_eq(one.out.length, other.out.length);
        ck_assert_mem_eq(one.out.data, other.out.data, one.out.length);
        struct bytes first = one.out;
        ck_assert(write_sheet(&one)); /* again with fonts that were used before */
        ck_assert_uint_eq(one.out.length, first.length);
        ck_assert_mem_eq(one.out.data, first.data, first.length);
        ck_assert(!diag_failed(&one.diag));
        close_desk(&one);
        close_desk(&other);
    }
}
END_TEST

/* The 32 digits of the trailer's ID. */
static const char *find_id(const struct bytes *bytes)
{
    const char *id = memmem(bytes->data, bytes->length, "/ID [ <", 7);
    ck_assert_ptr_nonnull(id);
    return id + 7;
}

START_TEST(identifier_follows_the_content)
{
    struct desk desk;
    open_desk(&desk, SAMPLE_PLAIN);
    ck_assert(write_sheet(&desk));
    struct bytes before = desk.out;
    find_op(&desk, OP_TEXT)->text = "Biscuit, for Robin Other";
    ck_assert(write_sheet(&desk));
    ck_assert(memcmp(find_id(&before), find_id(&desk.out), 32) != 0);
    ck_assert(memcmp(find_id(&before), "00000000", 8) != 0);
    close_desk(&desk);
}
END_TEST

START_TEST(locked_sheet_claims_no_archive)
{
    struct desk desk;
    open_desk(&desk, SAMPLE_PLAIN);
    ck_assert(write_sheet(&desk));
    ck_assert(holds(&desk.out, "pdfaid:part") && holds(&desk.out, "pdfuaid:part"));
    desk.sample->document.is_locked = true;
    ck_assert(write_sheet(&desk));
    ck_assert(!holds(&desk.out, "pdfaid:part") && holds(&desk.out, "pdfuaid:part"));
    close_desk(&desk);
}
END_TEST

static void break_text(struct desk *desk)
{
    find_op(desk, OP_TEXT)->text = "cut \xE2\x89";
}

static void break_title(struct desk *desk)
{
    desk->sample->document.title = "cut \xE2\x89";
}

static void break_glyph(struct desk *desk)
{
    find_op(desk, OP_TEXT)->text = "a lizard: \U0001F98E";
}

static void break_logo_side(struct desk *desk)
{
    struct logo *logo = ARENA_NEW(&desk->arena, struct logo);
    *logo = *desk->sample->document.logo;
    logo->width_px = PLAYER_LOGO_SIDE_PX + 1;
    desk->sample->document.logo = logo;
}

static void break_logo_area(struct desk *desk)
{
    struct logo *logo = ARENA_NEW(&desk->arena, struct logo);
    *logo = *desk->sample->document.logo;
    logo->width_px = logo->height_px = 2049;
    desk->sample->document.logo = logo;
}

static void break_logo_missing(struct desk *desk)
{
    desk->sample->document.logo = NULL;
}

static void break_parent(struct desk *desk)
{
    desk->sample->paged.elements[3].parent = 4;
}

static void break_second_root(struct desk *desk)
{
    desk->sample->paged.elements[2].parent = -1;
}

static void break_element(struct desk *desk)
{
    find_op(desk, OP_RECT)->element = 599;
}

static void break_link(struct desk *desk)
{
    find_op(desk, OP_LINK)->element = 0;
}

static void break_size(struct desk *desk)
{
    find_op(desk, OP_TEXT)->size_pt = -1; /* libharu's own refusal */
}

static void break_pages(struct desk *desk)
{
    desk->sample->paged.page_count = 0;
}

static const struct {
    void (*damage)(struct desk *desk);
    const char *code;
} damages[] = {
    {break_text, "text-not-utf8"},       {break_title, "text-not-utf8"},
    {break_glyph, "no-glyph"},           {break_logo_side, "logo-unusable"},
    {break_logo_area, "logo-unusable"},  {break_logo_missing, "logo-unusable"},
    {break_parent, "structure-broken"},  {break_second_root, "structure-broken"},
    {break_element, "structure-broken"}, {break_link, "structure-broken"},
    {break_size, "pdf-failed"},          {break_pages, "structure-broken"},
};

START_TEST(damaged_operations_are_one_fault)
{
    struct desk desk;
    open_desk(&desk, SAMPLE_RICH);
    damages[_i].damage(&desk);
    desk.out.length = 12345;
    ck_assert(!write_sheet(&desk));
    ck_assert_uint_eq(desk.out.length, 12345); /* untouched */
    ck_assert_uint_eq(desk.diag.counts[DIAG_FAULT], 1);
    ck_assert_str_eq(desk.diag.first->code, damages[_i].code);
    close_desk(&desk);
}
END_TEST

/* The first code that libharu gives, not the one that it makes of it later. */
START_TEST(first_error_is_kept)
{
    struct desk desk;
    open_desk(&desk, SAMPLE_PLAIN);
    break_size(&desk);
    ck_assert(!write_sheet(&desk));
    ck_assert_ptr_nonnull(strstr(desk.diag.first->text, "0x1050")); /* PAGE_INVALID_FONT_SIZE */
    close_desk(&desk);
}
END_TEST

/* An allocator that fails from one call on. It remembers what it gave, because libharu loses
 * some of its objects when it runs out of memory. */
enum { GIVEN_LIMIT = 40000 };
static void *given[GIVEN_LIMIT];
static size_t given_count, given_fail_at;

static void *take_counted(HPDF_UINT size)
{
    if (given_count >= given_fail_at || given_count == GIVEN_LIMIT)
        return NULL;
    void *memory = malloc(size);
    given[given_count++] = memory;
    return memory;
}

static void keep(void *memory)
{
    (void)memory;
}

static void give_all_back(void)
{
    for (size_t i = 0; i < given_count; i++)
        free(given[i]);
    given_count = 0;
}

/* libharu without memory at every single call in turn. */
START_TEST(exhausted_memory_is_a_fault)
{
    static const struct haru_memory memory = {take_counted, keep};
    struct desk desk;
    open_desk(&desk, _i == 0 ? SAMPLE_PLAIN : SAMPLE_RICH);
    given_fail_at = GIVEN_LIMIT;
    ck_assert(pdf_write_with(&memory, &desk.sample->paged, desk.fonts, &desk.arena, &desk.diag,
                             &desk.out));
    size_t needed = given_count;
    give_all_back();
    ck_assert_uint_gt(needed, 500);
    size_t step = _i == 0 ? 1 : 7;
    for (given_fail_at = 0; given_fail_at < needed; given_fail_at += step) {
        struct diag diag;
        struct arena arena;
        diag_init(&diag);
        arena_init(&arena);
        ck_assert_msg(
            !pdf_write_with(&memory, &desk.sample->paged, desk.fonts, &arena, &diag, &desk.out),
            "call %zu", given_fail_at);
        ck_assert_uint_eq(diag.counts[DIAG_FAULT], 1);
        ck_assert_str_eq(diag.first->code, "pdf-failed");
        arena_finish(&arena);
        diag_finish(&diag);
        give_all_back();
    }
    close_desk(&desk);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("pdf");
    TCase *tcase = tcase_create("all");
    tcase_set_timeout(tcase, 100);
    tcase_add_test(tcase, same_operations_give_the_same_bytes);
    tcase_add_test(tcase, identifier_follows_the_content);
    tcase_add_test(tcase, locked_sheet_claims_no_archive);
    tcase_add_loop_test(tcase, damaged_operations_are_one_fault, 0,
                        sizeof damages / sizeof damages[0]);
    tcase_add_test(tcase, first_error_is_kept);
    tcase_add_loop_test(tcase, exhausted_memory_is_a_fault, 0, 2);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
