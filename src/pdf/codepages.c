/* The tables of WinAnsi and of the pages made for what it lacks, searched both ways. */
#include "pdf/codepages.h"

#include <stddef.h>
#include <stdint.h>

enum { FIRST_CODE = 33 };

struct glyph_name {
    uint16_t code_point;
    const char *name;
};

/* Windows code page 1252, the bytes 0x80 to 0x9F; 0 where it has no character. The rest of
 * the page equals Latin-1. ISO 32000-1, annex D.2 calls it WinAnsiEncoding. */
static const uint16_t win_ansi_high[32] = {
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017D, 0,      0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178,
};

/* Both tables are sorted by code point; row i has the code 33 + i. The names are those of
 * the Adobe Glyph List 2.0, as PDF/A-2 (ISO 19005-2, 6.2.11.6) asks of every name in a
 * Differences array. */
static const struct glyph_name letters[] = {
    {0x0100, "Amacron"},
    {0x0101, "amacron"},
    {0x0102, "Abreve"},
    {0x0103, "abreve"},
    {0x0104, "Aogonek"},
    {0x0105, "aogonek"},
    {0x0106, "Cacute"},
    {0x0107, "cacute"},
    {0x0108, "Ccircumflex"},
    {0x0109, "ccircumflex"},
    {0x010A, "Cdotaccent"},
    {0x010B, "cdotaccent"},
    {0x010C, "Ccaron"},
    {0x010D, "ccaron"},
    {0x010E, "Dcaron"},
    {0x010F, "dcaron"},
    {0x0110, "Dcroat"},
    {0x0111, "dcroat"},
    {0x0112, "Emacron"},
    {0x0113, "emacron"},
    {0x0114, "Ebreve"},
    {0x0115, "ebreve"},
    {0x0116, "Edotaccent"},
    {0x0117, "edotaccent"},
    {0x0118, "Eogonek"},
    {0x0119, "eogonek"},
    {0x011A, "Ecaron"},
    {0x011B, "ecaron"},
    {0x011C, "Gcircumflex"},
    {0x011D, "gcircumflex"},
    {0x011E, "Gbreve"},
    {0x011F, "gbreve"},
    {0x0120, "Gdotaccent"},
    {0x0121, "gdotaccent"},
    {0x0122, "Gcedilla"},
    {0x0123, "gcedilla"},
    {0x0124, "Hcircumflex"},
    {0x0125, "hcircumflex"},
    {0x0126, "Hbar"},
    {0x0127, "hbar"},
    {0x0128, "Itilde"},
    {0x0129, "itilde"},
    {0x012A, "Imacron"},
    {0x012B, "imacron"},
    {0x012C, "Ibreve"},
    {0x012D, "ibreve"},
    {0x012E, "Iogonek"},
    {0x012F, "iogonek"},
    {0x0130, "Idotaccent"},
    {0x0131, "dotlessi"},
    {0x0132, "IJ"},
    {0x0133, "ij"},
    {0x0134, "Jcircumflex"},
    {0x0135, "jcircumflex"},
    {0x0136, "Kcedilla"},
    {0x0137, "kcedilla"},
    {0x0138, "kgreenlandic"},
    {0x0139, "Lacute"},
    {0x013A, "lacute"},
    {0x013B, "Lcedilla"},
    {0x013C, "lcedilla"},
    {0x013D, "Lcaron"},
    {0x013E, "lcaron"},
    {0x013F, "Ldot"},
    {0x0140, "ldot"},
    {0x0141, "Lslash"},
    {0x0142, "lslash"},
    {0x0143, "Nacute"},
    {0x0144, "nacute"},
    {0x0145, "Ncedilla"},
    {0x0146, "ncedilla"},
    {0x0147, "Ncaron"},
    {0x0148, "ncaron"},
    {0x0149, "napostrophe"},
    {0x014A, "Eng"},
    {0x014B, "eng"},
    {0x014C, "Omacron"},
    {0x014D, "omacron"},
    {0x014E, "Obreve"},
    {0x014F, "obreve"},
    {0x0150, "Ohungarumlaut"},
    {0x0151, "ohungarumlaut"},
    {0x0154, "Racute"},
    {0x0155, "racute"},
    {0x0156, "Rcedilla"},
    {0x0157, "rcedilla"},
    {0x0158, "Rcaron"},
    {0x0159, "rcaron"},
    {0x015A, "Sacute"},
    {0x015B, "sacute"},
    {0x015C, "Scircumflex"},
    {0x015D, "scircumflex"},
    {0x015E, "Scedilla"},
    {0x015F, "scedilla"},
    {0x0162, "Tcedilla"},
    {0x0163, "tcedilla"},
    {0x0164, "Tcaron"},
    {0x0165, "tcaron"},
    {0x0166, "Tbar"},
    {0x0167, "tbar"},
    {0x0168, "Utilde"},
    {0x0169, "utilde"},
    {0x016A, "Umacron"},
    {0x016B, "umacron"},
    {0x016C, "Ubreve"},
    {0x016D, "ubreve"},
    {0x016E, "Uring"},
    {0x016F, "uring"},
    {0x0170, "Uhungarumlaut"},
    {0x0171, "uhungarumlaut"},
    {0x0172, "Uogonek"},
    {0x0173, "uogonek"},
    {0x0174, "Wcircumflex"},
    {0x0175, "wcircumflex"},
    {0x0176, "Ycircumflex"},
    {0x0177, "ycircumflex"},
    {0x0179, "Zacute"},
    {0x017A, "zacute"},
    {0x017B, "Zdotaccent"},
    {0x017C, "zdotaccent"},
    {0x017F, "longs"},
    {0x0218, "Scommaaccent"},
    {0x0219, "scommaaccent"},
};

static const struct glyph_name signs[] = {
    {0x02C7, "caron"},        {0x02D8, "breve"},       {0x02D9, "dotaccent"},
    {0x02DA, "ring"},         {0x02DB, "ogonek"},      {0x02DD, "hungarumlaut"},
    {0x2010, "hyphentwo"},    {0x2012, "figuredash"},  {0x2015, "horizontalbar"},
    {0x2032, "minute"},       {0x2033, "second"},      {0x2044, "fraction"},
    {0x207F, "nsuperior"},    {0x2082, "twoinferior"}, {0x2126, "Omega"},
    {0x2153, "onethird"},     {0x2154, "twothirds"},   {0x215B, "oneeighth"},
    {0x215C, "threeeighths"}, {0x215D, "fiveeighths"}, {0x215E, "seveneighths"},
    {0x2190, "arrowleft"},    {0x2191, "arrowup"},     {0x2192, "arrowright"},
    {0x2193, "arrowdown"},    {0x2194, "arrowboth"},   {0x2195, "arrowupdn"},
    {0x2202, "partialdiff"},  {0x2206, "Delta"},       {0x220F, "product"},
    {0x2211, "summation"},    {0x2212, "minus"},       {0x221A, "radical"},
    {0x221E, "infinity"},     {0x222B, "integral"},    {0x2248, "approxequal"},
    {0x2260, "notequal"},     {0x2264, "lessequal"},   {0x2265, "greaterequal"},
    {0x25A0, "filledbox"},    {0x25A1, "H22073"},      {0x25B2, "triagup"},
    {0x25BA, "triagrt"},      {0x25BC, "triagdn"},     {0x25C4, "triaglf"},
    {0x25CA, "lozenge"},      {0x25CB, "circle"},      {0x25CF, "H18533"},
    {0x2640, "female"},       {0x2642, "male"},        {0x2713, "checkmark"},
};

static const struct {
    const struct glyph_name *rows;
    size_t count;
} own_pages[CODEPAGE_COUNT] = {
    [CODEPAGE_LETTERS] = {letters, sizeof letters / sizeof letters[0]},
    [CODEPAGE_SIGNS] = {signs, sizeof signs / sizeof signs[0]},
};

/* The byte in WinAnsi, or -1. */
static int find_win_ansi(unsigned code_point)
{
    if ((code_point >= 0x20 && code_point <= 0x7E) || (code_point >= 0xA0 && code_point <= 0xFF))
        return (int)code_point;
    for (int i = 0; i < 32; i++)
        if (code_point != 0 && win_ansi_high[i] == code_point)
            return 0x80 + i;
    return -1;
}

/* The byte in a page of our own, or -1. */
static int find_own(enum codepage page, unsigned code_point)
{
    const struct glyph_name *rows = own_pages[page].rows;
    size_t low = 0, high = own_pages[page].count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (rows[middle].code_point < code_point)
            low = middle + 1;
        else
            high = middle;
    }
    bool found = low < own_pages[page].count && rows[low].code_point == code_point;
    return found ? FIRST_CODE + (int)low : -1;
}

bool codepages_find(unsigned code_point, enum codepage *page, int *code)
{
    *page = CODEPAGE_WIN_ANSI;
    *code = find_win_ansi(code_point);
    for (int own = CODEPAGE_LETTERS; *code < 0 && own < CODEPAGE_COUNT; own++) {
        *page = (enum codepage)own;
        *code = find_own(*page, code_point);
    }
    return *code >= 0;
}

/* The row of a page of our own behind a byte, or NULL. */
static const struct glyph_name *row_at(enum codepage page, int code)
{
    bool has = code >= FIRST_CODE && code < FIRST_CODE + (int)own_pages[page].count;
    return has ? &own_pages[page].rows[code - FIRST_CODE] : NULL;
}

unsigned codepages_unicode(enum codepage page, int code)
{
    if (page != CODEPAGE_WIN_ANSI) {
        const struct glyph_name *row = row_at(page, code);
        return row == NULL ? 0 : row->code_point;
    }
    if (code < 0x20 || code == 0x7F || code > 0xFF)
        return 0;
    return code >= 0x80 && code < 0xA0 ? win_ansi_high[code - 0x80] : (unsigned)code;
}

const char *codepages_name(enum codepage page, int code)
{
    const struct glyph_name *row = row_at(page, code);
    return row == NULL ? NULL : row->name;
}
