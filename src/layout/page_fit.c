/* A page that is filled: its blocks from the top, its foot at the bottom, what is elastic between
 * them. The steps of the document are tried in turn; what fits none of them flows on to a further
 * page below the running head, and is said to the caller. */
#include <math.h>

#include "layout/layout.h"
#include "layout/page_fit.h"
#include "layout/page_split.h"

static const double ROW_GROWS_PT = 14, LEAST_NOTES_PT = 40;
static const double ROUNDING_PT = 1e-6; /* the same heights are added in another order */

/* The blocks of a page as one stack. */
struct attempt {
    struct stack body, foot;
    double height_pt;
};

static void set_blocks(struct composer *composer, struct place *place, const struct block *blocks)
{
    const struct fit_step *fit = composer->elastic.fit;
    for (const struct block *block = blocks; block != NULL; block = block->next) {
        if (block->give_way > 0 && block->give_way <= fit->give_way)
            continue;
        struct block alone = *block;
        alone.next = NULL;
        const struct fragment *mark = place->stack->last;
        place->stack->gap_pt = mark == NULL ? 0 : fit->gap_pt * panel_gap_share(block);
        blocks_set(composer, place, &alone);
        if (place->stack->last == mark)
            continue;
        place->stack->gap_pt = 0;
    }
}

/* A page that is tried with one step after the other, from the same state each time. */
struct trial {
    struct composer *composer;
    const struct place *page;
    const struct block *block;
    size_t elements; /* of the structure, before the page */
    bool logo;       /* it was pending then */
};

/* The page as composer->elastic says; what was made of it before is given up. */
static struct attempt try_page(const struct trial *trial)
{
    struct composer *composer = trial->composer;
    struct attempt attempt = {0};
    struct place place = *trial->page;
    composer->elements.count = trial->elements;
    composer->logo_pending = trial->logo;
    composer->elastic.row_count = 0;
    place.element = place.base;
    place.stack = &attempt.body;
    set_blocks(composer, &place, trial->block->as.page.blocks);
    place.stack = &attempt.foot;
    set_blocks(composer, &place, trial->block->as.page.foot);
    attempt.height_pt = stack_height_pt(attempt.body.first, NULL);
    if (attempt.foot.first != NULL)
        attempt.height_pt +=
            composer->elastic.fit->gap_pt + stack_height_pt(attempt.foot.first, NULL);
    return attempt;
}

/* Lines stand farther apart, as far as the room goes and no farther than what is read with ease. */
static void part_lines(const struct trial *trial, double room, struct attempt *attempt)
{
    static const double MOST_PT = 1.2; /* memory: with it a line of 12 pt has 1.17 of its size */
    double *line_pt = &trial->composer->elastic.line_pt;
    const double least = attempt->height_pt;
    room -= ROUNDING_PT;
    if (least >= room)
        return;
    *line_pt = MOST_PT;
    *attempt = try_page(trial);
    if (attempt->height_pt <= room)
        return;
    *line_pt *= (room - least) / (attempt->height_pt - least);
    *attempt = try_page(trial);
    if (attempt->height_pt <= room)
        return;
    *line_pt = 0; /* what changed its columns has grown by more than its lines */
    *attempt = try_page(trial);
}

/* A diagram that is given more may place its labels in another way and take more than that. */
static void grow_diagram(const struct trial *trial, double room, double more_pt,
                         struct attempt *attempt)
{
    enum { TRIES = 4 };
    double *diagram_pt = &trial->composer->elastic.diagram_pt;
    *diagram_pt = more_pt;
    *attempt = try_page(trial);
    for (int i = 0; i < TRIES && attempt->height_pt > room; i++) {
        const double over = attempt->height_pt - room + ROUNDING_PT;
        *diagram_pt = i + 1 < TRIES ? fmax(0, *diagram_pt - over) : 0;
        *attempt = try_page(trial);
    }
}

/* Room that is left goes to the lines, then to the diagram, then to the rows, then to notes. */
static void grow(const struct trial *trial, double room, struct attempt *attempt)
{
    struct elastic *elastic = &trial->composer->elastic;
    part_lines(trial, room, attempt);
    double spare = fmax(0, room - attempt->height_pt);
    double beside = elastic->diagram_beside_pt;
    if (elastic->has_diagram && spare + beside > 0) {
        grow_diagram(trial, room, spare + beside, attempt);
        spare = fmax(0, room - attempt->height_pt);
    }
    if (elastic->row_count > 0 && spare > 0) {
        elastic->row_pt = fmin(ROW_GROWS_PT, spare / (double)elastic->row_count);
        *attempt = try_page(trial);
        spare = fmax(0, room - attempt->height_pt);
    }
    if (spare < LEAST_NOTES_PT)
        return;
    elastic->notes_pt = spare - elastic->fit->gap_pt;
    *attempt = try_page(trial);
}

/* What begins a page but the first has the running head above it. */
static void give_head(const struct stack *stack, const struct stack *head, bool is_first_page)
{
    for (struct fragment *fragment = stack->first; fragment != NULL; fragment = fragment->next)
        if (fragment->head == NULL && !(is_first_page && fragment == stack->first))
            fragment->head = head;
}

static void append(struct stack *to, struct stack *from, double gap_pt)
{
    if (from->first == NULL)
        return;
    from->first->gap_pt = gap_pt;
    if (to->last != NULL)
        to->last->next = from->first;
    else
        to->first = from->first;
    to->last = from->last;
}

static const struct stack *running_head(struct composer *composer, const struct place *page,
                                        const struct block *running)
{
    if (running == NULL)
        return NULL;
    struct stack *head = ARENA_NEW(composer->arena, struct stack);
    struct place place = *page;
    size_t elements = composer->elements.count;
    place.stack = head;
    set_blocks(composer, &place, running);
    composer->elements.count = elements; /* it is drawn as an artifact only */
    head->last->height_pt += composer->elastic.fit->gap_pt;
    return head;
}

/* What is left of a page's height below its running head; the first page has none. */
static double page_room(struct composer *composer, const struct place *page,
                        const struct block *block)
{
    const struct stack *head =
        composer->page_count > 0 ? running_head(composer, page, block->as.page.running) : NULL;
    return composer->height_pt - (head != NULL ? stack_height_pt(head->first, NULL) : 0);
}

/* A page that gives no steps has one. */
static const struct fit_step *steps_of(const struct block *block, size_t *count)
{
    static const struct fit_step only = {.gap_pt = 8, .row_pt = 20};
    bool has_steps = block->as.page.step_count > 0;
    *count = has_steps ? block->as.page.step_count : 1;
    return has_steps ? block->as.page.steps : &only;
}

static struct trial start_trial(struct composer *composer, const struct place *page,
                                const struct block *block)
{
    return (struct trial){composer, page, block, composer->elements.count, composer->logo_pending};
}

static unsigned answers_for(const struct composer *composer, const struct block *block)
{
    const struct look *look = block->look != NULL ? block->look : composer->look;
    return look_answers(look) | (panel_fits_close(composer->elastic.fit) ? BLOCK_ASKS_CLOSE : 0u);
}

/* Would a block that was measured be as high now? Its gap alone always follows from the step. */
static bool is_as_high(const struct block_height *was, const struct composer *composer,
                       const struct place *page, unsigned answers)
{
    return was->is_set && was->width_pt == page->width_pt && was->page_pt == composer->height_pt &&
           ((was->answers ^ answers) & was->asked) == 0 &&
           ((was->asked & BLOCK_ASKS_FIT) == 0 || was->fit == composer->elastic.fit);
}

static bool recall(const struct composer *composer, const struct place *page,
                   const struct block *block, struct block_height *out)
{
    const unsigned answers = answers_for(composer, block);
    const double gap_share = panel_gap_share(block);
    const struct fit_step *fit = composer->elastic.fit;
    for (size_t i = 0; block->memory != NULL && i < HEIGHTS_KEPT; i++) {
        const struct block_height *was = &block->memory->heights[i];
        if (!is_as_high(was, composer, page, answers))
            continue;
        *out = *was;
        if (was->is_empty || was->fit == fit)
            return true;
        if (was->gap_pt != was->fit->gap_pt * gap_share)
            continue;
        out->gap_pt = fit->gap_pt * gap_share;
        return true;
    }
    return false;
}

static void remember(struct block_memory *memory, const struct block_height *height)
{
    if (memory == NULL)
        return;
    memory->heights[memory->oldest] = *height;
    memory->oldest = (memory->oldest + 1) % HEIGHTS_KEPT;
}

/* What a block takes as the step says, worked out once for all trials that share the block. */
static struct block_height measure_block(struct composer *composer, const struct place *page,
                                         const struct block *block)
{
    const struct fit_step *fit = composer->elastic.fit;
    struct block_height height;
    if (recall(composer, page, block, &height))
        return height;
    struct stack stack = {.gap_pt = fit->gap_pt * panel_gap_share(block)};
    struct place place = *page;
    struct block alone = *block;
    alone.next = NULL;
    place.stack = &stack;
    place.element = place.base;
    *composer->asked = 0;
    composer->only_measures = true;
    blocks_set(composer, &place, &alone);
    composer->only_measures = false;
    height = (struct block_height){.is_set = true,
                                   .is_empty = stack.first == NULL,
                                   .asked = *composer->asked,
                                   .answers = answers_for(composer, block),
                                   .fit = fit,
                                   .width_pt = page->width_pt,
                                   .page_pt = composer->height_pt};
    if (!height.is_empty) {
        height.height_pt = stack_height_pt(stack.first, NULL);
        height.gap_pt = stack.first->gap_pt;
    }
    remember(block->memory, &height);
    return height;
}

/* As stack_height_pt of what set_blocks makes of them, up to `end`. */
static double measure_blocks(struct composer *composer, const struct place *page,
                             const struct block *blocks, const struct block *end, bool *is_empty)
{
    double height_pt = 0;
    *is_empty = true;
    for (const struct block *block = blocks; block != end; block = block->next) {
        if (block->give_way > 0 && block->give_way <= composer->elastic.fit->give_way)
            continue;
        struct block_height taken = measure_block(composer, page, block);
        if (taken.is_empty)
            continue;
        height_pt += taken.height_pt + (*is_empty ? 0 : taken.gap_pt);
        *is_empty = false;
    }
    return height_pt;
}

/* A page on its way to several. */
struct parting {
    struct composer *composer;
    const struct place *page;
    const struct block *block;
};

/* As page_room. */
static double measure_page_room(const struct parting *p)
{
    struct composer *composer = p->composer;
    const struct block *running = p->block->as.page.running;
    bool is_empty;
    if (composer->page_count == 0 || running == NULL)
        return composer->height_pt;
    return composer->height_pt - measure_blocks(composer, p->page, running, NULL, &is_empty) -
           composer->elastic.fit->gap_pt;
}

/* What a page has left with a step, that holds the blocks up to `end`, and the foot where that is
 * NULL; negative: they do not fit. */
static double measure_step(const struct parting *p, const struct fit_step *step,
                           const struct block *from, const struct block *end)
{
    struct composer *composer = p->composer;
    size_t elements = composer->elements.count;
    bool is_bare, has_no_foot = true, logo = composer->logo_pending;
    composer->elastic = (struct elastic){.fit = step};
    double room_pt = measure_page_room(p);
    double height_pt = measure_blocks(composer, p->page, from, end, &is_bare), foot_pt = 0;
    if (end == NULL)
        foot_pt = measure_blocks(composer, p->page, p->block->as.page.foot, NULL, &has_no_foot);
    if (!has_no_foot)
        height_pt += composer->elastic.fit->gap_pt + foot_pt;
    composer->elastic = (struct elastic){.fit = NULL};
    composer->elements.count = elements;
    composer->logo_pending = logo;
    return room_pt - height_pt;
}

/* The same with the closest of its steps. */
static double measure_room(const struct parting *p, const struct block *from,
                           const struct block *end)
{
    size_t count;
    const struct fit_step *steps = steps_of(p->block, &count);
    return measure_step(p, &steps[count - 1], from, end);
}

static const struct block *find_break(const struct block *blocks)
{
    const struct block *block = blocks != NULL ? blocks->next : NULL;
    while (block != NULL && !block->parts_page)
        block = block->next;
    return block;
}

/* A page begins with `from` and the next one with `end`, NULL for none: it has the foot. */
struct part {
    const struct block *from, *end;
};

enum { LEAST_LINES = 2 }; /* of a list, on each of its pages */

/* As much of the list at the end as there is room for goes before it. */
static struct part fill_up(const struct parting *p, const struct part part)
{
    const size_t count = page_split_count(part.end);
    for (size_t head = count; head >= 2 * LEAST_LINES; head--) {
        struct part with = {NULL, NULL};
        with.from =
            page_split(p->composer->arena, part.from, part.end, head - LEAST_LINES, &with.end);
        if (measure_room(p, with.from, with.end) >= ROUNDING_PT)
            return with;
    }
    return part;
}

/* The most that fits on one page, a block at least. */
static struct part fill_part(const struct parting *p, const struct block *from)
{
    if (measure_room(p, from, NULL) >= ROUNDING_PT)
        return (struct part){from, NULL};
    struct part part = {from, from};
    while (part.end->next != NULL && measure_room(p, from, part.end->next) >= ROUNDING_PT)
        part.end = part.end->next;
    const struct part with = fill_up(p, part);
    if (with.end == from)
        return (struct part){from, from->next};
    return with;
}

/* How much room the fuller of the two pages has; negative: none. */
static double room_beside(const struct parting *p, const struct part part)
{
    double above_pt = measure_room(p, part.from, part.end);
    if (above_pt < ROUNDING_PT)
        return -1;
    p->composer->page_count++; /* below a running head */
    double below_pt = measure_room(p, part.end, NULL);
    p->composer->page_count--;
    return fmin(above_pt, below_pt);
}

/* Where the second of two pages begins: so that the fuller one has the most room, but with what
 * parts pages where that costs little, and in a list only where there is no other place. The end is
 * NULL where there is none at all. */
static struct part halve(const struct parting *p, const struct block *from)
{
    static const double WORTH_PT = 90; /* memory, by how pages looked */
    struct part best = {from, NULL};
    double most_pt = 0;
    for (const struct block *at = from->next; at != NULL; at = at->next) {
        double least_pt = room_beside(p, (struct part){from, at});
        if (least_pt < ROUNDING_PT)
            continue;
        least_pt += at->parts_page ? WORTH_PT : 0;
        best.end = least_pt > most_pt ? at : best.end;
        most_pt = fmax(most_pt, least_pt);
    }
    if (best.end != NULL)
        return best;
    for (const struct block *at = from; at != NULL; at = at->next) {
        const size_t count = page_split_count(at);
        for (size_t head = LEAST_LINES; head + LEAST_LINES <= count; head++) {
            struct part in = {NULL, NULL};
            in.from = page_split(p->composer->arena, from, at, head, &in.end);
            double least_pt = room_beside(p, in);
            if (least_pt <= most_pt)
                continue;
            best = in;
            most_pt = least_pt;
        }
    }
    return best;
}

/* How many pages it takes, as few as there can be; more than `most` where a block alone takes more
 * than a page. */
static size_t count_parts(const struct parting *p, size_t most)
{
    const unsigned before = p->composer->page_count;
    size_t count = 0;
    for (const struct block *from = p->block->as.page.blocks; count <= most;) {
        const struct part part = from != NULL ? fill_part(p, from) : (struct part){NULL, NULL};
        bool fits = part.end == NULL || measure_room(p, part.from, part.end) >= -ROUNDING_PT;
        count = fits ? count + 1 : most + 1;
        p->composer->page_count++; /* the next one has a running head */
        if (part.end == NULL)
            break;
        from = part.end;
    }
    p->composer->page_count = before;
    return count;
}

bool page_fits(struct composer *composer, const struct place *place, const struct block *block,
               size_t further)
{
    const struct parting parting = {composer, place, block};
    bool fits = measure_room(&parting, block->as.page.blocks, NULL) >= ROUNDING_PT;
    if (!fits && further > 0 && find_break(block->as.page.blocks) != NULL)
        fits = count_parts(&parting, further + 1) <= further + 1;
    composer->page_count++;
    return fits;
}

/* What a step makes of the page, and whether that fits. */
static bool set_step(const struct trial *trial, const struct fit_step *step,
                     struct attempt *attempt)
{
    trial->composer->elastic = (struct elastic){.fit = step};
    double room = page_room(trial->composer, trial->page, trial->block);
    *attempt = try_page(trial);
    return attempt->height_pt <= room;
}

/* Whether it fits, by what is known of its blocks' heights; where these leave it open, it is set.
 */
static bool step_fits(const struct trial *trial, const struct fit_step *step)
{
    const struct parting parting = {trial->composer, trial->page, trial->block};
    struct attempt attempt;
    double room_pt = measure_step(&parting, step, trial->block->as.page.blocks, NULL);
    return fabs(room_pt) > ROUNDING_PT ? room_pt > 0 : set_step(trial, step, &attempt);
}

/* The first of the steps that fits, where the last one does. Within a rank of giving way each step
 * is closer than the one before. */
static size_t find_step(const struct trial *trial, const struct fit_step *steps, size_t count)
{
    size_t from = 0, to = 0; /* a rank */
    for (;; from = to + 1) {
        for (to = from; to + 1 < count && steps[to + 1].give_way == steps[from].give_way;)
            to++;
        if (to + 1 == count || step_fits(trial, &steps[to]))
            break;
    }
    while (from < to) {
        size_t middle = from + (to - from) / 2;
        if (step_fits(trial, &steps[middle]))
            to = middle;
        else
            from = middle + 1;
    }
    return to;
}

/* The page with the first step that fits. False when none does; *attempt is then that of the last,
 * which is the closest of all. */
static bool try_steps(struct composer *composer, const struct place *page,
                      const struct block *block, struct attempt *attempt)
{
    size_t count, at = 0;
    const struct fit_step *steps = steps_of(block, &count);
    const struct trial trial = start_trial(composer, page, block);
    bool fits = step_fits(&trial, &steps[0]);
    if (!fits && count > 1 && step_fits(&trial, &steps[count - 1])) {
        at = find_step(&trial, steps, count);
        fits = true;
    }
    set_step(&trial, &steps[fits ? at : count - 1], attempt);
    if (!fits)
        return false;
    grow(&trial, page_room(composer, page, block), attempt);
    return true;
}

/* Appends what was laid out as a page of its own, its foot at the bottom. */
static void end_page(struct composer *composer, struct place *place, const struct block *block,
                     struct attempt *attempt)
{
    double spare = fmax(0, page_room(composer, place, block) - attempt->height_pt);
    append(&attempt->body, &attempt->foot,
           attempt->body.first != NULL ? composer->elastic.fit->gap_pt + spare : 0);
    give_head(&attempt->body, running_head(composer, place, block->as.page.running),
              composer->page_count == 0);
    composer->page_count++;
    composer->elastic = (struct elastic){.fit = NULL};
    if (attempt->body.first == NULL)
        return;
    attempt->body.first->new_page = place->stack->first != NULL;
    append(place->stack, &attempt->body, 0);
    place->stack->new_page = true;
}

/* One of the pages that a page parts to; the last one has the foot. */
static void set_part(const struct parting *p, struct place *place, const struct part part)
{
    struct block page = *p->block, *last;
    struct attempt attempt;
    page.as.page.blocks = page_split_copy(p->composer->arena, part.from, part.end, &last);
    if (part.end != NULL)
        page.as.page.foot = NULL;
    try_steps(p->composer, place, &page, &attempt); /* a block that is too high alone flows on */
    end_page(p->composer, place, &page, &attempt);
}

/* As few pages as take it, the last two about as full. */
static void break_page(struct composer *composer, struct place *place, const struct block *block)
{
    const struct parting p = {composer, place, block};
    size_t left = count_parts(&p, LAYOUT_PAGE_LIMIT);
    for (const struct block *from = block->as.page.blocks; from != NULL; left--) {
        struct part part = {from, NULL};
        if (left == 2)
            part = halve(&p, from);
        if (part.end == NULL)
            part = fill_part(&p, from);
        set_part(&p, place, part);
        from = part.end;
    }
}

void page_set(struct composer *composer, struct place *place, const struct block *block)
{
    struct attempt attempt;
    size_t elements = composer->elements.count;
    bool logo = composer->logo_pending, fits = try_steps(composer, place, block, &attempt);
    if (!fits)
        composer->overfull |= 1u << composer->page_count;
    if (fits || find_break(block->as.page.blocks) == NULL) {
        end_page(composer, place, block, &attempt);
        return;
    }
    composer->elements.count = elements;
    composer->logo_pending = logo;
    break_page(composer, place, block);
}
