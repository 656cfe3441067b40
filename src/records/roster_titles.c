/* Words of shelters' lists, by column. */
#include "records/roster_titles.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "base/fold.h"
#include "base/strbuf.h"

/* Folded, letters and digits alone; the columns' own names are known without a row. */
static const struct {
    enum roster_column column;
    const char *titles; /* parted by spaces */
} title_rows[] = {
    {ROSTER_ID, "number no nr ref reference animalid shelterid numero "
                "numeroderefuge"},
    {ROSTER_NAME,
     "animal animalname pet petname patient patientname nombre nombredelanimal mascota paciente "
     "nom nomdelanimal"},
    {ROSTER_SPECIES, "animaltype breed type speciesname commonname especie tipo tipodeanimal "
                     "espece typedanimal"},
    {ROSTER_SEX, "gender sexo mf sexe"},
    {ROSTER_HATCHED,
     "dob born birthdate birthday dateofbirth hatchdate nacimiento fechadenacimiento nacido "
     "naissance datedenaissance nele neele"},
    {ROSTER_AGE, "edad"},
    {ROSTER_MASS, "weight wt bodyweight currentweight peso masa poids masse"},
    {ROSTER_LENGTH, "size svl bodylength longitud largo longueur taille"},
    {ROSTER_ADOPTER,
     "adoptername owner ownername newowner keeper client adoptante dueno duena propietario "
     "adoptant proprietaire"},
    {ROSTER_EMAIL, "mail emailaddress mailaddress adopteremail owneremail correo correoelectronico "
                   "courriel adressedecourriel"},
    {ROSTER_LANGUAGE, "lang idioma lengua langue"},
    {ROSTER_UNITS, "unitsystem measures unidades medidas unites"},
    {ROSTER_DATE, "visitdate examdate examined fecha datedelavisite"},
    {ROSTER_VETERINARIAN, "vet doctor examinedby veterinario veterinaria veterinaire"},
    {ROSTER_FINDINGS, "exam hallazgos constats examen"},
    {ROSTER_RECHECK, "nextvisit control proximavisita controle prochainevisite"},
    {ROSTER_NOTES,
     "note comment comments remark remarks notas nota comentario comentarios observaciones "
     "remarque remarques"},
};

static const struct {
    enum roster_column column;
    const char *means, *words;
} value_rows[] = {
    {ROSTER_SEX, "male", "m male macho masculino \xe2\x99\x82"},
    {ROSTER_SEX, "female", "f female hembra femenino femelle \xe2\x99\x80"},
    {ROSTER_SEX, "unknown", "u unk unknown ? na desconocido inconnu"},
    {ROSTER_LANGUAGE, "en", "en eng english ingles"},
    {ROSTER_LANGUAGE, "es", "es spa esp spanish espanol castellano"},
    {ROSTER_LANGUAGE, "fr", "fr fra fre french francais"},
    {ROSTER_UNITS, "metric", "metric metrico si metrique"},
    {ROSTER_UNITS, "us", "us imperial usa"},
};

static const struct {
    const char *means, *words;
} unit_rows[] = {
    {"years", "y yr yrs year years ano anos an ans"},
    {"months", "mo mos mth mths month months mes meses mois"},
    {"weeks", "w wk wks week weeks semana semanas semaine semaines"},
    {"days", "d day days dia dias j jour jours"},
    {"g", "g gr grs gm gms gram grams gramo gramos gramme grammes"},
    {"kg", "kg kgs kilo kilos"},
    {"oz", "oz ounce ounces onza onzas once onces"},
    {"lb", "lb lbs pound pounds libra libras livre livres"},
    {"mm", "mm"},
    {"cm", "cm cms"},
    {"m", "m"},
    {"in", "in inch inches pulgadas pouce pouces po \""},
};

static bool holds(const char *words, const char *word)
{
    size_t length = strlen(word);
    for (const char *at = words; length && *at;) {
        size_t own = strcspn(at, " ");
        if (own == length && strncmp(at, word, length) == 0)
            return true;
        at += own;
        at += strspn(at, " ");
    }
    return false;
}

/* ---- titles ---------------------------------------------------------------------------------- */

/* "E-Mail (adopter)" -> "email"; what stands in brackets is a remark or a unit. */
static const char *plain_letters(const char *title, struct arena *arena)
{
    struct strbuf out;
    strbuf_init(&out, arena);
    for (const char *c = fold_text(title, arena); *c && *c != '(' && *c != '['; c++)
        if (isalnum((unsigned char)*c))
            strbuf_add_char(&out, *c);
    return out.text;
}

static bool is_own_name(enum roster_column column, const char *letters)
{
    const char *name = roster_columns[column].name;
    for (; *name; name++)
        if (*name != '-' && *name != *letters++)
            return false;
    return !*letters;
}

int roster_title_column(const char *title, struct arena *arena)
{
    const char *letters = plain_letters(title, arena);
    for (int column = 0; column < ROSTER_ENCLOSURE; column++)
        if (is_own_name((enum roster_column)column, letters))
            return column;
    for (size_t i = 0; i < sizeof title_rows / sizeof *title_rows; i++)
        if (holds(title_rows[i].titles, letters))
            return (int)title_rows[i].column;
    return -1;
}

const char *roster_title_unit(const char *title, struct arena *arena)
{
    const char *begin = strpbrk(title, "([");
    const char *end = begin ? strpbrk(begin, ")]") : NULL;
    if (!end)
        return "";
    const char *unit =
        fold_text(arena_copy_bytes(arena, begin + 1, (size_t)(end - begin - 1)), arena);
    for (size_t i = 0; i < sizeof unit_rows / sizeof *unit_rows; i++)
        if (holds(unit_rows[i].words, unit))
            return unit_rows[i].means;
    return "";
}

/* ---- cells ----------------------------------------------------------------------------------- */

/* "1,45" and "1.45"; NULL for what could be a thousand ("1,450") or is no number. *at moves on. */
static const char *read_number(const char **at, struct arena *arena)
{
    const char *begin = *at, *c = begin + strspn(begin, "0123456789");
    size_t whole = (size_t)(c - begin), part = 0;
    if (*c == ',' || *c == '.') {
        part = strspn(c + 1, "0123456789");
        if (!part || (*c == ',' && part == 3))
            return NULL;
        c += 1 + part;
    }
    if (!whole || (*c == ',' || *c == '.'))
        return NULL;
    *at = c;
    return part ? arena_format(arena, "%.*s.%.*s", (int)whole, begin, (int)part, begin + whole + 1)
                : arena_copy_bytes(arena, begin, whole);
}

/* "yrs" -> "years"; *at moves on. NULL for an unknown word. */
static const char *read_unit(const char **at, struct arena *arena)
{
    *at += strspn(*at, " ");
    size_t length = strcspn(*at, " 0123456789.,");
    const char *word = arena_copy_bytes(arena, *at, length);
    *at += length;
    *at += strspn(*at, " .,");
    for (size_t i = 0; i < sizeof unit_rows / sizeof *unit_rows; i++)
        if (holds(unit_rows[i].words, word))
            return unit_rows[i].means;
    return NULL;
}

/* "2 yrs", "52g", "1,45 kg", "1 year 6 months". */
static const char *plain_measure(const char *text, struct arena *arena)
{
    const char *at = fold_text(text, arena);
    const char *number = read_number(&at, arena);
    if (!number)
        return text;
    if (!at[strspn(at, " ")])
        return number;
    const char *unit = read_unit(&at, arena);
    if (!unit)
        return text;
    if (!*at)
        return arena_format(arena, "%s %s", number, unit);
    const char *more = read_number(&at, arena), *small = more ? read_unit(&at, arena) : NULL;
    bool is_age = small && !*at && strcmp(unit, "years") == 0 && strcmp(small, "months") == 0;
    if (is_age)
        return arena_format(arena, "%ld months",
                            strtol(number, NULL, 10) * 12 + strtol(more, NULL, 10));
    return small && !*at ? arena_format(arena, "%s %s %s %s", number, unit, more, small) : text;
}

/* Three numbers between two like signs; the sign, 0 when the text is none. */
static char split_date(const char *text, long out[3])
{
    char sign = 0;
    for (int i = 0; i < 3; i++) {
        char *end;
        size_t digits = strspn(text, "0123456789");
        if (digits < 1 || digits > 4)
            return 0;
        out[i] = strtol(text, &end, 10);
        if (i == 0)
            sign = *end;
        if (!sign || *end != (i < 2 ? sign : '\0'))
            return 0;
        text = end + 1;
    }
    return sign;
}

/* "14.03.2026" and "14/3/2026" -> 2026-03-14; "3/4/2026" could be two days and stays. */
static const char *plain_date(const char *text, struct arena *arena)
{
    long part[3];
    char sign = split_date(text, part);
    if (sign != '/' && sign != '.')
        return text;
    long a = part[0], b = part[1], year = part[2];
    if (a > 999 && b < 100 && year < 100)
        return arena_format(arena, "%04ld-%02ld-%02ld", a, b, year);
    if (a > 99 || b > 99 || year < 1000)
        return text;
    if (sign == '.' || (a > 12 && b <= 12))
        return arena_format(arena, "%04ld-%02ld-%02ld", year, b, a);
    if (b > 12 && a <= 12)
        return arena_format(arena, "%04ld-%02ld-%02ld", year, a, b);
    return text;
}

static const char *plain_word(enum roster_column column, const char *text, struct arena *arena)
{
    struct strbuf word;
    strbuf_init(&word, arena);
    for (const char *c = fold_text(text, arena); *c; c++)
        if (!strchr(" ./-", *c))
            strbuf_add_char(&word, *c);
    for (size_t i = 0; i < sizeof value_rows / sizeof *value_rows; i++)
        if (value_rows[i].column == column && holds(value_rows[i].words, word.text))
            return value_rows[i].means;
    return text;
}

/* A dot before exactly three digits. */
static bool may_be_thousand(const char *text)
{
    const char *dot = strchr(text, '.');
    return dot && strspn(dot + 1, "0123456789") == 3;
}

const char *roster_cell_plain(enum roster_column column, const char *text, bool has_decimal_comma,
                              struct arena *arena)
{
    switch (column) {
    case ROSTER_SEX:
    case ROSTER_LANGUAGE:
    case ROSTER_UNITS:
        return plain_word(column, text, arena);
    case ROSTER_AGE:
    case ROSTER_RECHECK:
    case ROSTER_MASS:
    case ROSTER_LENGTH:
        return has_decimal_comma && may_be_thousand(text)
                   ? arena_format(arena, "%s (a thousand, or a decimal point?)", text)
                   : plain_measure(text, arena);
    case ROSTER_DATE:
    case ROSTER_HATCHED:
        return plain_date(text, arena);
    default:
        return text;
    }
}
