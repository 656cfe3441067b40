#include "care/build.h"

/* The grown length is the upper end of the adult band; an animal that is longer needs its own. */
static void size_for(const struct species *s, double length_cm, double out[3])
{
    const struct cited *times[] = {&s->enclosure_length_times, &s->enclosure_width_times, &s->enclosure_height_times};
    for (int i = 0; i < 3; i++)
        out[i] = times[i]->range.known ? times[i]->range.low * length_cm : 0;
}

static void at_least(const struct box *least, double out[3])
{
    const double sides[] = {least->length_cm, least->width_cm, least->height_cm};
    for (int i = 0; i < 3; i++)
        if (out[i] < sides[i])
            out[i] = sides[i];
}

static double shortfall(double least, double has)
{
    return has < least ? least - has : 0;
}

static void compare(struct care_build *b)
{
    struct enclosure_plan *e = &b->plan->enclosure;
    const struct box *box = &b->in->visit->enclosure.size;
    if (!box->known)
        return;
    /* a box can stand either way round: the longer floor side is its length */
    bool turned = box->width_cm > box->length_cm;
    double length = turned ? box->width_cm : box->length_cm, width = turned ? box->length_cm : box->width_cm;
    e->short_length_cm = shortfall(e->least_length_cm, length);
    e->short_width_cm = shortfall(e->least_width_cm, width);
    e->short_height_cm = shortfall(e->least_height_cm, box->height_cm);
    bool small = e->short_length_cm > 0 || e->short_width_cm > 0 || e->short_height_cm > 0;
    e->verdict = small ? VERDICT_TOO_LOW : VERDICT_IN_RANGE;
    e->fits_grown = e->has_grown && length >= e->grown_length_cm && width >= e->grown_width_cm &&
                    box->height_cm >= e->grown_height_cm;
}

bool enclosure_plan(struct care_build *b)
{
    const struct species *s = b->in->species;
    struct enclosure_plan *e = &b->plan->enclosure;
    double grown[3], now[3];
    double adult_cm = s->adult_length_cm.range.high;
    double length_cm = b->plan->length_usable ? b->in->visit->patient.length_cm.value : adult_cm;
    size_for(s, adult_cm > length_cm ? adult_cm : length_cm, grown);
    if (s->enclosure_least.known)
        at_least(&s->enclosure_least, grown);
    size_for(s, length_cm, now);
    bool by_length = s->enclosure_length_times.range.known && b->plan->length_usable;
    for (int i = 0; i < 3; i++)
        if (!by_length || now[i] == 0)
            now[i] = grown[i];
    e->known = grown[0] > 0;
    e->has_grown = e->known;
    e->least_length_cm = now[0], e->least_width_cm = now[1], e->least_height_cm = now[2];
    e->grown_length_cm = grown[0], e->grown_width_cm = grown[1], e->grown_height_cm = grown[2];
    if (s->enclosure_length_times.range.known) {
        e->from = build_from_cited(&s->enclosure_length_times, &s->sources, ORIGIN_SPECIES_SHEET);
        build_derive(b, &e->how, "enclosure.minimum_cm", now[0], "cm", "multiple-of-length", e->from.source,
                     INPUTS({"animal-length", length_cm, "cm"}, {"times", s->enclosure_length_times.range.low, ""}));
    } else {
        e->from = (struct provenance){.origin = ORIGIN_SPECIES_SHEET,
                                      .source = named_text_find(&s->sources, s->enclosure_least_source.text),
                                      .trust = (enum trust)s->enclosure_least_trust.value};
    }
    if (e->known)
        compare(b);
    return true;
}
