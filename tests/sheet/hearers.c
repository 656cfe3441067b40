/* Words by whom they fit, in each language: what tells a keeper of another animal's body, home or
 * food is for another animal. Not taken from the data that it holds in check. */
#include "sheet/hearers.h"

#include <stdbool.h>
#include <string.h>
#include <strings.h>

enum hearer_kind {
    SNAKE = 1 << 0,
    LIZARD = 1 << 1,
    TORTOISE = 1 << 2,
    TURTLE = 1 << 3,
    FROG = 1 << 4,
    SALAMANDER = 1 << 5,
    BEARS = 1 << 6,   /* its young alive */
    DROPS = 1 << 7,   /* licks them, finds no bowl */
    PREY = 1 << 8,    /* whole warm prey */
    INSECTS = 1 << 9, /* among other things */
    SHELL = TORTOISE | TURTLE,
    REPTILE = SNAKE | LIZARD | SHELL,
    LIMBS = LIZARD | SHELL | FROG | SALAMANDER,
    HEATED = REPTILE | FROG,
    ALL = HEATED | SALAMANDER,
    LAYS = REPTILE, /* less those that bear */
};

/* clang-format off */
const struct hearer hearers[HEARERS] = {
    {"ball-python", SNAKE | PREY, 1},
    {"burmese-python", SNAKE | PREY, 1},
    {"carpet-python", SNAKE | PREY, 1},
    {"common-kingsnake", SNAKE | PREY, 1},
    {"corn-snake", SNAKE | PREY, 1},
    {"green-tree-python", SNAKE | PREY, 1},
    {"milk-snake", SNAKE | PREY, 1},
    {"reticulated-python", SNAKE | PREY, 1},
    {"western-hognose", SNAKE | PREY, 1},
    {"western-rat-snake", SNAKE | PREY, 1},
    {"boa-constrictor", SNAKE | PREY | BEARS, 1},
    {"garter-snake", SNAKE | PREY | BEARS, 1},
    {"kenyan-sand-boa", SNAKE | PREY | BEARS, 1},
    {"rosy-boa", SNAKE | PREY | BEARS, 1},
    {"bearded-dragon", LIZARD | INSECTS, 1},
    {"chinese-water-dragon", LIZARD | INSECTS, 1},
    {"fat-tailed-gecko", LIZARD | INSECTS, 1},
    {"leopard-gecko", LIZARD | INSECTS, 1},
    {"tokay-gecko", LIZARD | INSECTS, 1},
    {"argentine-tegu", LIZARD | INSECTS | PREY, 1},
    {"savannah-monitor", LIZARD | INSECTS | PREY, 1},
    {"green-iguana", LIZARD, 1},
    {"spiny-tailed-lizard", LIZARD, 1},
    {"blue-tongued-skink", LIZARD | INSECTS | BEARS, 1},
    {"crested-gecko", LIZARD | INSECTS | DROPS, 1},
    {"gargoyle-gecko", LIZARD | INSECTS | DROPS, 1},
    {"giant-day-gecko", LIZARD | INSECTS | DROPS, 1},
    {"green-anole", LIZARD | INSECTS | DROPS, 1},
    {"panther-chameleon", LIZARD | INSECTS | DROPS, 1},
    {"veiled-chameleon", LIZARD | INSECTS | DROPS, 1},
    {"greek-tortoise", TORTOISE, 2},
    {"hermanns-tortoise", TORTOISE, 2},
    {"horsfield-tortoise", TORTOISE, 2},
    {"leopard-tortoise", TORTOISE, 1},
    {"sulcata-tortoise", TORTOISE, 1},
    {"eastern-box-turtle", TORTOISE | INSECTS, 1},
    {"red-footed-tortoise", TORTOISE | INSECTS, 1},
    {"common-musk-turtle", TURTLE | INSECTS, 3},
    {"painted-turtle", TURTLE | INSECTS, 3},
    {"red-eared-slider", TURTLE | INSECTS, 3},
    {"fire-bellied-toad", FROG | INSECTS, 3},
    {"whites-tree-frog", FROG | INSECTS, 3},
    {"horned-frog", FROG | INSECTS | PREY, 3},
    {"axolotl", SALAMANDER, 9},
};
/* clang-format on */

const char *const hearer_languages[LANGUAGES] = {"en", "es", "fr"};

/* Alternatives between bars; one that ends in * goes on with other letters. */
static const struct rule {
    unsigned fits, never;
    const char *words[LANGUAGES];
} rules[] = {
    {SHELL, 0, {"shell*|plastron", "caparaz*|plastrón", "carapace*|plastron"}},
    {SHELL, 0, {"beak*", "pico*", "bec"}},
    {LIMBS, 0, {"toe|toes|claw|claws|leg|legs", "dedo*|uña*|pata|patas", "griffe*|patte*|orteil*"}},
    {SALAMANDER, 0, {"gill|gills", "branquia*", "branchie*"}},
    /* gills breathe under water: what has them does not drown, and its nose stays in it */
    {REPTILE | FROG,
     0,
     {"drown*|nose out of the water|reach the air|reaches the air",
      "ahog*|nariz fuera del agua|llegar al aire|llegue al aire",
      "noie*|noyer|nez hors de l'eau|atteindre l'air|atteigne l'air"}},
    {LAYS,
     BEARS,
     {"nest*|lay eggs|egg-laying", "nido*|nidal*|poner huevos", "nid|nids|pondoir*|pondre"}},
    {ALL,
     BEARS,
     {"carries eggs|carrying eggs|eggs are laid|after laying",
      "lleva huevos|ponga los huevos|tras la puesta",
      "porte des œufs|jusqu'à la ponte|après la ponte"}},
    {BEARS,
     0,
     {"carries young|carrying young|young are born|after the birth",
      "lleva crías|nazcan las crías|tras el parto",
      "porte des petits|naissance des petits|mise bas"}},
    {SNAKE | LIZARD | TORTOISE, DROPS, {"bowl*|water dish", "bebedero*|cuenco*", "gamelle*|bol"}},
    {REPTILE, 0, {"reptile*", "reptil*", "reptile*"}},
    {REPTILE, 0, {"warm box|warm, dark box", "caja tibia|caja seca", "boîte chaude|boîte sèche"}},
    {REPTILE,
     0,
     {"bask*", "asole*", "au point chaud|le point chaud|du point chaud|son point chaud"}},
    {HEATED, 0, {"thermostat*", "termostato*", "thermostat*"}},
    {HEATED, 0, {"uvb", "uvb", "uvb"}},
    {PREY,
     0,
     {"live prey|live mouse|live mice|live rodent*", "presa viva|presas vivas|roedores vivos",
      "proie vivante|proies vivantes|rongeur vivant"}},
    {PREY,
     0,
     {"mouse|mice|rat|rats|rodent*", "ratón|ratones|rata|ratas|roedor*",
      "souris|rat|rats|rongeur*"}},
    {INSECTS, 0, {"insects|cricket*|live insect*", "insectos|grillo*", "insectes|grillon*"}},
    {PREY | INSECTS | SALAMANDER, 0, {"tongs|forceps", "pinza*", "pince|pinces"}},
    {SNAKE | LIZARD | FROG,
     0,
     {"branch|branches|perch*", "rama|ramas|percha*", "branche|branches|perchoir*"}},
    {SNAKE | LIZARD | TORTOISE, 0, {"bath|baths", "baño|baños", "bain|bains"}},
    {SNAKE | LIZARD | TORTOISE | FROG, 0, {"mist|misting", "rocía*|rocíe*", "brumise*"}},
    {TURTLE | FROG | SALAMANDER, 0, {"tank*", "acuario*", "aquarium*"}},
    {TURTLE | SALAMANDER, 0, {"filter*", "filtro*", "filtre*"}},
};

/* What is said of something else than the animal's own. */
static const char *const allowed[] = {"without hard shells", "sin caparazón duro",
                                      "sans carapace dure", "does not find a bowl"};

static bool is_letter(char byte)
{
    return (unsigned char)byte >= 0x80 || (byte >= 'a' && byte <= 'z') ||
           (byte >= 'A' && byte <= 'Z');
}

static char lower(char byte)
{
    return byte >= 'A' && byte <= 'Z' ? (char)(byte + ('a' - 'A')) : byte;
}

/* Whole words; a no-break space parts words too. */
static bool begins_word(const char *text, const char *at)
{
    return at == text || !is_letter(at[-1]) ||
           (at - text >= 2 && memcmp(at - 2, "\xc2\xa0", 2) == 0);
}

static bool is_allowed(const char *text, const char *at)
{
    for (size_t i = 0; i < sizeof allowed / sizeof *allowed; i++) {
        const char *whole = strstr(text, allowed[i]);
        if (whole && at >= whole && at < whole + strlen(allowed[i]))
            return true;
    }
    return false;
}

static bool holds(const char *text, const char *word, size_t length)
{
    bool goes_on = word[length - 1] == '*';
    length -= goes_on;
    for (const char *at = text; *at; at++)
        if (lower(*at) == lower(*word) && strncasecmp(at, word, length) == 0 &&
            begins_word(text, at) && !is_allowed(text, at) &&
            (goes_on || !is_letter(at[length]) || memcmp(at + length, "\xc2\xa0", 2) == 0))
            return true;
    return false;
}

const char *hearer_words_of_others(const struct hearer *hearer, size_t language, const char *text)
{
    for (size_t i = 0; i < sizeof rules / sizeof *rules; i++) {
        if ((rules[i].fits & hearer->is) && !(rules[i].never & hearer->is))
            continue;
        for (const char *word = rules[i].words[language]; *word;) {
            size_t length = strcspn(word, "|");
            if (holds(text, word, length))
                return word;
            word += length + (word[length] == '|');
        }
    }
    return NULL;
}
