/* Finds the clinic's numbers and addresses in a document's texts and makes them links (RFC 3966,
 * 6068). */
#include "sheet/contact_links.h"

#include <string.h>

#include "records/mail_address.h"
#include "sheet/draw.h"

enum { CONTACTS_MOST = 4 };

struct contact {
    const char *text, *uri;
};

struct contacts {
    struct contact items[CONTACTS_MOST];
    size_t count;
    struct arena *arena;
};

static void add_contact(struct contacts *contacts, const char *text, const char *uri)
{
    if (text && *text && uri)
        contacts->items[contacts->count++] = (struct contact){text, uri};
}

/* The first of them in a text; the longest where two begin alike. */
static const char *find_first(const struct contacts *contacts, const char *text,
                              const struct contact **out)
{
    const char *first = NULL;
    for (size_t i = 0; i < contacts->count; i++) {
        const char *at = strstr(text, contacts->items[i].text);
        bool longer =
            first && at == first && strlen(contacts->items[i].text) > strlen((*out)->text);
        if (!at || (first && at > first) || (at == first && !longer))
            continue;
        first = at;
        *out = &contacts->items[i];
    }
    return first;
}

/* The span keeps what stands before the contact; link and rest become spans of their own. */
static void part(const struct contacts *contacts, struct span *span)
{
    const struct contact *contact = NULL;
    for (; span; span = span->next) {
        const char *at = span->uri ? NULL : find_first(contacts, span->text, &contact);
        if (!at)
            continue;
        struct span *link = ARENA_NEW(contacts->arena, struct span);
        struct span *rest = ARENA_NEW(contacts->arena, struct span);
        *link = *rest = *span;
        link->text = contact->text;
        link->uri = contact->uri;
        rest->text = at + strlen(contact->text);
        link->next = *rest->text ? rest : span->next;
        if (at == span->text) {
            *span = *link;
        } else {
            span->text = arena_copy_bytes(contacts->arena, span->text, (size_t)(at - span->text));
            span->next = link;
            span = link;
        }
    }
}

static void part_rows(const struct contacts *contacts, struct table_row *row)
{
    for (; row; row = row->next)
        for (struct table_cell *cell = row->cells; cell; cell = cell->next)
            part(contacts, cell->text);
}

static void part_blocks(const struct contacts *contacts, struct block *block)
{
    for (; block; block = block->next) {
        switch (block->kind) {
        case BLOCK_HEADING:
            part(contacts, block->as.heading.text);
            break;
        case BLOCK_PARAGRAPH:
            part(contacts, block->as.paragraph.text);
            break;
        case BLOCK_LIST:
            for (struct list_item *item = block->as.list.items; item; item = item->next) {
                part(contacts, item->text);
                part_blocks(contacts, item->more);
            }
            break;
        case BLOCK_TABLE:
            part_rows(contacts, block->as.table.rows);
            break;
        case BLOCK_CALLOUT:
            part(contacts, block->as.callout.title);
            part_blocks(contacts, block->as.callout.blocks);
            break;
        case BLOCK_COLUMNS:
            for (struct column *column = block->as.columns.columns; column; column = column->next)
                part_blocks(contacts, column->blocks);
            break;
        case BLOCK_PICTURE:
            part(contacts, block->as.picture.caption);
            break;
        default:
            break;
        }
    }
}

void contact_links_set(const struct letterhead_plan *clinic, struct block *blocks,
                       struct arena *arena)
{
    struct contacts contacts = {.arena = arena};
    const char *web = clinic->web, *email = clinic->email.text;
    add_contact(&contacts, clinic->telephone, draw_telephone_uri(arena, clinic->telephone));
    add_contact(&contacts, clinic->out_of_hours, draw_telephone_uri(arena, clinic->out_of_hours));
    add_contact(&contacts, email, email ? mail_address_uri(email, arena) : NULL);
    add_contact(&contacts, web, web && strncmp(web, "https://", 8) == 0 ? web : NULL);
    part_blocks(&contacts, blocks);
}
