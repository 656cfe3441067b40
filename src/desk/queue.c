/* The list of jobs and the threads that work it off. */
#include "desk/queue.h"

#include <pthread.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "desk/queue_job.h"
#include "print/printer.h"
#include "records/clinic.h"

enum {
    LOOK_SECONDS = 2,         /* after a job at the printer */
    LOOK_SLOWLY_SECONDS = 30, /* when it has been there for long */
    LOOKS_QUICKLY = 60,
    PRINTERS_SECONDS = 60,
    END_SECONDS = 5, /* for what is at work when the desk ends */
    JOBS_KEPT = 200  /* that have ended */
};

/* Seconds until a mail is tried again, by how often it was. Common practice, no source. */
static const int later_seconds[] = {60, 300, 900, 1800, 3600, 7200};
enum { TRIES_MOST = sizeof later_seconds / sizeof *later_seconds };

struct printers {
    struct arena arena;
    bool known;
    struct printer_about *items;
    size_t count;
    char why[JOB_WHY_BYTES]; /* there are none */
    long long asked;
};

struct queue {
    long long (*clock)(void);
    pthread_mutex_t lock;
    pthread_cond_t wake;
    pthread_t threads[JOB_KIND_COUNT];
    int thread_count;
    bool ends;
    struct job *jobs; /* newest first */
    long last_number;
    struct printers printers;
};

/* One thread's share of the queue. */
struct worker {
    struct queue *queue;
    enum job_kind kind;
};

/* ---- below the lock -------------------------------------------------------------------------- */

static bool has_ended(const struct job *job)
{
    return job->state == JOB_DONE || job->state == JOB_FAILED || job->state == JOB_UNSURE;
}

static struct job *find(struct queue *queue, long number)
{
    struct job *job = queue->jobs;
    while (job && job->number != number)
        job = job->next;
    return job;
}

static void free_job(struct job *job)
{
    arena_finish(&job->arena);
    free(job);
}

/* The oldest that is due. */
static struct job *next_due(struct queue *queue, enum job_kind kind)
{
    struct job *found = NULL;
    for (struct job *job = queue->jobs; job; job = job->next)
        if (job->order.kind == kind && !has_ended(job) && job->due <= queue->clock())
            found = job;
    return found;
}

static bool printers_are_old(const struct queue *queue)
{
    return queue->clock() - queue->printers.asked >= PRINTERS_SECONDS;
}

static void take_outcome(struct queue *queue, struct job *job, const struct outcome *outcome)
{
    job->state = outcome->state;
    memcpy(job->why, outcome->why, sizeof job->why);
    job->tries++;
    if (outcome->print_job) {
        bool is_first = !job->print_job;
        job->print_job = outcome->print_job;
        memcpy(job->printer, outcome->printer, sizeof job->printer);
        job->due = queue->clock() + (is_first                     ? 0
                                     : job->tries < LOOKS_QUICKLY ? LOOK_SECONDS
                                                                  : LOOK_SLOWLY_SECONDS);
    } else if (outcome->again && job->tries <= TRIES_MOST) {
        job->state = JOB_WAITING;
        job->due = queue->clock() + later_seconds[job->tries - 1];
    } else if (outcome->again) {
        job->state = JOB_FAILED;
    }
}

/* ---- the threads ----------------------------------------------------------------------------- */

/* Called and left with the lock held; without it while the print system is asked. */
static void ask_for_printers(struct queue *queue)
{
    struct printers *printers = &queue->printers, anew = {.known = true};
    struct diag diag;
    printers->asked = queue->clock();
    pthread_mutex_unlock(&queue->lock);
    arena_init(&anew.arena);
    diag_init(&diag);
    anew.count = printer_list(&anew.arena, &diag, &anew.items);
    if (diag.first)
        snprintf(anew.why, sizeof anew.why, "%s", diag.first->text);
    diag_finish(&diag);
    pthread_mutex_lock(&queue->lock);
    anew.asked = queue->clock();
    arena_finish(&printers->arena);
    *printers = anew;
}

/* The same for an attempt: a job at work is neither changed nor dropped by others. */
static void attempt(struct queue *queue, struct job *job)
{
    struct outcome outcome;
    if (!job->print_job)
        job->state = JOB_AT_WORK;
    job->in_hand = true;
    pthread_mutex_unlock(&queue->lock);
    job_attempt(job, queue->clock, &outcome);
    pthread_mutex_lock(&queue->lock);
    job->in_hand = false;
    take_outcome(queue, job, &outcome);
}

static void wait_a_second(struct queue *queue)
{
    struct timespec until;
    clock_gettime(CLOCK_REALTIME, &until);
    until.tv_sec += 1;
    pthread_cond_timedwait(&queue->wake, &queue->lock, &until);
}

static void *work(void *data)
{
    struct worker worker = *(struct worker *)data;
    struct queue *queue = worker.queue;
    free(data);
    pthread_mutex_lock(&queue->lock);
    while (!queue->ends) {
        struct job *job = next_due(queue, worker.kind);
        if (job)
            attempt(queue, job);
        else if (worker.kind == JOB_PRINT && printers_are_old(queue))
            ask_for_printers(queue);
        else
            wait_a_second(queue);
    }
    pthread_mutex_unlock(&queue->lock);
    return NULL;
}

static bool start(struct queue *queue, enum job_kind kind)
{
    struct worker *worker = malloc(sizeof *worker);
    if (!worker)
        support_out_of_memory();
    *worker = (struct worker){queue, kind};
    if (pthread_create(&queue->threads[kind], NULL, work, worker) != 0) {
        free(worker);
        return false;
    }
    queue->thread_count++;
    return true;
}

struct queue *queue_new(long long (*clock)(void))
{
    struct queue *queue = calloc(1, sizeof *queue);
    if (!queue)
        support_out_of_memory();
    queue->clock = clock;
    arena_init(&queue->printers.arena);
    pthread_mutex_init(&queue->lock, NULL);
    pthread_cond_init(&queue->wake, NULL);
    if (start(queue, JOB_MAIL) && start(queue, JOB_PRINT))
        return queue;
    queue_free(queue);
    return NULL;
}

/* False: one is still at work. Its last line in the log then says that nobody knows. */
static bool join_all(struct queue *queue)
{
    struct timespec until;
    bool all = true;
    clock_gettime(CLOCK_REALTIME, &until);
    until.tv_sec += END_SECONDS;
    for (int i = 0; i < queue->thread_count; i++)
        all = pthread_timedjoin_np(queue->threads[i], NULL, &until) == 0 && all;
    return all;
}

void queue_free(struct queue *queue)
{
    if (!queue)
        return;
    pthread_mutex_lock(&queue->lock);
    queue->ends = true;
    pthread_cond_broadcast(&queue->wake);
    pthread_mutex_unlock(&queue->lock);
    if (!join_all(queue))
        return; /* a thread still reads it; the process ends now */
    for (struct job *job = queue->jobs; job;) {
        struct job *next = job->next;
        free_job(job);
        job = next;
    }
    arena_finish(&queue->printers.arena);
    pthread_mutex_destroy(&queue->lock);
    pthread_cond_destroy(&queue->wake);
    free(queue);
}

/* ---- jobs ------------------------------------------------------------------------------------ */

static bool is_busy(const struct queue *queue, enum job_kind kind, const char *record)
{
    for (const struct job *job = queue->jobs; job; job = job->next)
        if (job->order.kind == kind && !has_ended(job) && strcmp(job->order.record, record) == 0)
            return true;
    return false;
}

bool queue_is_busy(struct queue *queue, enum job_kind kind, const char *record)
{
    pthread_mutex_lock(&queue->lock);
    bool busy = is_busy(queue, kind, record);
    pthread_mutex_unlock(&queue->lock);
    return busy;
}

static const char *copy(const char *text, struct arena *arena)
{
    return text ? arena_copy_text(arena, text) : NULL;
}

static struct job *new_job(const struct job_order *order)
{
    struct job *job = calloc(1, sizeof *job);
    if (!job)
        support_out_of_memory();
    struct arena *arena = &job->arena;
    arena_init(arena);
    job->order = (struct job_order){
        .kind = order->kind,
        .record = copy(order->record, arena),
        .version = copy(order->version, arena),
        .who = copy(order->who, arena),
        .log = copy(order->log, arena),
        .body = {arena_copy_bytes(arena, order->body.data, order->body.length), order->body.length},
        .settings = copy(order->settings, arena),
        .from = copy(order->from, arena),
        .to = copy(order->to, arena),
        .printer = copy(order->printer, arena),
        .title = copy(order->title, arena),
        .paper = copy(order->paper, arena),
        .copies = order->copies,
    };
    return job;
}

static void forget_old(struct queue *queue)
{
    int kept = 0;
    for (struct job **at = &queue->jobs; *at;) {
        struct job *job = *at;
        if (!has_ended(job) || ++kept <= JOBS_KEPT) {
            at = &job->next;
            continue;
        }
        *at = job->next;
        free_job(job);
    }
}

long queue_add(struct queue *queue, const struct job_order *order)
{
    pthread_mutex_lock(&queue->lock);
    long number = 0;
    if (!is_busy(queue, order->kind, order->record)) {
        struct job *job = new_job(order);
        number = job->number = ++queue->last_number;
        job->next = queue->jobs;
        queue->jobs = job;
        forget_old(queue);
        pthread_cond_broadcast(&queue->wake);
    }
    pthread_mutex_unlock(&queue->lock);
    return number;
}

bool queue_try_now(struct queue *queue, long number)
{
    pthread_mutex_lock(&queue->lock);
    struct job *job = find(queue, number);
    bool good = job && !job->in_hand && (job->state == JOB_WAITING || job->state == JOB_FAILED);
    if (good) {
        job->state = JOB_WAITING;
        job->print_job = job->tries = 0;
        job->due = 0;
        pthread_cond_broadcast(&queue->wake);
    }
    pthread_mutex_unlock(&queue->lock);
    return good;
}

bool queue_drop(struct queue *queue, long number)
{
    pthread_mutex_lock(&queue->lock);
    struct job *job = find(queue, number);
    bool good = job && !job->in_hand;
    for (struct job **at = &queue->jobs; good && *at; at = &(*at)->next)
        if (*at == job) {
            *at = job->next;
            free_job(job);
            break;
        }
    pthread_mutex_unlock(&queue->lock);
    return good;
}

static const char *state_word(enum job_state state)
{
    static const char *const words[] = {
        [JOB_WAITING] = "waiting", [JOB_AT_WORK] = "at-work", [JOB_AT_PRINTER] = "at-printer",
        [JOB_STOPPED] = "stopped", [JOB_DONE] = "done",       [JOB_UNSURE] = "unsure",
        [JOB_FAILED] = "failed",
    };
    return words[state];
}

void queue_write_json(struct queue *queue, const char *record, struct json *json)
{
    pthread_mutex_lock(&queue->lock);
    json_open_list(json);
    for (const struct job *job = queue->jobs; job; job = job->next) {
        if (record && strcmp(job->order.record, record) != 0)
            continue;
        json_open_object(json);
        json_key_integer(json, "number", job->number);
        json_key_text(json, "kind", job->order.kind == JOB_MAIL ? "mail" : "print");
        json_key_text(json, "record", job->order.record);
        json_key_text(json, "who", job->order.who);
        json_key_text(json, "state", state_word(job->state));
        json_key_text(json, "why", job->why);
        json_key_integer(json, "tries", job->tries);
        json_close_object(json);
    }
    json_close_list(json);
    pthread_mutex_unlock(&queue->lock);
}

/* ---- printers -------------------------------------------------------------------------------- */

void queue_write_printers(struct queue *queue, bool anew, struct json *json)
{
    pthread_mutex_lock(&queue->lock);
    struct printers *printers = &queue->printers;
    if (anew) {
        printers->asked = 0;
        pthread_cond_broadcast(&queue->wake);
    }
    json_open_object(json);
    json_key_flag(json, "known", printers->known);
    json_key_text(json, "why", printers->why);
    json_key(json, "printers");
    json_open_list(json);
    for (size_t i = 0; i < printers->count; i++) {
        const struct printer_about *one = &printers->items[i];
        json_open_object(json);
        json_key_text(json, "name", one->name);
        json_key_text(json, "info", one->info);
        json_key_flag(json, "default", one->is_default);
        json_key_text(json, "stopped", one->stopped);
        json_close_object(json);
    }
    json_close_list(json);
    json_close_object(json);
    pthread_mutex_unlock(&queue->lock);
}

const char *queue_paper_of(struct queue *queue, const char *printer)
{
    const char *paper = NULL;
    pthread_mutex_lock(&queue->lock);
    for (size_t i = 0; i < queue->printers.count; i++) {
        const struct printer_about *one = &queue->printers.items[i];
        if (printer ? strcmp(one->name, printer) == 0 : one->is_default)
            paper = one->paper;
    }
    for (const struct choice *c = paper_choices; paper && c->word; c++)
        if (strcmp(c->word, paper) == 0)
            paper = c->word; /* static: the list may be replaced at any time */
    pthread_mutex_unlock(&queue->lock);
    return paper;
}
