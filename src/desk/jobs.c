/* The queue as the page sees it. */
#include <stdlib.h>
#include <string.h>

#include "desk/handlers.h"
#include "desk/queue.h"

/* ?name=: those of one record */
void jobs_list(struct answer *answer)
{
    json_open_object(&answer->json);
    json_key(&answer->json, "jobs");
    queue_write_json(answer->desk->queue, request_find(answer->request, "name"), &answer->json);
    json_close_object(&answer->json);
}

/* {number, do: "now" or "drop"} */
void jobs_change(struct answer *answer)
{
    struct node *body = answer_body(answer);
    if (!body)
        return;
    struct queue *queue = answer->desk->queue;
    long number = strtol(answer_text(body, "number"), NULL, 10);
    bool good = strcmp(answer_text(body, "do"), "now") == 0 ? queue_try_now(queue, number)
                                                            : queue_drop(queue, number);
    if (good)
        jobs_list(answer);
    else
        answer_refuse(answer, 409, "job-at-work");
}

/* ?anew=: asked for once more */
void jobs_printers(struct answer *answer)
{
    queue_write_printers(answer->desk->queue, request_find(answer->request, "anew") != NULL,
                         &answer->json);
}
