/* Logging in and out. */
#include <string.h>

#include "desk/handlers.h"

void people_view_write(struct answer *answer)
{
    struct json *j = &answer->json;
    const struct desk *desk = answer->desk;
    json_key_flag(j, "people", desk->people.count > 0 || desk->settings.needs_people);
    json_key_integer(j, "idle", PEOPLE_IDLE_SECONDS);
    json_key(j, "person");
    if (!answer->person) {
        json_null(j);
        return;
    }
    json_open_object(j);
    json_key_text(j, "name", answer->person->name);
    json_key_text(j, "role", people_role_word(answer->person->role));
    json_close_object(j);
}

/* {name, passphrase} */
void people_view_login(struct answer *answer)
{
    struct node *body = answer_body(answer);
    struct desk *desk = answer->desk;
    const struct session *session;
    if (!body)
        return;
    switch (people_log_in(&desk->people, answer_text(body, "name"), answer_text(body, "passphrase"),
                          desk->settings.clock(), &session)) {
    case PEOPLE_IN:
        answer->reply->session = session->key;
        answer->person = people_at(&desk->people, session->key, desk->settings.clock(), true);
        json_open_object(&answer->json);
        people_view_write(answer);
        json_close_object(&answer->json);
        return;
    case PEOPLE_WAIT:
        answer_refuse(answer, 429, "too-many-tries");
        return;
    case PEOPLE_WRONG:
        answer_refuse(answer, 422, "wrong-passphrase");
        return;
    }
}

void people_view_logout(struct answer *answer)
{
    people_log_out(&answer->desk->people, answer->request->session);
    answer->reply->session = "";
    json_open_object(&answer->json);
    json_key_flag(&answer->json, "done", true);
    json_close_object(&answer->json);
}
