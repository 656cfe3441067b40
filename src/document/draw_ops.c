/* The standard names of the structure elements. */
#include "document/draw_ops.h"

/* ISO 32000-1, 14.8.4; standard names, so that no role map is needed. */
static const char *const type_names[ELEMENT_TYPE_COUNT] = {
    [ELEMENT_DOCUMENT] = "Document",
    [ELEMENT_SECT] = "Sect",
    [ELEMENT_H1] = "H1",
    [ELEMENT_H2] = "H2",
    [ELEMENT_H3] = "H3",
    [ELEMENT_P] = "P",
    [ELEMENT_L] = "L",
    [ELEMENT_LI] = "LI",
    [ELEMENT_LBL] = "Lbl",
    [ELEMENT_LBODY] = "LBody",
    [ELEMENT_TABLE] = "Table",
    [ELEMENT_THEAD] = "THead",
    [ELEMENT_TBODY] = "TBody",
    [ELEMENT_TR] = "TR",
    [ELEMENT_TH] = "TH",
    [ELEMENT_TD] = "TD",
    [ELEMENT_FIGURE] = "Figure",
    [ELEMENT_CAPTION] = "Caption",
    [ELEMENT_DIV] = "Div",
    [ELEMENT_SPAN] = "Span",
    [ELEMENT_LINK] = "Link",
};

const char *draw_ops_element_name(enum element_type type)
{
    return type_names[type];
}
