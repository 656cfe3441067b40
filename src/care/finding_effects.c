/* What the findings change until the recheck, contradictions settled. */
#include "care/conflicts.h"

#include <string.h>

/* One row a target: where a finding says its change, and where the settled one goes. */
struct change_row {
    const char *name;
    size_t in_finding; /* struct choice_value in struct finding_effects */
    const struct choice *words;
};

static const struct change_row rows[] = {
    {"humidity", offsetof(struct finding_effects, humidity), humidity_change_choices},
    {"warmth", offsetof(struct finding_effects, warmth), warmth_change_choices},
    {"feeding", offsetof(struct finding_effects, feeding), feeding_change_choices},
    {"bath", offsetof(struct finding_effects, bath), bath_change_choices},
};
enum { ROW_COUNT = sizeof rows / sizeof *rows };

static size_t collect(struct care_build *b, struct conflict_claim *claims, int *row_of,
                      int *value_of)
{
    size_t count = 0;
    for (size_t i = 0; i < b->plan->finding_count; i++) {
        const struct finding_plan *f = &b->plan->findings[i];
        const struct finding_effects *changes = &b->findings[i]->changes;
        int from = changes->from.known ? changes->from.value : SEVERITY_MILD;
        if (f->severity == SEVERITY_NORMAL || (int)f->severity < from)
            continue;
        for (int r = 0; r < ROW_COUNT; r++) {
            const struct choice_value *change =
                (const void *)((const char *)changes + rows[r].in_finding);
            if (!change->known || change->value == 0)
                continue;
            claims[count] = (struct conflict_claim){
                .code = arena_format(b->arena, "%s:%s", rows[r].name,
                                     bind_choice_word(rows[r].words, change->value)),
                .from = f->code,
            };
            row_of[count] = r;
            value_of[count++] = change->value;
        }
    }
    return count;
}

/* The first claim that stands wins its target; one that differs and was not settled by
 * the rule book is put to the veterinarian. */
static void apply(struct care_build *b, const struct conflict_claim *claims, size_t count,
                  const int *row_of, const int *value_of)
{
    int chosen[ROW_COUNT] = {0};
    const struct conflict_claim *by[ROW_COUNT] = {0};
    for (size_t i = 0; i < count; i++) {
        int r = row_of[i];
        if (claims[i].dropped)
            continue;
        if (!by[r]) {
            by[r] = &claims[i];
            chosen[r] = value_of[i];
        } else if (value_of[i] != chosen[r]) {
            struct plan_fact *facts =
                build_fact_text(b, "dropped-from", FACT_TEXT, claims[i].from, NULL);
            facts = build_fact_text(b, "kept-from", FACT_TEXT, by[r]->from, facts);
            facts = build_fact_text(b, "dropped", FACT_TEXT, claims[i].code, facts);
            facts = build_fact_text(b, "kept", FACT_TEXT, by[r]->code, facts);
            build_review(b, REVIEW_CONFLICT, "changes-unsettled", (struct mark){0}, facts);
        }
    }
    b->humidity_change = (enum humidity_change)chosen[0];
    b->warmth_change = (enum warmth_change)chosen[1];
    b->feeding_change = (enum feeding_change)chosen[2];
    b->bath_change = (enum bath_change)chosen[3];
    b->humidity_change_from = by[0] ? by[0]->from : NULL;
    b->warmth_change_from = by[1] ? by[1]->from : NULL;
    b->feeding_change_from = by[2] ? by[2]->from : NULL;
    b->bath_change_from = by[3] ? by[3]->from : NULL;
}

bool finding_effects_plan(struct care_build *b)
{
    size_t most = b->plan->finding_count * ROW_COUNT;
    struct conflict_claim *claims = ARENA_ARRAY(b->arena, struct conflict_claim, most);
    int *row_of = ARENA_ARRAY(b->arena, int, most), *value_of = ARENA_ARRAY(b->arena, int, most);
    size_t count = collect(b, claims, row_of, value_of);
    conflicts_settle(b, claims, count);
    apply(b, claims, count, row_of, value_of);
    b->plan->bath_allowed = b->bath_change != BATH_NONE;
    b->plan->bath_advised = b->bath_change == BATH_SHALLOW;
    /* "from tomorrow" would contradict "none at all" */
    b->plan->has_bath_from = b->plan->has_bath_from && b->plan->bath_allowed;
    return true;
}
