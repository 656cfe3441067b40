/* The table of requests and what answers each; what the requests share, read anew when files
 * change. */
#include "desk/desk.h"

#include <stdlib.h>
#include <string.h>
#include <sys/random.h>
#include <sys/stat.h>

#include "desk/beside.h"
#include "desk/handlers.h"
#include "desk/pages.h"
#include "desk/queue.h"
#include "desk/retention.h"
#include "desk/shelter.h"
#include "base/hex.h"
#include "base/hash.h"

/* ---- what all answers share
 * ----------------------------------------------------------------------- */

static void add_to_stamp(uint64_t *stamp, const char *path)
{
    struct stat st;
    if (stat(path, &st) != 0)
        return;
    const unsigned long long parts[] = {(unsigned long long)st.st_mtim.tv_sec,
                                        (unsigned long long)st.st_mtim.tv_nsec,
                                        (unsigned long long)st.st_size, st.st_ino};
    *stamp = hash_bytes(*stamp, parts, sizeof parts);
}

static void add_folder_to_stamp(uint64_t *stamp, const char *folder, struct arena *arena)
{
    struct diag quiet;
    const char **names = NULL;
    diag_init(&quiet);
    size_t count =
        folder && file_is_folder(folder) ? file_list(folder, ".yaml", arena, &quiet, &names) : 0;
    diag_finish(&quiet);
    for (size_t i = 0; i < count; i++)
        add_to_stamp(stamp, file_join(arena, folder, names[i]));
}

static size_t wording_folders(const struct desk *desk, struct arena *arena, const char ***out)
{
    struct diag quiet;
    const char *folder = file_join(arena, desk->settings.places.data_folder, "templates/wording");
    diag_init(&quiet);
    size_t count = file_list(folder, "", arena, &quiet, out);
    diag_finish(&quiet);
    for (size_t i = 0; i < count; i++)
        (*out)[i] = file_join(arena, folder, (*out)[i]);
    return count;
}

static uint64_t stamp_of(const struct desk *desk, struct arena *arena)
{
    const struct places *places = &desk->settings.places;
    uint64_t stamp = HASH_START;
    const char *templates = file_join(arena, places->data_folder, "templates");
    const char **wording = NULL;
    add_folder_to_stamp(&stamp, templates, arena);
    add_folder_to_stamp(&stamp, file_join(arena, templates, "sheets"), arena);
    add_folder_to_stamp(&stamp, file_join(arena, places->data_folder, "species-sheets"), arena);
    add_folder_to_stamp(&stamp, places->species_dir, arena);
    if (places->clinic_file)
        add_to_stamp(&stamp, places->clinic_file);
    size_t count = wording_folders(desk, arena, &wording);
    for (size_t i = 0; i < count; i++)
        add_folder_to_stamp(&stamp, wording[i], arena);
    return stamp;
}

static void shared_free(struct desk_shared *shared)
{
    if (!shared)
        return;
    sheet_context_finish(&shared->sheet_context);
    arena_finish(&shared->arena);
    free(shared);
}

/* NULL after errors. */
static struct desk_shared *shared_new(const struct desk *desk, struct diag *diag)
{
    struct desk_shared *shared = calloc(1, sizeof *shared);
    if (!shared)
        support_out_of_memory();
    arena_init(&shared->arena);
    shared->stamp = stamp_of(desk, &shared->arena);
    if (resources_read(&desk->settings.places, &shared->arena, diag, &shared->resources) &&
        sheet_context_init(&shared->sheet_context, &shared->resources, diag) &&
        (shared->sheet_context.has_desk_words = true) &&
        sheet_context_words(&shared->sheet_context, shared->resources.clinic->language.text,
                            (struct mark){0}, diag) &&
        library_read(shared->resources.species_sheets, desk->settings.places.species_dir,
                     &shared->arena, diag, &shared->library))
        return shared;
    shared_free(shared);
    return NULL;
}

/* An edit in progress may be broken: then the parts before it go on, and the page says so. */
static void refresh_shared(struct desk *desk, struct arena *arena)
{
    if (stamp_of(desk, arena) == desk->shared->stamp)
        return;
    struct diag quiet;
    diag_init(&quiet);
    struct desk_shared *next = shared_new(desk, &quiet);
    diag_finish(&quiet);
    desk->templates_broken = !next;
    if (!next)
        return;
    shared_free(desk->shared);
    desk->shared = next;
    for (size_t i = 0; i < desk->store.count; i++)
        desk->store.entries[i].state = -1;
}

static bool start_queue(struct desk *desk, struct diag *diag)
{
    desk->queue = queue_new(desk->settings.clock);
    if (!desk->queue)
        diag_report(diag, DIAG_FAULT, "no-thread", (struct mark){0},
                    "the system allows no further threads");
    return desk->queue != NULL;
}

bool desk_init(struct desk *desk, const struct desk_settings *settings, struct diag *diag)
{
    *desk = (struct desk){.settings = *settings, .store = {.folder_fd = -1}};
    unsigned char random[(DESK_TOKEN_BYTES - 1) / 2];
    if (getrandom(random, sizeof random, 0) != (ssize_t)sizeof random) {
        diag_report(diag, DIAG_FAULT, "no-random", (struct mark){0},
                    "the system gives no random bytes");
        return false;
    }
    hex_write(desk->token, random, sizeof random, HEX_SMALL);
    desk->shared = shared_new(desk, diag);
    return desk->shared && store_init(&desk->store, settings->folder, diag) &&
           store_refresh(&desk->store, diag) && start_queue(desk, diag);
}

void desk_finish(struct desk *desk)
{
    queue_free(desk->queue);
    shelter_free(desk->shelter);
    people_finish(&desk->people);
    store_finish(&desk->store);
    shared_free(desk->shared);
}

/* ---- the table
 * ------------------------------------------------------------------------------------------- */

enum { AT_THE_DESK = ROLE_RECEPTION | ROLE_VETERINARIAN };

static const struct route {
    enum request_method method;
    const char *path;
    desk_handler *answer;
    enum role roles; /* 0: also nobody */
} routes[] = {
    {REQUEST_GET, "/api/start", form_start, (enum role)0},
    {REQUEST_POST, "/api/login", people_view_login, (enum role)0},
    {REQUEST_POST, "/api/logout", people_view_logout, (enum role)0},
    {REQUEST_GET, "/api/visits", list_visits, (enum role)AT_THE_DESK},
    {REQUEST_GET, "/api/record", record_open, (enum role)AT_THE_DESK},
    {REQUEST_GET, "/api/sheet", plan_view_sheet, (enum role)AT_THE_DESK},
    {REQUEST_POST, "/api/draft", record_draft, (enum role)AT_THE_DESK},
    {REQUEST_POST, "/api/discard", record_discard, (enum role)AT_THE_DESK},
    {REQUEST_POST, "/api/save", record_save, (enum role)AT_THE_DESK},
    {REQUEST_POST, BESIDE_PATH, beside_drop, (enum role)AT_THE_DESK},
    {REQUEST_POST, "/api/preview", plan_view_preview, (enum role)AT_THE_DESK},
    {REQUEST_POST, "/api/sign", action_sign, (enum role)AT_THE_DESK},
    {REQUEST_POST, "/api/print", action_print, (enum role)AT_THE_DESK},
    {REQUEST_POST, "/api/printed", action_printed_by_hand, (enum role)AT_THE_DESK},
    {REQUEST_POST, "/api/mail", action_mail, (enum role)AT_THE_DESK},
    {REQUEST_GET, "/api/reviews", review_view_all, (enum role)AT_THE_DESK},
    {REQUEST_GET, "/api/review", review_view_one, (enum role)AT_THE_DESK},
    {REQUEST_POST, "/api/review", review_view_settle, (enum role)AT_THE_DESK},
    {REQUEST_GET, "/api/jobs", jobs_list, ROLE_ANY},
    {REQUEST_POST, "/api/job", jobs_change, (enum role)AT_THE_DESK},
    {REQUEST_GET, "/api/printers", jobs_printers, ROLE_ANY},
    {REQUEST_GET, "/api/shelter", shelter_show, ROLE_ANY},
    {REQUEST_GET, "/api/shelter/sheets", shelter_take, ROLE_ANY},
    {REQUEST_GET, "/api/shelter/lists", shelter_lists, ROLE_ANY},
    {REQUEST_GET, "/api/shelter/joined", shelter_joined, ROLE_ANY},
    {REQUEST_POST, "/api/void", record_void, (enum role)AT_THE_DESK},
    {REQUEST_GET, "/api/keeper", keeper_export, (enum role)AT_THE_DESK},
    {REQUEST_POST, "/api/forget", keeper_forget, (enum role)AT_THE_DESK},
    {REQUEST_POST, "/api/shelter/drop", shelter_drop, ROLE_ANY},
    {REQUEST_POST, "/api/shelter/column", shelter_column, ROLE_ANY},
    {REQUEST_POST, "/api/shelter/mend", shelter_mend, ROLE_ANY},
    {REQUEST_POST, "/api/shelter/leave", shelter_leave, ROLE_ANY},
    {REQUEST_POST, "/api/shelter/sign", shelter_sign, ROLE_ANY},
    {REQUEST_POST, "/api/shelter/make", shelter_make, ROLE_ANY},
};

static void find_words(struct answer *answer)
{
    struct sheet_context *sheet_context = &answer->desk->shared->sheet_context;
    const char *language = request_find(answer->request, "lang");
    struct diag quiet;
    diag_init(&quiet);
    answer->words =
        language ? sheet_context_words(sheet_context, language, (struct mark){0}, &quiet) : NULL;
    diag_finish(&quiet);
    if (!answer->words)
        answer->words = sheet_context->words[0];
}

/* Once a day, with the first request. */
static void forget_old(struct desk *desk)
{
    struct date today = desk_today(desk);
    if (date_compare(today, desk->purged) == 0)
        return;
    desk->purged = today;
    retention_purge(&desk->store, desk->settings.forget_days, desk->settings.clock());
}

/* Who asks, and may they? False after a refusal. */
static bool find_person(struct answer *answer, const struct route *route)
{
    struct desk *desk = answer->desk;
    const struct request *request = answer->request;
    if (!people_refresh(&desk->people, &desk->store, answer->arena, &answer->diag)) {
        answer_refuse_faults(answer, 500, "people-not-read", NULL);
        return false;
    }
    if (!desk->people.count && !desk->settings.needs_people)
        return true;
    answer->person = people_at(&desk->people, request->session, desk->settings.clock(),
                               request_find(request, "looking") == NULL);
    if (!route->roles || (answer->person && (answer->person->role & route->roles)))
        return true;
    answer_refuse(answer, answer->person ? 403 : 401, answer->person ? "not-your-role" : "log-in");
    return false;
}

static void answer_api(struct answer *answer, const struct route *route)
{
    const struct request *request = answer->request;
    bool is_foreign = request->fetch_site && strcmp(request->fetch_site, "same-origin") != 0 &&
                      strcmp(request->fetch_site, "none") != 0;
    if (is_foreign ||
        (route->method == REQUEST_POST && !request_may_change(request, answer->desk->token))) {
        answer_refuse(answer, 403, "not-from-this-page");
        return;
    }
    refresh_shared(answer->desk, answer->arena);
    forget_old(answer->desk);
    find_words(answer);
    if (!find_person(answer, route))
        return;
    answer_start(answer);
    route->answer(answer);
    if (!answer->reply->type)
        answer_finish(answer, answer->reply->status ? answer->reply->status : 200);
}

/* A page's file from the folder in which somebody works on it. */
static void read_page_file(const struct desk *desk, const struct page_file *page,
                           struct arena *arena, struct reply *reply)
{
    struct diag quiet;
    const char *name = page->path[1] ? page->path + 1 : "index.html";
    diag_init(&quiet);
    file_read(file_join(arena, desk->settings.page_folder, name), FILE_LIMIT_BYTES, arena, &quiet,
              &reply->body);
    diag_finish(&quiet);
}

static bool answer_page(const struct desk *desk, const struct request *request, struct arena *arena,
                        struct reply *reply)
{
    const struct page_file *page =
        request->method == REQUEST_GET ? pages_find(request->path) : NULL;
    if (!page)
        return false;
    *reply = (struct reply){.status = 200, .type = page->type, .body = {page->data, page->length}};
    if (desk->settings.page_folder)
        read_page_file(desk, page, arena, reply);
    return true;
}

void desk_answer(struct desk *desk, const struct request *request, struct arena *arena,
                 struct reply *reply)
{
    struct answer answer = {.desk = desk, .request = request, .arena = arena, .reply = reply};
    *reply = (struct reply){0};
    if (answer_page(desk, request, arena, reply))
        return;
    diag_init(&answer.diag);
    bool known = false;
    for (size_t i = 0; i < sizeof routes / sizeof *routes && !reply->status; i++) {
        if (strcmp(routes[i].path, request->path) != 0)
            continue;
        known = true;
        if (routes[i].method == request->method)
            answer_api(&answer, &routes[i]);
    }
    if (!reply->status)
        answer_refuse(&answer, known ? 405 : 404, known ? "wrong-method" : "no-such-page");
    diag_finish(&answer.diag);
}
