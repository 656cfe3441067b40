"""Does a PDF meet what PDF/UA-1 and PDF/A-2a ask together, as far as sheets can break it?

    check_pdf.py [--password WORD] FILE...

Prints one line for every condition that a file breaks, and ends with 1 when there is one. Clauses
are of ISO 14289-1:2014 (UA), ISO 19005-2:2011 (A) and ISO 32000-1:2008 (PDF); checkpoints are
of the Matterhorn Protocol 1.02 (M). Clause and checkpoint numbers are cited from memory.
"""

import argparse
import sys

import pikepdf

import content_rules as content
import document_rules as document
import font_rules as font
import structure_rules as structure
from sheet import Sheet

# name, where it stands, the rule; a rule yields what is wrong
CONDITIONS = [
    ("header", "A 6.1.2", document.header),
    ("end-of-file", "A 6.1.3", document.end_of_file),
    ("trailer-id", "A 6.1.3", document.trailer_id),
    ("no-encryption", "A 6.1.3", document.encryption),
    ("syntax", "A 6.1.1, PDF 7", document.syntax),
    ("filters", "A 6.1.7", document.filters),
    ("no-actions", "A 6.5.1, 6.5.2", document.actions),
    ("metadata-stream", "A 6.6.2.1; UA 7.1; M 06-001", document.metadata_stream),
    ("metadata-xml", "A 6.6.2.1", document.metadata_xml),
    ("pdfa-identification", "A 6.6.4", document.pdfa_identification),
    ("pdfua-identification", "UA 5; M 06-002", document.pdfua_identification),
    ("extension-schema", "A 6.6.2.3", document.extension_schema),
    ("title", "UA 7.1; M 06-003", document.title),
    ("metadata-agrees", "ISO 19005-1 6.7.3; common practice in part 2", document.metadata_agrees),
    ("language", "UA 7.2; A 6.7.4; M 11-006", document.language),
    ("display-title", "UA 7.1; M 07-001, 07-002", document.display_title),
    ("marked", "UA 7.1; A 6.7.2.2; M 02-004", document.marked),
    ("output-intent", "A 6.2.3", document.output_intent),
    ("page-labels", "the project's own: PDF 12.4.2", document.page_labels),
    ("outline", "the project's own: PDF 12.3.3", document.outline),
    ("content-balance", "PDF 14.6.1; A 6.1.13 on q", content.balance),
    ("everything-marked", "UA 7.1; M 01-005", content.everything_marked),
    ("not-both", "UA 7.1; M 01-003, 01-004", content.not_both),
    ("artifact-types", "PDF 14.8.2.2", content.artifact_types),
    ("running-text", "UA 7.8; M 18-001", content.running_text),
    ("ids-unique", "PDF 14.7.4.2", content.ids_unique),
    ("ids-owned", "UA 7.1; M 01-006", content.ids_owned),
    ("parent-tree", "PDF 14.7.4.4", content.parent_tree),
    ("struct-parents", "PDF 14.7.4.4", content.struct_parents),
    ("content-in-leaves", "PDF 14.8.4.2", content.claims_children),
    ("tab-order", "UA 7.18.3; M 28-010", content.tab_order),
    ("colours", "A 6.2.4.3", content.colours),
    ("images", "A 6.2.8", content.images),
    ("transparency", "A 6.2.10, 6.2.5", content.transparency),
    ("links", "UA 7.18.5; M 28-011", content.links),
    ("link-contents", "UA 7.18.5; M 28-012", content.link_contents),
    ("link-text", "UA 7.18.5", content.links_have_text),
    ("link-targets", "PDF 12.6.4.7; RFC 3986", content.link_targets),
    ("annotation-flags", "A 6.3.2", content.annotation_flags),
    ("structure-root", "A 6.7.3; PDF 14.8.4.2", structure.root),
    ("standard-types", "UA 7.1; M 02-001, 02-003", structure.standard_types),
    ("parent-links", "PDF 14.7.2", structure.parent_links),
    ("headings", "UA 7.4.2; M 14-002, 14-003", structure.headings),
    ("kids-allowed", "PDF 14.8.4.3; M 09-004 to 09-006", structure.kids_allowed),
    ("lists", "UA 7.6; M 16-001", structure.lists),
    ("tables", "UA 7.5; M 15-003", structure.tables),
    ("header-scope", "UA 7.5; M 15-003", structure.header_scope),
    ("header-cells", "UA 7.5; M 15-001", structure.header_cells),
    ("captions", "PDF 14.8.4.3.4", structure.captions),
    ("figure-alternative", "UA 7.3; M 13-004", structure.figure_alternative),
    ("figure-box", "PDF 14.8.5.4.3", structure.figure_box),
    ("span-language", "UA 7.2; M 11-004", structure.span_language),
    ("reading-order", "UA 7.1; M 09-001", structure.reading_order),
    ("font-chosen", "PDF 9.3.1", font.chosen),
    ("font-embedded", "A 6.2.11.4.1; UA 7.21.4.1; M 31-009", font.embedded),
    ("font-subset-name", "PDF 9.6.4", font.subset_names),
    ("font-descriptor", "PDF 9.8.1", font.descriptors),
    ("font-encoding", "A 6.2.11.6; UA 7.21.6; M 31-017 to 31-025", font.encodings),
    ("font-cid-map", "A 6.2.11.3.2; UA 7.21.3.2; M 31-008", font.cid_maps),
    ("font-notdef", "A 6.2.11.8; UA 7.21.8; M 31-030", font.glyphs),
    ("font-closure", "A 6.2.11.4.1; UA 7.21.4.1; M 31-011", font.closure),
    ("font-widths", "A 6.2.11.5; UA 7.21.5; M 31-016", font.widths),
    ("font-unicode", "A 6.2.11.7; UA 7.21.7; M 10-001, 31-027, 31-028", font.mapped),
]


def broken(path, password=""):
    """{name of a broken condition: [what is wrong]}."""
    try:
        sheet = Sheet(path, password)
    except pikepdf.PdfError as fault:
        return {"syntax": [f"the file cannot be opened: {fault}"]}
    found = {}
    for name, _, rule in CONDITIONS:
        wrong = list(rule(sheet))
        if wrong:
            found[name] = wrong
    return found


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--password", default="")
    parser.add_argument("files", nargs="+")
    arguments = parser.parse_args()
    clauses = {name: clause for name, clause, _ in CONDITIONS}
    failed = False
    for path in arguments.files:
        for name, wrong in broken(path, arguments.password).items():
            failed = True
            for what in wrong:
                print(f"{path}: {name} ({clauses[name]}): {what}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
