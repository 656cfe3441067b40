/* The sections that a sheet can have: the one place that registers them.
 *
 * A row is ROW(CODE, name, word, help): the code is SECTION_CODE, the function that writes it
 * section_name (sheet/sections.h), the word is what a kind of sheet lists, the help what
 * `check --format sheet` says. SHORT is a row with what it becomes when it is said in brief. What
 * could save the animal, or say that nobody has signed, no kind of sheet may leave out: see
 * sheet_sections_required in sheet_template.c.
 */
#ifndef BASKLEAF_RECORDS_SHEET_SECTIONS_H
#define BASKLEAF_RECORDS_SHEET_SECTIONS_H

#define SHEET_SECTIONS(ROW, SHORT)                                                                 \
    ROW(ANIMAL, animal, "animal", "title, who it is, the visit")                                   \
    ROW(PHOTO, photo, "photo", "the photo of the animal, if the record has one")                   \
    ROW(GO_NOW, go_now, "go-now", "shown when something found cannot wait")                        \
    ROW(MESSAGE, message, "message", "the visit's message to this keeper")                         \
    ROW(FOUND, found, "found", "what was looked at and what it means")                             \
    SHORT(NORMAL, normal, "normal", "what is normal for this species", "left out")                 \
    ROW(FIRST_CHANGES, first_changes, "first-changes", "the first three changes")                  \
    ROW(MORE_CHANGES, more_changes, "more-changes", "the changes after those")                     \
    ROW(NOW, now, "now", "what holds for now and until when")                                      \
    ROW(SINCE, since, "since", "what was done since the visit before")                             \
    ROW(TEMPERATURE, temperature, "temperature", "zones, targets and readings")                    \
    ROW(BANDS, bands, "bands", "the readings drawn against their targets")                         \
    ROW(WEEK, week, "week", "a week of a data logger's readings, drawn")                           \
    ROW(WEEK_LARGE, week_large, "week-large", "the same, tall, for the veterinarian")              \
    ROW(UVI_MAP, uvi_map, "uvi-map", "the UV index over the box, for the veterinarian")            \
    ROW(LIGHT, light, "light", "UVB and day length")                                               \
    ROW(ENCLOSURE, enclosure, "enclosure", "picture of the enclosure, to scale")                   \
    ROW(HUMIDITY, humidity, "humidity", "damp air: target, reading, what it means")                \
    ROW(WATER, water, "water", "tests of the water and its changes")                               \
    ROW(FEEDING, feeding, "feeding", "food, size, dates, supplements")                             \
    ROW(MEDICINES, medicines, "medicines", "as the veterinarian wrote them")                       \
    ROW(AFTERCARE, aftercare, "aftercare", "after what was done today")                            \
    ROW(WINTER_REST, winter_rest, "winter-rest", "a winter rest that is asked for")                \
    ROW(WARNINGS, warnings, "warnings", "signs in three tiers and whom to call")                   \
    ROW(CAUTIONS, cautions, "cautions", "handling and safety")                                     \
    ROW(FOLLOW_UP, follow_up, "follow-up", "dates")                                                \
    ROW(WEIGHT, weight, "weight", "chart of the weights")                                          \
    ROW(PLANNER, planner, "planner", "eight weeks to tick off")                                    \
    ROW(SETUP_LIST, setup_list, "setup-list", "the box, before the animal comes")                  \
    ROW(FIRST_WEEKS, first_weeks, "first-weeks", "the first two weeks day by day")                 \
    ROW(WEIGHING_LOG, weighing_log, "weighing-log", "empty lines for weights")                     \
    ROW(CARD, card, "card", "emergency card to cut out")                                           \
    ROW(WALLET_CARD, wallet_card, "wallet-card",                                                   \
        "emergency card of a wallet's size, both faces to cut out")                                \
    ROW(LAW, law, "law", "what the law may ask")                                                   \
    SHORT(SOURCES, sources, "sources", "where the numbers come from", "the clinic has them")       \
    ROW(SIGNATURE, signature, "signature", "who signed the sheet")                                 \
    ROW(HEAD, wall_head, "head", "name, kind, telephones")                                         \
    ROW(PAGE_HEAD, wall_page_head, "page-head", "the same in one line, for a further page")        \
    ROW(STATE, wall_state, "state", "draft or signed: a strip")                                    \
    ROW(MAIN_MESSAGE, wall_message, "main-message", "the one thing to know, in a frame")           \
    ROW(CALL_US, wall_call_us, "call-us", "the telephones alone, to press on a screen")            \
    ROW(STEPS, wall_steps, "steps", "what to do tonight: three rows at most")                      \
    ROW(BOX, wall_box, "box", "the box from the front with targets and readings")                  \
    ROW(LIMITS, wall_limits, "limits", "night, hours of light, the hottest")                       \
    ROW(LOGGER_HERE, wall_logger, "logger-here", "what a data logger's readings rest on")          \
    ROW(EMERGENCIES, wall_go_now, "emergencies", "when to go at once, in groups")                  \
    ROW(EMERGENCY_PAGE, wall_go_now_page, "emergency-page", "the same as large as a page")         \
    ROW(OWN_CLINIC, wall_own_clinic, "own-clinic", "lines for a clinic near the keeper")           \
    ROW(NOTES, wall_notes, "notes", "lines to write on, where there is room")                      \
    SHORT(MEDICINE_BOXES, wall_medicines, "medicine-boxes", "medicines, each with a box to tick",  \
          "the directions on the line of the name")                                                \
    SHORT(THEN, wall_then, "then", "the changes after tonight's", "without when to call")          \
    SHORT(NOW_HERE, wall_now, "now-here", "what holds for now and until when, in lines",           \
          "without what is usual")                                                                 \
    ROW(SINCE_HERE, wall_since, "since-here", "what was done since the visit before, in lines")    \
    SHORT(THREE_DAYS, wall_three_days, "three-days", "until the recheck of an ill animal",         \
          "without the cool side where it is right")                                               \
    SHORT(SIX_WEEKS, wall_weeks, "six-weeks", "six weeks to tick and to write down",               \
          "without meals and powders")                                                             \
    SHORT(FOOD, wall_food, "food", "food in few words", "without how")                             \
    SHORT(WATER_HERE, wall_water, "water-here", "tests and changes of the water, in lines",        \
          "without how to cool it")                                                                \
    SHORT(FINDINGS, wall_found, "findings", "what was found, the worst first",                     \
          "without what to do")                                                                    \
    ROW(WINTER_HERE, wall_winter, "winter-here", "the same in lines")                              \
    SHORT(NORMAL_HERE, wall_normal, "normal-here", "normal for this species, in a paragraph",      \
          "what is taken for illness most often")                                                  \
    SHORT(CALLS, wall_calls, "calls", "when to call today and this week",                          \
          "the second list as sentences")                                                          \
    SHORT(CAUTION_SIGNS, wall_cautions, "caution-signs", "handling and safety as signs",           \
          "sentences without signs")                                                               \
    SHORT(SIGNATURE_LINE, wall_signature, "signature-line", "next visit, a line to sign on",       \
          "without the addresses on paper")                                                        \
    SHORT(WORDS, wall_words, "words", "what the words of the sheet mean", "small")                 \
    SHORT(SOURCE_LINE, wall_sources, "source-line", "the key sources, small",                      \
          "the clinic has them")                                                                   \
    ROW(OWN, own, "own", "the clinic's own paragraph, in 'text' by language")                      \
    ROW(PAGE_BREAK, page_break, "page-break", "what follows begins a new page")

enum sheet_section_code {
#define SECTION_CODE(code_, ...) SECTION_##code_,
    SHEET_SECTIONS(SECTION_CODE, SECTION_CODE)
#undef SECTION_CODE
        SECTION_COUNT
};

#endif
