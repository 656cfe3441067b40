/* The texts of a panel, one after another. */
#include "document/panel.h"

#include "document/diagram.h"

typedef void visitor(void *context, const char *text, bool is_drawn);

static void see(visitor *visit, void *context, const char *text, bool is_drawn)
{
    if (text != NULL)
        visit(context, text, is_drawn);
}

static void see_cells(const struct panel *panel, const struct panel_entry *entry, visitor *visit,
                      void *context)
{
    for (size_t i = 0; entry->cells != NULL && i < panel->column_count; i++)
        for (size_t k = 0; k < entry->cells[i].day_count; k++)
            see(visit, context, entry->cells[i].days[k], true);
}

static void see_entries(const struct panel *panel, const struct panel_entry *entry, visitor *visit,
                        void *context)
{
    for (; entry != NULL; entry = entry->next) {
        see(visit, context, entry->mark, true);
        see(visit, context, entry->mark_said, false);
        see(visit, context, entry->title, true);
        see(visit, context, entry->value, true);
        see(visit, context, entry->turn_said, false);
        see(visit, context, entry->now, true);
        see(visit, context, entry->limit, true);
        see(visit, context, entry->text, true);
        see(visit, context, entry->note, true);
        see(visit, context, entry->unit, true);
        see(visit, context, entry->uri, false);
        see_cells(panel, entry, visit, context);
    }
}

static void see_diagram(const struct diagram *diagram, visitor *visit, void *context)
{
    see(visit, context, diagram->alternative, false);
    for (size_t i = 0; i < diagram->thing_count; i++)
        see(visit, context, diagram->things[i].word, true);
    for (size_t i = 0; i < diagram->label_count && !diagram->is_bare; i++) {
        const struct diagram_label *label = &diagram->labels[i];
        see(visit, context, label->mark, true);
        see(visit, context, label->title, true);
        see(visit, context, label->value, true);
        see(visit, context, label->turn_said, false);
        see(visit, context, label->now, true);
    }
}

void panel_each_text(const struct panel *panel, visitor *visit, void *context)
{
    see(visit, context, panel->photo_alternative, false);
    see(visit, context, panel->title, true);
    see(visit, context, panel->aside, true);
    see(visit, context, panel->text, true);
    see(visit, context, panel->small, true);
    see_entries(panel, panel->telephones, visit, context);
    for (size_t i = 0; i < panel->column_count; i++)
        see(visit, context, panel->columns[i], true);
    see_entries(panel, panel->entries, visit, context);
    if (panel->diagram != NULL)
        see_diagram(panel->diagram, visit, context);
    if (panel->trend != NULL) {
        see(visit, context, panel->trend->alternative, false);
        see(visit, context, panel->trend->first, true);
        see(visit, context, panel->trend->last, true);
    }
    if (panel->cuts != NULL)
        see(visit, context, panel->cuts->alternative, false);
    for (size_t i = 0; panel->cuts != NULL && panel->cuts->words != NULL && i < panel->cuts->count;
         i++)
        see(visit, context, panel->cuts->words[i], true);
    see(visit, context, panel->after, true);
    see(visit, context, panel->second_title, true);
    see_entries(panel, panel->second, visit, context);
}
