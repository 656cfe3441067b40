/* The logical structure of one document (ISO 32000-1, 14.7 and 14.8): collects which marked
 * content and which links belong to which element, then writes the tree. Inside the libharu
 * player only. */
#ifndef BASKLEAF_PDF_STRUCTURE_H
#define BASKLEAF_PDF_STRUCTURE_H

#include "pdf/haru.h"
#include "document/draw_ops.h"

/* Marked content or a link annotation that an element owns. */
struct structure_kid {
    int element, page;
    int mcid;             /* of marked content */
    HPDF_Annotation link; /* NULL for marked content */
    size_t when;          /* order over the whole document */
    struct structure_kid *next;
};

struct structure_node {
    HPDF_Dict dict;
    struct structure_kid *first_kid, *last_kid; /* in order of drawing */
    int first_child, last_child, next_sibling;  /* elements; -1 for none */
    size_t when; /* the first mark in it or below it; SIZE_MAX while there is none */
    double top;  /* of its first mark, from the page's top edge */
    int page;    /* of its first mark; -1 while there is none */
};

struct structure {
    struct haru *haru;         /* borrowed */
    const struct paged *paged; /* borrowed */
    HPDF_Page *pages;          /* borrowed; one a page */
    struct structure_node *nodes;
    int **owners;       /* for each page: the element behind each MCID */
    size_t *mcid_count; /* for each page */
    size_t *mcid_room;
    struct structure_kid **links; /* in order of their StructParent */
    size_t link_count, link_room;
    size_t now;
};

/* Checks that the elements form a tree. False after a DIAG_FAULT when they do not. */
bool structure_init(struct structure *structure, struct haru *haru, const struct paged *paged,
                    HPDF_Page *pages);

/* A new marked-content sequence of an element on a page; `top` is where it begins, from the
 * page's top edge. Returns its MCID. */
int structure_mark(struct structure *structure, int element, int page, double top);

/* Gives a link annotation to an element; sets its StructParent. */
void structure_link(struct structure *structure, int element, int page, HPDF_Annotation link);

/* After everything is drawn: writes tree, parent tree and the pages' StructParents. */
void structure_finish(struct structure *structure);

#endif
