/* The part of a plan that is the box itself: how large it must be, what lies and stands in it. */
#ifndef BASKLEAF_CARE_PLAN_BOX_H
#define BASKLEAF_CARE_PLAN_BOX_H

#include "care/plan_sources.h"
#include "records/rules.h"

/* A kind that shares the box. */
struct mate_plan {
    const char *code;       /* of a species sheet, or unlisted */
    const char *scientific; /* NULL for unlisted */
    const struct plan_name *names;
    size_t name_count;
};

struct company_plan {
    bool has_animals, has_males;
    double animals, males; /* this one among them */
    enum company_state state;
    const struct mate_plan *mates;
    size_t mate_count;
    struct provenance from;
    bool has_floor;     /* a source says how much floor so many need */
    double floor_times; /* by the floor of one */
    struct provenance floor_from;
};

/* Life in the open. */
struct outdoors_plan {
    int outdoor; /* -1: not written */
    bool has_latitude, has_weather;
    double latitude_deg, day_hours; /* sunrise to sunset on the visit's day */
    double morning_c, midday_c;     /* no colder */
    struct provenance weather_from;
    struct derivations how;
};

/* Where an animal lies while it must not climb. */
struct lying_plan {
    bool low;        /* lower than where its lamp and the readings of its warm place were taken */
    bool own_length; /* nothing that it climbs is higher than it is long */
    bool known;      /* how high above the floor */
    double above_floor_cm;
    bool has_lower_by; /* the platform's height was written */
    double lower_by_cm;
};

struct enclosure_plan {
    bool known;                                              /* a minimum can be said */
    double least_length_cm, least_width_cm, least_height_cm; /* for the animal now */
    /* what to ask for: of a box that is too small the sides that are long enough stay, or whoever
     * buys by the least side buys a shorter one */
    double wanted_length_cm, wanted_width_cm, wanted_height_cm;
    bool has_grown;
    double grown_length_cm, grown_width_cm, grown_height_cm; /* when grown */
    struct provenance from;
    enum verdict verdict;                                    /* too-low: too small */
    double short_length_cm, short_width_cm, short_height_cm; /* 0 where enough */
    bool has_size;                                           /* the box as it is */
    double length_cm, width_cm, height_cm;
    double platform_height_cm;             /* of what it lies on now; 0: not written */
    double back_height_cm;                 /* 0: not written */
    bool heated_below;                     /* by a mat, a cable or a rock alone */
    bool is_open;                          /* it has no lid */
    bool has_lamp;                         /* for UVB */
    bool lamp_heats;                       /* the same one */
    double lamp_height_cm, tube_length_cm; /* lamp to the back, lit length; 0: not written */
    const char *substrate;                 /* a code; NULL: not written */
    bool has_hides, has_hides_wanted;
    double hides, hides_wanted;
    struct provenance hides_from;
    enum hides_state hides_state;
    bool has_nest; /* she is to dig, and so deep is the ground of the species */
    double nest_low_cm, nest_high_cm;
    double nest_rim_cm; /* no higher, of what may not climb; 0: no limit */
    struct provenance nest_from;
    int shade, water_dish; /* -1: not written */
    struct company_plan company;
    struct outdoors_plan outdoors;
    double floor_cm2; /* for all that share it; 0: that of the sides */
    struct derivations how;
};

#endif
