/* What was bound when the program was built is what binding the same files gives: every value with
 * its place, in each of the tables. */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "common/suite.h"
#include "common/arena_and_diag.h"
#include "base/file.h"
#include "records/findings.h"
#include "records/instructions.h"
#include "records/reference_values.h"
#include "records/rules.h"
#include "records/sheet_template.h"
#include "records/steps.h"
#include "records/topics.h"
#include "records/unlisted.h"
#include "records/shipped_files.h"
#include "yaml/shipped.h"

static const struct {
    const char *name;
    const struct schema *schema;
} files[] = {
    {"templates/findings.yaml", &finding_catalogue_schema},
    {"templates/warning-signs.yaml", &sign_catalogue_schema},
    {"templates/rules.yaml", &rule_book_schema},
    {"templates/steps.yaml", &step_book_schema},
    {"templates/reference-values.yaml", &reference_values_schema},
    {"templates/foods.yaml", &foods_schema},
    {"templates/topics.yaml", &topic_catalogue_schema},
    {"templates/settlements.yaml", &settlement_book_schema},
    {"templates/instructions.yaml", &instruction_catalogue_schema},
    {"templates/unlisted.yaml", &unlisted_animals_schema},
    {"templates/look.yaml", &look_schema},
    {"templates/sheets/adoption.yaml", &sheet_template_schema},
    {"templates/sheets/card.yaml", &sheet_template_schema},
    {"templates/sheets/checkout.yaml", &sheet_template_schema},
    {"templates/sheets/clinic.yaml", &sheet_template_schema},
    {"templates/sheets/email.yaml", &sheet_template_schema},
    {"templates/sheets/large-print.yaml", &sheet_template_schema},
    {"templates/sheets/phone.yaml", &sheet_template_schema},
    {"templates/sheets/reading.yaml", &sheet_template_schema},
};

/* How many values were compared that hold something. */
static size_t compared;

static void same_mark(struct mark one, struct mark other)
{
    ck_assert_pstr_eq(one.file, other.file);
    ck_assert_msg(one.line == other.line && one.column == other.column, "%s:%d:%d, not %d:%d",
                  other.file, one.line, one.column, other.line, other.column);
    compared += other.file != NULL;
}

static void same_texts(const struct text_value *one, const struct text_value *other)
{
    ck_assert_pstr_eq(one->text, other->text);
    same_mark(one->at, other->at);
}

static void same_numbers(enum field_kind kind, const void *one, const void *other)
{
    const struct quantity *q = one, *p = other;
    const struct band *b = one, *c = other;
    const struct box *x = one, *y = other;
    const struct choice_value *d = one, *e = other;
    const struct flag_value *f = one, *g = other;
    switch (kind) {
    case FIELD_QUANTITY:
        ck_assert(q->known == p->known && q->value == p->value && q->written == p->written &&
                  q->unit == p->unit);
        same_mark(q->at, p->at);
        break;
    case FIELD_BAND:
        ck_assert(b->known == c->known && b->low == c->low && b->high == c->high &&
                  b->unit == c->unit);
        same_mark(b->at, c->at);
        break;
    case FIELD_BOX:
        ck_assert(x->known == y->known && x->length_cm == y->length_cm &&
                  x->width_cm == y->width_cm && x->height_cm == y->height_cm && x->unit == y->unit);
        same_mark(x->at, y->at);
        break;
    case FIELD_FLAG:
        ck_assert(f->known == g->known && f->value == g->value);
        same_mark(f->at, g->at);
        break;
    default:
        ck_assert_int_eq(kind, FIELD_CHOICE);
        ck_assert(d->known == e->known && d->value == e->value);
        same_mark(d->at, e->at);
        break;
    }
}

static void same_records(const struct schema *schema, const char *one, const char *other);

static void same_lists(const struct field *field, const struct list *one, const struct list *other)
{
    ck_assert_uint_eq(one->count, other->count);
    for (size_t i = 0; i < other->count; i++) {
        if (field->kind == FIELD_TEXTS) {
            same_texts(LIST_AT(*one, struct text_value, i), LIST_AT(*other, struct text_value, i));
        } else if (field->kind == FIELD_CHOICES) {
            same_numbers(FIELD_CHOICE, LIST_AT(*one, struct choice_value, i),
                         LIST_AT(*other, struct choice_value, i));
        } else {
            const char *mine = (const char *)one->items + i * field->schema->size,
                       *theirs = (const char *)other->items + i * field->schema->size;
            if (field->kind == FIELD_NAMED)
                same_texts((const void *)mine, (const void *)theirs);
            same_records(field->schema, mine, theirs);
        }
    }
}

static void same_records(const struct schema *schema, const char *one, const char *other)
{
    if (schema->has_mark)
        same_mark(*(const struct mark *)(const void *)(one + schema->mark_offset),
                  *(const struct mark *)(const void *)(other + schema->mark_offset));
    for (size_t i = 0; i < schema->field_count; i++) {
        const struct field *field = &schema->fields[i];
        const void *mine = one + field->offset, *theirs = other + field->offset;
        if (field->kind == FIELD_RECORD)
            same_records(field->schema, mine, theirs);
        else if (field->kind == FIELD_TEXT)
            same_texts(mine, theirs);
        else if (field->kind == FIELD_TEXTS || field->kind == FIELD_CHOICES ||
                 field->kind == FIELD_RECORDS || field->kind == FIELD_SOME_RECORDS ||
                 field->kind == FIELD_NAMED)
            same_lists(field, mine, theirs);
        else
            same_numbers(field->kind, mine, theirs);
    }
}

/* Each file anew, so that nothing that an earlier one left behind is taken for its own. */
START_TEST(gives_what_binding_gives)
{
    const struct schema *schema = files[_i].schema;
    const char *path = file_join(&arena, PROJECT_FOLDER, files[_i].name);
    struct bytes bytes;
    ck_assert(file_read(path, FILE_LIMIT_BYTES, &arena, &diag, &bytes));
    char *shipped = arena_take(&arena, schema->size), *bound = arena_take(&arena, schema->size);
    ck_assert_msg(shipped_bind(schema, path, bytes, &arena, shipped), "%s is not there", path);
    const struct node *tree = tree_read_bytes(path, bytes, &arena, &diag);
    ck_assert(tree && bind_record(tree, schema, "", &arena, &diag, bound));
    if (schema == &instruction_catalogue_schema) /* it lies sorted, as it is read */
        instruction_catalogue_sort((struct instruction_catalogue *)(void *)bound);
    compared = 0;
    same_records(schema, shipped, bound);
    /* every text of the tree but the keys of records is some value's */
    ck_assert_uint_gt(compared, tree->weight / 4);
}
END_TEST

START_TEST(holds_every_file_of_the_tables)
{
    size_t held = 0;
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        ck_assert_ptr_nonnull(files[i].schema->shipped);
        held +=
            i == 0 || files[i].schema != files[i - 1].schema ? files[i].schema->shipped->count : 0;
    }
    ck_assert_uint_eq(held, sizeof files / sizeof *files);
}
END_TEST

START_TEST(knows_no_file_that_differs_in_a_byte)
{
    const char *path = file_join(&arena, PROJECT_FOLDER, "templates/rules.yaml");
    struct bytes bytes;
    ck_assert(file_read(path, FILE_LIMIT_BYTES, &arena, &diag, &bytes));
    char *changed = arena_copy_bytes(&arena, bytes.data, bytes.length);
    changed[bytes.length - 2]++;
    struct rule_book book = {0};
    ck_assert(!shipped_bind(&rule_book_schema, path,
                            (struct bytes){.data = changed, .length = bytes.length}, &arena,
                            &book));
    ck_assert(!shipped_bind(&rule_book_schema, path,
                            (struct bytes){.data = bytes.data, .length = bytes.length - 1}, &arena,
                            &book));
    /* nor one that another table is for, nor a table without files */
    ck_assert(!shipped_bind(&step_book_schema, path, bytes, &arena, &book));
    ck_assert(!shipped_bind(&species_schema, path, bytes, &arena, &book));
    ck_assert_uint_eq(book.rules.count, 0);
}
END_TEST

/* Lists can be sorted and filled in by whoever reads a file twice. */
START_TEST(gives_each_reader_their_own)
{
    struct step_book one = {0}, other = {0};
    const char *path = file_join(&arena, PROJECT_FOLDER, "templates/steps.yaml");
    ck_assert(bind_file(path, &step_book_schema, &arena, &diag, &one));
    ck_assert(bind_file(path, &step_book_schema, &arena, &diag, &other));
    ck_assert_ptr_ne(one.steps.items, other.steps.items);
    memset(one.steps.items, 0, sizeof(struct step));
    ck_assert_ptr_nonnull(LIST_AT(other.steps, struct step, 0)->name.text);
}
END_TEST

/* What two files say of each other is known of those alone that came along, and were found right.
 */
START_TEST(is_proven_of_two_that_came_along)
{
    const char *path = file_join(&arena, PROJECT_FOLDER, "templates/topics.yaml");
    struct topic_catalogue *topics = topic_catalogue_read(path, &arena, &diag);
    ck_assert(shipped_files_agree && topics && topics->is_shipped);
    ck_assert(topics_proven_with(topics, true));
    ck_assert(!topics_proven_with(topics, false));
    topics->is_shipped = false;
    ck_assert(!topics_proven_with(topics, true));
}
END_TEST

/* A file that differs in what is no value is another, and is asked again. */
START_TEST(says_whether_a_file_came_along)
{
    char path[] = "/tmp/baskleaf-shipped-XXXXXX";
    struct bytes bytes;
    struct rule_book own = {.is_shipped = true}, came = {0};
    const char *rules = file_join(&arena, PROJECT_FOLDER, "templates/rules.yaml");
    ck_assert(file_read(rules, FILE_LIMIT_BYTES, &arena, &diag, &bytes));
    const int fd = mkstemp(path);
    ck_assert(write(fd, bytes.data, bytes.length) == (ssize_t)bytes.length);
    ck_assert(write(fd, "# ours\n", 7) == 7);
    close(fd);
    const bool good = bind_file(path, &rule_book_schema, &arena, &diag, &own);
    unlink(path);
    ck_assert(good && bind_file(rules, &rule_book_schema, &arena, &diag, &came));
    ck_assert(!own.is_shipped && came.is_shipped);
    ck_assert_uint_eq(own.rules.count, came.rules.count);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("shipped");
    TCase *tcase = tcase_create("shipped");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_loop_test(tcase, gives_what_binding_gives, 0, sizeof files / sizeof *files);
    tcase_add_test(tcase, holds_every_file_of_the_tables);
    tcase_add_test(tcase, knows_no_file_that_differs_in_a_byte);
    tcase_add_test(tcase, gives_each_reader_their_own);
    tcase_add_test(tcase, is_proven_of_two_that_came_along);
    tcase_add_test(tcase, says_whether_a_file_came_along);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
