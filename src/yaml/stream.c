/* Reads the head of a file and then one item of its list at a time. */
#include "yaml/stream.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "yaml/reading.h"

enum place { PLACE_BEFORE, PLACE_TOP, PLACE_LIST, PLACE_BEHIND, PLACE_DONE };

struct tree_stream {
    struct reading reading;
    int fd;              /* -1: not open */
    bool looked;         /* for pairs of escapes */
    struct bytes joined; /* the text with its pairs joined, where it has some */
    const char *list_key;
    struct arena *lasting;
    const char **keys; /* of the top, so far */
    size_t key_count;
    const struct node *list_name;
    enum place place;
    size_t weight; /* of all that was read, aliases written out */
};

/* ---- the file ------------------------------------------------------------------------------ */

static int read_some(void *data, unsigned char *buffer, size_t room, size_t *length)
{
    struct tree_stream *stream = data;
    ssize_t got;
    do
        got = read(stream->fd, buffer, room);
    while (got < 0 && errno == EINTR);
    if (got < 0)
        stream->reading.file_error = errno;
    *length = got > 0 ? (size_t)got : 0;
    return got >= 0;
}

/* Looks once whether the file has JSON's pairs of escapes; then it is read whole and they are
 * joined. What is no regular file can be read only once, and is not looked at. */
static bool look_for_pairs(struct tree_stream *stream, struct diag *diag)
{
    struct reading *r = &stream->reading;
    struct stat st;
    stream->looked = true;
    if (fstat(stream->fd, &st) != 0 || !S_ISREG(st.st_mode))
        return true;
    r->is_at_hand = true;
    struct arena passing;
    struct bytes text;
    arena_init(&passing);
    bool good = file_read(r->name, FILE_LIMIT_BYTES, &passing, diag, &text);
    if (good && surrogates_are_possible(text))
        stream->joined = surrogates_join(text, stream->lasting, &r->pairs);
    arena_finish(&passing);
    return good;
}

static bool set_input(struct tree_stream *stream, struct diag *diag)
{
    struct reading *r = &stream->reading;
    stream->fd = file_open(r->name, FILE_LIMIT_BYTES, diag);
    if (stream->fd < 0 || (!stream->looked && !look_for_pairs(stream, diag)))
        return false;
    if (r->pairs.count)
        yaml_parser_set_input_string(&r->parser, (const unsigned char *)stream->joined.data,
                                     stream->joined.length);
    else
        yaml_parser_set_input(&r->parser, read_some, stream);
    return true;
}

static bool begin(struct tree_stream *stream, struct diag *diag)
{
    struct reading *r = &stream->reading;
    r->anchor_count = r->nodes = stream->key_count = stream->weight = 0;
    r->failed = false;
    r->file_error = 0;
    r->depth = 0;
    stream->place = PLACE_BEFORE;
    if (!yaml_parser_initialize(&r->parser))
        support_out_of_memory();
    yaml_parser_set_encoding(&r->parser, YAML_UTF8_ENCODING);
    return set_input(stream, diag);
}

static void end(struct tree_stream *stream)
{
    yaml_parser_delete(&stream->reading.parser);
    if (stream->fd >= 0)
        close(stream->fd);
    stream->fd = -1;
}

struct tree_stream *tree_stream_open(const char *path, const char *list_key, struct arena *lasting,
                                     struct diag *diag)
{
    struct tree_stream *stream = ARENA_NEW(lasting, struct tree_stream);
    stream->list_key = list_key;
    stream->lasting = stream->reading.lasting = lasting;
    stream->reading.name = arena_copy_text(lasting, path);
    stream->keys = ARENA_ARRAY(lasting, const char *, READING_KEYS_LIMIT);
    if (begin(stream, diag))
        return stream;
    end(stream);
    return NULL;
}

void tree_stream_close(struct tree_stream *stream)
{
    if (stream)
        end(stream);
}

bool tree_stream_rewind(struct tree_stream *stream, struct diag *diag)
{
    end(stream);
    return begin(stream, diag);
}

/* ---- values -------------------------------------------------------------------------------- */

/* The value that begins with this event, which it deletes. NULL after a fault. */
static struct node *read_value(struct tree_stream *stream, yaml_event_t *event, struct arena *arena)
{
    struct reading *r = &stream->reading;
    r->arena = arena;
    r->lasting_depth = 0;
    r->root = NULL;
    do {
        reading_take(r, event);
        yaml_event_delete(event);
    } while (!r->failed && r->depth > 0 && reading_next(r, event));
    if (r->failed || !r->root)
        return NULL;
    stream->weight += r->root->weight;
    if (stream->weight > TREE_NODE_LIMIT)
        READING_STOP(r, "too-many-nodes", r->root->at, "more than %d values, aliases written out",
                     TREE_NODE_LIMIT);
    return r->failed ? NULL : r->root;
}

static bool note_key(struct tree_stream *stream, const struct node *key)
{
    struct reading *r = &stream->reading;
    if (key->kind != NODE_SCALAR)
        READING_STOP(r, "key-not-text", key->at, "a key must be a text, not %s",
                     tree_kind_name(key->kind));
    else if (stream->key_count == READING_KEYS_LIMIT)
        READING_STOP(r, "too-many-keys", key->at, "more than %d keys in one mapping",
                     READING_KEYS_LIMIT);
    for (size_t i = 0; !r->failed && i < stream->key_count; i++)
        if (strcmp(stream->keys[i], key->text) == 0)
            READING_STOP(r, "double-key", key->at, "key '%s' stands twice", key->text);
    if (!r->failed)
        stream->keys[stream->key_count++] = key->text;
    return !r->failed;
}

/* ---- steps --------------------------------------------------------------------------------- */

/* One event outside any value, which it deletes. */
static void step_outside(struct tree_stream *stream, yaml_event_t *event)
{
    struct reading *r = &stream->reading;
    struct mark at = reading_mark(r, event->start_mark);
    if (event->type == YAML_STREAM_END_EVENT && stream->place == PLACE_BEFORE)
        READING_STOP(r, "empty-file", ((struct mark){r->name, 1, 1}), "is empty");
    else if (event->type == YAML_STREAM_END_EVENT)
        stream->place = PLACE_DONE;
    else if (event->type == YAML_DOCUMENT_START_EVENT && stream->place == PLACE_BEHIND)
        READING_STOP(r, "second-document", at, "a second document begins; a file holds one");
    else if (event->type == YAML_MAPPING_START_EVENT)
        stream->place = PLACE_TOP;
    else if (event->type == YAML_SCALAR_EVENT || event->type == YAML_SEQUENCE_START_EVENT)
        READING_STOP(r, "not-a-mapping", at, "begins with %s, not with keys",
                     event->type == YAML_SCALAR_EVENT ? "a text" : "a list");
    yaml_event_delete(event);
}

/* A key and, unless it opens the list, its value. True when *out is filled. */
static bool step_top(struct tree_stream *stream, yaml_event_t *event, struct tree_entry *out)
{
    struct reading *r = &stream->reading;
    if (event->type == YAML_MAPPING_END_EVENT) {
        stream->place = PLACE_BEHIND;
        yaml_event_delete(event);
        return false;
    }
    const struct node *key = read_value(stream, event, stream->lasting);
    if (!key || !note_key(stream, key) || !reading_next(r, event))
        return false;
    if (event->type == YAML_SEQUENCE_START_EVENT && strcmp(key->text, stream->list_key) == 0) {
        stream->place = PLACE_LIST;
        stream->list_name = key;
        yaml_event_delete(event);
        return false;
    }
    *out = (struct tree_entry){key, read_value(stream, event, stream->lasting)};
    return out->value != NULL;
}

static bool step_list(struct tree_stream *stream, yaml_event_t *event, struct arena *arena,
                      struct tree_entry *out)
{
    if (event->type == YAML_SEQUENCE_END_EVENT) {
        stream->place = PLACE_TOP;
        yaml_event_delete(event);
        return false;
    }
    *out = (struct tree_entry){stream->list_name, read_value(stream, event, arena)};
    return out->value != NULL;
}

enum tree_step tree_stream_next(struct tree_stream *stream, struct arena *arena, struct diag *diag,
                                struct tree_entry *out)
{
    struct reading *r = &stream->reading;
    r->diag = diag;
    while (!r->failed && stream->place != PLACE_DONE) {
        yaml_event_t event;
        if (!reading_next(r, &event))
            break;
        switch (stream->place) {
        case PLACE_TOP:
            if (step_top(stream, &event, out))
                return TREE_ENTRY;
            break;
        case PLACE_LIST:
            if (step_list(stream, &event, arena, out))
                return TREE_ITEM;
            break;
        default:
            step_outside(stream, &event);
        }
    }
    return r->failed ? TREE_BROKEN : TREE_END;
}
