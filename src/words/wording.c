/* The slots that each sentence may use, and the proof that it uses no other. */
#include "words/wording.h"

#include <stdlib.h>
#include <string.h>

#include "base/file.h"
#include "words/agreement.h"
#include "words/slots.h"
#include "yaml/tree.h"

/* Slots that the program fills for some keys beside those of the plan. */
struct own_slots {
    const char *keys;  /* a key, or the beginning of many when it ends with '.' or '-' */
    bool is_closed;    /* the plan's slots are not at hand there */
    const char *slots; /* names with blanks between them */
};

static const struct own_slots own_rows[] = {
    {"unit.", true, "n"},
    {"review.", false,
     "written meant before beside on age length width height meant-length meant-width meant-height "
     "meal reading measure hours days topic kept lost more step"},
    {"unit.both", true, "first second"},
    {"unit.strength", true, "product percent"},
    {"unit.years-months", true, "years months"},
    {"unit.about", true, "age"},
    {"unit.at-least", true, "least"},
    {"unit.at-most", true, "most"},
    {"number.", true, "low high length width height"},
    {"sheet.date-", true, "day month year weekday month-short weekday-short"},
    {"sheet.list-", true, "first second"},
    {"hours.", true, "first second time hour minute"},
    {"picture.bands.row", true, "name reading target result"},
    {"picture.enclosure.", true, "length height distance"},
    {"picture.legend", true, "number text"},
    {"picture.weight.point", true, "date mass"},
    {"sheet.action-end", false, "date"},
    {"sheet.action-start", false, "date"},
    {"sheet.until.", false, "date"},
    {"sheet.from.", false, "from until"},
    {"sheet.draft-mark-stale", false, "by date what"},
    {"sheet.draft-title", false, "what"},
    {"sheet.feeding.plants-daily", false, "plants"},
    {"sheet.feeding.never", false, "never"},
    {"sheet.feeding.step-insects", false, "from amount"},
    {"sheet.feeding.step-pieces", false, "from amount"},
    {"sheet.feeding.step-mass", false, "from amount"},
    {"sheet.finding-perhaps", false, "name"},
    {"sheet.finding-suspected", false, "meaning"},
    {"sheet.finding-why", false, "name"},
    {"sheet.finding-note", false, "note"},
    {"sheet.finding-note-unseen", false, "note"},
    {"sheet.finding-place", false, "severity"},
    {"finding.", false, "go-now"},
    {"action.", false, "go-now"},
    {"normal.", false, "go-now"},
    {"sheet.medicines.", false,
     "first second days hours doses from until what name every time times"},
    {"calendar.dose", false, "medicine"},
    {"calendar.dose-written", false, "medicine"},
    {"sheet.borderline", false, "what target"},
    {"sheet.middle", false, "what target"},
    {"sheet.middle-by-day", false, "what target"},
    {"date.dose", false, "medicine"},
    {"date.given-here", false, "medicine clock"},
    {"sheet.planner.times", false, "times"},
    {"sheet.result.", false, "change"},
    {"sheet.run-in", false, "name"},
    {"sheet.weight.less", false, "what"},
    {"sheet.signature.", false, "by date because count"},
    {"sheet.winter-rest.", false, "date warmth call wake warm steps mass cool"},
    {"date.check-after", false, "what"},
    {"procedure.", false, "check in-water go-now"},
    {"date.result", false, "what"},
    {"sheet.awaited.", false, "date"},
    {"date.rest-", false, "warmth call"},
    {"sheet.logger.", false, "days coverage limit hours zone"},
    {"picture.uvi-map.", false, "height indexes"},
    {"picture.week.", false, "name low high target date parts"},
    {"sheet.since.", false, "name then now goal date"},
    {"sheet.still", false, "what"},
    {"sheet.warnings.own", false, "sign"},
    {"sheet.supplement.", false, "supplement times"},
    {"wall.who", false, "what"},
    {"wall.signed", false, "by date"},
    {"wall.main.", false, "what first second date"},
    {"wall.summary.", false, "first"},
    {"mail.subject-draft", false, "what"},
    {"wall.still", false, "what"},
    {"wall.step", false, "number"},
    {"wall.item", false, "number"},
    {"wall.way-out", false, "date"},
    {"wall.way-out-brief", false, "date"},
    {"wall.food.fast", false, "from date"},
    {"wall.medicines.ticks", false, "from until"},
    {"wall.medicines.ticks-written", false, "from until"},
    {"wall.by", false, "date"},
    {"wall.tonight-or-by", false, "date"},
    {"wall.tonight-later", false, "what"},
    {"wall.tonight-dose", false, "what date"},
    {"wall.end", false, "date"},
    {"wall.start", false, "date"},
    {"wall.now", false, "value"},
    {"wall.now-edge", false, "value"},
    {"wall.now-higher", false, "value"},
    {"wall.now-ask", false, "value"},
    {"sheet.medicines.write-down-until", false, "until"},
    {"wall.never-above", false, "limit"},
    {"wall.stop-at", false, "limit"},
    {"wall.box.", false, "size least places place target now turn"},
    {"wall.water.", false, "name target now"},
    {"wall.go-now.", false, "what"},
    {"wall.then.value", false, "what value"},
    {"wall.three-days", false, "date"},
    {"wall.three-days-log", false, "date"},
    {"wall.three-days-log-tub", false, "date"},
    {"wall.three-days.", false, "day what"},
    {"wall.weeks.", false, "what date"},
    {"wall.food.", false, "what dates date"},
    {"wall.found.", false, "name where severity count what"},
    {"wall.next-visit", false, "date"},
    {"wall.referral", false, "what date"},
    {"wall.referral.", false, "what date"},
    {"date.referral", false, "what"},
    {"wall.next-visit.", false, "date"},
    {"desk.", true, ""},
    {"desk.fault.", true, "value near other low high today line"},
};

static bool is_for(const struct own_slots *row, const char *key)
{
    if (*row->keys != *key)
        return false;
    size_t length = strlen(row->keys);
    bool begins = row->keys[length - 1] == '.' || row->keys[length - 1] == '-';
    return begins ? strncmp(key, row->keys, length) == 0 : strcmp(key, row->keys) == 0;
}

/* Is the word among the names? Each name is offered when `nearest` is given. */
static bool holds_word(const char *names, const char *word, struct nearest *nearest,
                       struct arena *arena)
{
    bool found = false;
    for (const char *at = names; *at;) {
        size_t length = strcspn(at, " ");
        found = found || (strlen(word) == length && strncmp(at, word, length) == 0);
        if (nearest)
            nearest_offer(nearest, arena_copy_bytes(arena, at, length));
        at += length;
        at += strspn(at, " ");
    }
    return found;
}

/* The rows among which all those for a key stand. */
struct own_range {
    const struct own_slots *begin, *end;
};

static struct own_range range_for(const char *key)
{
    struct own_range range = {own_rows, own_rows};
    for (const struct own_slots *row = own_rows;
         row < own_rows + sizeof own_rows / sizeof *own_rows; row++) {
        if (!is_for(row, key))
            continue;
        if (range.end == own_rows)
            range.begin = row;
        range.end = row + 1;
    }
    return range;
}

static bool may_stand(const struct wording *wording, const char *key, struct own_range range,
                      const char *slot, struct nearest *nearest, struct arena *arena)
{
    bool closed = false, found = false;
    for (const struct own_slots *row = range.begin; row < range.end; row++) {
        if (!is_for(row, key))
            continue;
        closed = closed || row->is_closed;
        found = holds_word(row->slots, slot, nearest, arena) || found;
    }
    return found || (!closed && (slots_is_known(slot) || agreement_has(wording->language, slot)));
}

/* ---- the proof ---------------------------------------------------------------------------- */

struct slot_check {
    const struct wording *wording;
    const struct wording_entry *entry;
    struct own_range own; /* looked up with its first slot */
    struct arena *arena;
    struct diag *diag;
    const char *last_reported; /* the last name that was reported */
    bool good;
};

static void report_slot(struct slot_check *check, const char *slot)
{
    struct nearest nearest;
    nearest_init(&nearest, slot);
    may_stand(check->wording, check->entry->key, check->own, slot, &nearest, check->arena);
    slots_offer(&nearest, check->arena);
    agreement_offer(check->wording->language, &nearest, check->arena);
    diag_report(check->diag, DIAG_ERROR, "unknown-slot", check->entry->at,
                "'%s' has the slot {%s}, which nothing fills%s%s%s", check->entry->key, slot,
                nearest.best ? "; did you mean {" : "", nearest.best ? nearest.best : "",
                nearest.best ? "}?" : "");
    check->last_reported = slot;
    check->good = false;
}

static void check_slot(void *context, const char *slot)
{
    struct slot_check *check = context;
    if (check->last_reported && strcmp(check->last_reported, slot) == 0)
        return;
    if (!check->own.begin)
        check->own = range_for(check->entry->key);
    if (!may_stand(check->wording, check->entry->key, check->own, slot, NULL, check->arena))
        report_slot(check, slot);
}

/* A word that agrees with the sex, under a name that the plan fills, would never be said. */
static bool check_agreement(const struct language *language, struct arena *arena, struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < language->agreement.count; i++) {
        const struct agreement *row = LIST_AT(language->agreement, struct agreement, i);
        const char *slot = arena_format(arena, "patient.%s", row->name.text);
        if (!slots_is_known(slot))
            continue;
        diag_report(diag, DIAG_ERROR, "bad-slot", row->name.at,
                    "the plan fills {%s} itself; name this one otherwise", slot);
        good = false;
    }
    return good;
}

bool wording_check_slots(const struct wording *wording, struct arena *arena, struct diag *diag)
{
    bool good = check_agreement(wording->language, arena, diag);
    for (size_t i = 0; i < wording->count; i++) {
        struct slot_check check = {.wording = wording,
                                   .entry = &wording->entries[i],
                                   .arena = arena,
                                   .diag = diag,
                                   .good = true};
        catalogue_each_slot(check.entry, check_slot, &check);
        good = good && check.good;
    }
    return good;
}

struct wording *wording_read(const char *folder, const char *lang, const char *left_out,
                             struct arena *arena, struct diag *diag)
{
    return wording_read_with(folder, lang, left_out, NULL, arena, diag);
}

struct wording *wording_read_with(const char *folder, const char *lang, const char *left_out,
                                  const struct wording_stand_in *stand_in, struct arena *arena,
                                  struct diag *diag)
{
    struct wording *wording = catalogue_read_with(folder, lang, left_out, stand_in, arena, diag);
    return wording && (wording->is_proven || wording_check_slots(wording, arena, diag)) ? wording
                                                                                        : NULL;
}

/* ---- one file ------------------------------------------------------------------------------- */

struct wording_place wording_place_of(const char *path, struct arena *arena)
{
    char *real = realpath(path, NULL);
    char *folder = arena_copy_text(arena, real ? real : path);
    struct wording_place place = {".", ".", folder};
    free(real);
    char *slash = strrchr(folder, '/');
    if (!slash)
        return place;
    *slash = '\0';
    place.file = slash + 1;
    place.lang = folder;
    slash = strrchr(folder, '/');
    if (slash) {
        *slash = '\0';
        place.folder = *folder ? folder : "/";
        place.lang = slash + 1;
    }
    return place;
}
