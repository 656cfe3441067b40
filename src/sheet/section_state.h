/* What of a sheet a trial may save that a section's words follow from. Sections ask by functions
 * that note what was asked, so that what was written for one trial stands in another wherever the
 * answers are the same. */
#ifndef BASKLEAF_SHEET_SECTION_STATE_H
#define BASKLEAF_SHEET_SECTION_STATE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* How close a sheet is set, each with all that stands before it. */
enum closeness {
    CLOSE_AS_USUAL,
    CLOSE_LINES,    /* all that saves room is not enough: what can stand in a line stands in one */
    CLOSE_EDGES,    /* pages that are filled may use all the paper that a printer reaches */
    CLOSE_HEADINGS, /* headings stand on the line of what they head */
    CLOSE_LISTS,    /* lists stand in more columns, or are paragraphs where they name one thing */
    CLOSE_BOXES,    /* what has boxes before it is a paragraph; one to tick begins a line */
    CLOSE_PARAGRAPHS, /* so are the lists of what to do and of what to call for */
    CLOSE_RUN_ON,     /* a box to tick begins where the one before ends; words go unexplained */
    CLOSENESS_COUNT
};

/* What the message names besides what is worst and what comes first, which it always names. */
enum message_says {
    MESSAGE_BRIEF,      /* what the sheet is for, until when, and each medicine */
    MESSAGE_ALONE,      /* the same without what is not given today */
    MESSAGE_ILLS_ALONE, /* as in brief, and a second finding and what is wrong at home */
    MESSAGE_ILLS,       /* and the address beside go now */
    MESSAGE_HOME,       /* as in brief, and what is wrong at home */
    MESSAGE_FIRST,      /* as in brief, and why its first step */
    MESSAGE_TWO,        /* as in brief, and a second finding, else why its first step */
    MESSAGE_LAMP,       /* and what is wrong at home, with its lamp */
    MESSAGE_CAUSES,     /* and what else is wrong there */
    MESSAGE_NAMES,      /* and the address */
    MESSAGE_FULL,       /* and the day in a sentence of its own */
    MESSAGE_COUNT
};

/* What stands beside a medicine's name, dose and days. */
enum medicines_say {
    MEDICINES_BARE,    /* and that no dose is doubled, which nobody can do without */
    MEDICINES_WATCH,   /* what to watch for, by the way it is given */
    MEDICINES_PURPOSE, /* what it helps with */
    MEDICINES_COURSE,  /* and that each dose is given */
    MEDICINES_ALL,     /* and the same of a missed dose on a line of its own */
    MEDICINES_SAY_COUNT
};

/* What begins a line of its own although it is set close. */
enum lines_begun {
    LINES_RUN_ON,
    LINES_OF_MEDICINES, /* each medicine */
    LINES_OF_SEVERAL,   /* and what goes for several of them */
    LINES_OF_ANY,       /* and what goes for any of them, each by itself */
    LINES_OF_CARE,      /* and what is to be done after each thing that was done */
    LINES_BEGUN_COUNT
};

/* The small pictures beside what is to be done at home. */
enum cuts_shown {
    CUTS_NONE,
    CUTS_OTHERS,    /* beside all but the medicines, small */
    CUTS_MEDICINES, /* beside the medicines alone, small */
    CUTS_SMALL,     /* both */
    CUTS_LARGE,
    CUTS_SHOWN_COUNT
};

enum { SECTION_ROWS_MOST = 8 }; /* of page one */

/* A bit each. */
enum section_question {
    ASK_CLOSE,                                    /* one for each closeness: at least that */
    ASK_MESSAGE = ASK_CLOSE + CLOSENESS_COUNT,    /* one for each message */
    ASK_WHYS = ASK_MESSAGE + MESSAGE_COUNT,       /* one for each row of page one */
    ASK_ROWS = ASK_WHYS + SECTION_ROWS_MOST,      /* likewise: page one may have it */
    ASK_MEDICINES = ASK_ROWS + SECTION_ROWS_MOST, /* one for each of these: at least that */
    ASK_IN_BRIEF = ASK_MEDICINES + MEDICINES_SAY_COUNT,
    ASK_IS_OPENED,      /* the section under way is less close than its sheet */
    ASK_HOMES_LEFT_OUT, /* beside findings in brief */
    ASK_SAYS_KEY,
    ASK_SAYS_KNOWN,
    ASK_SAYS_ADDRESS,     /* beside go now: three of the messages leave room for it */
    ASK_MESSAGE_IS_SMALL, /* its bar is no higher than its words where a page is close */
    ASK_WITHOUT_NORMAL,
    ASK_HAS_MOVED,      /* page one took something of the later pages */
    ASK_CUTS_MEDICINES, /* pictures beside the medicines, or beside all else */
    ASK_CUTS_OTHERS,
    ASK_CUTS_LARGE,
    ASK_LINES, /* one for each of these: at least that */
    ASK_COUNT = ASK_LINES + LINES_BEGUN_COUNT
};

struct section_state {
    uint64_t answers;
    uint64_t *asked; /* borrowed; bits are added to it */
};

static inline uint64_t section_state_bit(size_t question)
{
    return UINT64_C(1) << question;
}

static inline bool section_state_ask(const struct section_state *state, size_t question)
{
    *state->asked |= section_state_bit(question);
    return state->answers & section_state_bit(question);
}

static inline void section_state_set(struct section_state *state, size_t question, bool answer)
{
    state->answers &= ~section_state_bit(question);
    state->answers |= answer ? section_state_bit(question) : 0;
}

/* Would all that was asked be answered as it was? */
static inline bool section_state_is_same(uint64_t answers, uint64_t asked,
                                         const struct section_state *state)
{
    return ((answers ^ state->answers) & asked) == 0;
}

#endif
