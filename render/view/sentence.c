/* sentence.c  The sentence at the top. Ways out of and into the system are weighed by their flow; the largest, and how it
 * stands to what the supply gives, picks the words. */
#include "view/sentence.h"

#include "view/cast.h"
#include "view/naming.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define FLOW_LEAST (0.0005e-3 / 60.0) /* m3/s: what is smaller is not told */
#define FLOW_HARDLY (0.05e-3 / 60.0) /* m3/s: a supply that gives less has nothing to fill and no leak worth the name */
#define LIQUID_LEAST (0.01e-3 / 60.0) /* m3/s of liquid that is told: a drop now and then is not */
#define PRESSURE_LEAST 20.0           /* Pa: what is nearer to the air's pressure is called that */
#define LOAD_LEAST 1e-5               /* kg on carbon that is worth a word */
#define BROKEN_THROUGH 0.001          /* mole share of vapor behind carbon that has broken through */
#define NEARLY_ALL 0.85               /* share of the supply's flow that leaves by one way */
#define HALF 0.4
#define CHOKED "%s is choked: the gas runs at the speed of sound, and less pressure behind it pulls no more"
#define CRITICAL 0.53 /* pressure ratio below which a hole is choked, about, for any gas here */

struct way {
    int part;    /* -1: none */
    double flow; /* m3/s standard, outward */
};

struct account {
    double supplied, leaving, entering; /* m3/s, all >= 0 */
    struct way out, in;                 /* the largest of each */
    struct way within;                  /* the largest between two gas spaces */
    struct way past;                    /* the largest between two outsides: air and intake */
    struct way drain;                   /* the largest of liquid, to the outside */
    int space;                          /* part of the largest gas space, -1: none */
    double gauge;                       /* Pa, of that space */
};

/* Looked up by name: the report asks for a sentence now and then, a frame once. */
static double value_of(const struct ullage_model *model, const double *value, const char *part, const char *quantity)
{
    char name[160];
    snprintf(name, sizeof name, "%s.%s", part, quantity);
    const int channel = ullage_model_find_channel(model, name);
    return channel < 0 ? (double)NAN : value[channel];
}

static bool is(const struct ullage_part *part, const char *type)
{
    return !strcmp(part->type, type);
}

static const struct ullage_link *link_of(const struct ullage_part *part, const char *key)
{
    for (int k = 0; k < part->links; k++)
        if (!strcmp(part->link[k].key, key))
            return &part->link[k];
    return NULL;
}

static bool is_outside(const struct ullage_model *model, const struct ullage_link *link)
{
    if (!link || link->part == -1)
        return true;
    const char *type = link->part >= 0 ? ullage_model_part(model, link->part).type : "";
    return !strcmp(type, "manifold") || !strcmp(type, "engine");
}

static void way_weigh(struct way *best, int part, double flow)
{
    if (flow > best->flow)
        *best = (struct way){part, flow};
}

static void passage_book(struct account *book, const struct ullage_model *model, int index, const double *value)
{
    const struct ullage_part part = ullage_model_part(model, index);
    const struct ullage_link *from = link_of(&part, is(&part, "cap") ? "of" : "from"), *to = link_of(&part, "to");
    const double flow = value_of(model, value, part.id, "standard_flow");
    if (!isfinite(flow) || !from)
        return;
    const bool out_end = is_outside(model, to) || (to && to->part == -2), in_end = is_outside(model, from);
    if (out_end != in_end)
        way_weigh(&book->drain, index, value_of(model, value, part.id, "liquid_flow"));
    if (out_end == in_end) {
        way_weigh(out_end ? &book->past : &book->within, index, fabs(flow));
        return;
    }
    const double outward = out_end ? flow : -flow;
    book->leaving += fmax(outward, 0.0);
    book->entering += fmax(-outward, 0.0);
    way_weigh(&book->out, index, outward);
    way_weigh(&book->in, index, -outward);
}

/* Lines count only where they end in the open: inside, the parts at their ends tell. So do valves with a float, which stand
 * in the way out of a tank. */
static bool is_way(const struct ullage_model *model, const struct ullage_part *part)
{
    if (is(part, "line") || is(part, "roll-over") || is(part, "fill-limit"))
        return is_outside(model, link_of(part, "to")) || is_outside(model, link_of(part, "from"));
    static const char *const ways[] = {"hole", "valve", "cap", "check-valve", "relief"};
    for (size_t k = 0; k < sizeof ways / sizeof ways[0]; k++)
        if (is(part, ways[k]))
            return true;
    return false;
}

static void account_make(struct account *book, const struct ullage_model *model, const double *value)
{
    *book = (struct account){
        .out = {-1, 0.0}, .in = {-1, 0.0}, .within = {-1, 0.0}, .past = {-1, 0.0}, .drain = {-1, 0.0}, .space = -1};
    double largest = 0.0;
    for (int p = 0; p < ullage_model_parts(model); p++) {
        const struct ullage_part part = ullage_model_part(model, p);
        const double volume = ullage_model_parameter(model, p, "volume");
        if ((is(&part, "tank") || is(&part, "vessel")) && volume > largest) {
            largest = volume;
            book->space = p;
        }
        if (is(&part, "supply")) {
            const double flow = value_of(model, value, part.id, "standard_flow");
            book->supplied += isfinite(flow) ? fmax(flow, 0.0) : 0.0;
        } else if (is_way(model, &part)) {
            passage_book(book, model, p, value);
        }
    }
    if (book->space >= 0)
        book->gauge = value_of(model, value, ullage_model_part(model, book->space).id, "gauge_pressure");
}

static bool holds_word(const char *label, const char *const *words)
{
    for (int k = 0; words[k]; k++)
        if (strstr(label, words[k]))
            return true;
    return false;
}

/* "the vent valve", "plug 3"; labels that are no noun get one: "vessel near", "hole out"; a one-letter id is a leak. */
static const char *the(const struct ullage_model *model, int part, char *room, int size)
{
    static const char *const holes[] = {"hole", "leak", "plug", "vent", "drain", "crack", "slit", NULL};
    static const char *const vessels[] = {"vessel", "tank", "space", "volume", "box", NULL};
    const struct ullage_part about = ullage_model_part(model, part);
    const struct ullage_link *from = link_of(&about, "from");
    const size_t length = strlen(about.label);
    const bool end = from && from->opening && (!strcmp(from->opening, "from") || !strcmp(from->opening, "to"));
    if (is(&about, "hole") && from && from->part >= 0 && (end || (about.latent && !*from->opening)))
        snprintf(room, (size_t)size, "the hole in the %s", ullage_model_part(model, from->part).label);
    else if (is(&about, "hole") && from && from->opening && *from->opening)
        snprintf(room, (size_t)size, "the hole at the %s", from->opening);
    else if (length == 1)
        snprintf(room, (size_t)size, "%s %s", is(&about, "hole") ? "leak" : about.type, about.label);
    else if (is(&about, "hole") && !holds_word(about.label, holes))
        snprintf(room, (size_t)size, "hole %s", about.label);
    else if (is(&about, "vessel") && !holds_word(about.label, vessels))
        snprintf(room, (size_t)size, "vessel %s", about.label);
    else
        snprintf(room, (size_t)size, "%s%s", strpbrk(about.label + length - 1, "0123456789") ? "" : "the ",
                 about.label);
    return room;
}

/* The tank or vessel that a way begins at; -1: it begins elsewhere. */
static int space_at(const struct ullage_model *model, int way)
{
    const struct ullage_part part = ullage_model_part(model, way);
    const struct ullage_link *from = link_of(&part, "from");
    if (!from || from->part < 0)
        return -1;
    const struct ullage_part at = ullage_model_part(model, from->part);
    return is(&at, "tank") || is(&at, "vessel") ? from->part : -1;
}

static bool is_hole(const struct ullage_model *model, int part)
{
    return !strcmp(ullage_model_part(model, part).type, "hole");
}

static bool choked(const struct ullage_model *model, const double *value, int part)
{
    const struct ullage_part about = ullage_model_part(model, part);
    const int air = ullage_model_find_channel(model, "air.pressure");
    double pressure[2] = {0.0, 0.0};
    const char *const keys[] = {is(&about, "cap") ? "of" : "from", "to"};
    for (int e = 0; e < 2; e++) {
        const struct ullage_link *link = link_of(&about, keys[e]);
        pressure[e] = link && link->part >= 0
                          ? value_of(model, value, ullage_model_part(model, link->part).id, "pressure")
                      : air >= 0 ? value[air]
                                 : (double)NAN;
    }
    return fmin(pressure[0], pressure[1]) < CRITICAL * fmax(pressure[0], pressure[1]);
}

static void tell_supply(const struct account *book, const struct ullage_model *model, char *room, int size)
{
    char way[96];
    const double share = book->leaving / book->supplied;
    if (book->supplied < FLOW_HARDLY)
        snprintf(room, (size_t)size, "the system is full and tight: hardly any gas goes in");
    else if (book->out.part < 0 || share < 0.1)
        snprintf(room, (size_t)size, "the gas goes into filling the system, and the pressure climbs");
    else if (share < HALF)
        snprintf(room, (size_t)size, "most of the gas still fills the system, some leaves at %s",
                 the(model, book->out.part, way, sizeof way));
    else if (share < NEARLY_ALL)
        snprintf(room, (size_t)size, "the system fills more slowly, the more leaves at %s",
                 the(model, book->out.part, way, sizeof way));
    else if (book->out.flow > HALF * book->leaving)
        snprintf(room, (size_t)size, "in equals out: nearly all the supply gives leaves at %s",
                 the(model, book->out.part, way, sizeof way));
    else
        snprintf(room, (size_t)size, "in equals out: what the supply gives leaves by several ways");
}

/* The canister that lies on a way and holds something; -1: none. */
static int carbon_on_the_way(const struct ullage_model *model, const double *value, double flow)
{
    for (int p = 0; p < ullage_model_parts(model); p++) {
        const struct ullage_part part = ullage_model_part(model, p);
        if (is(&part, "canister") && value_of(model, value, part.id, "load") > LOAD_LEAST &&
            fabs(value_of(model, value, part.id, "standard_flow")) > HALF * flow)
            return p;
    }
    return -1;
}

/* A system that breathes through carbon. */
static void tell_breath(const struct ullage_model *model, const double *value, const struct way *most, bool out,
                        const char *space, char *room, int size)
{
    char way[96];
    const struct ullage_part part = ullage_model_part(model, most->part);
    const struct ullage_link *from = link_of(&part, "from");
    const double vapor =
        from && from->part >= 0 ? value_of(model, value, ullage_model_part(model, from->part).id, "fuel_vapor") : 0.0;
    the(model, most->part, way, sizeof way);
    const struct ullage_link *to = link_of(&part, "to");
    if (out && to && to->part >= 0 && is_outside(model, to))
        snprintf(room, (size_t)size, "the engine draws air in through the carbon%s",
                 vapor > BROKEN_THROUGH ? ", and vapor out of it" : "; hardly any vapor comes with it");
    else if (!out)
        snprintf(room, (size_t)size, "%s draws air in through the carbon, which gives vapor back", space);
    else if (vapor > BROKEN_THROUGH)
        snprintf(room, (size_t)size, "%s breathes out, and vapor gets past the carbon to %s", space, way);
    else
        snprintf(room, (size_t)size, "%s breathes out: the carbon keeps its vapor, air leaves by %s", space, way);
}

static void tell_alone(const struct account *book, const struct ullage_model *model, const double *value, char *room,
                       int size)
{
    char way[96], space[96] = "the system";
    if (book->space >= 0)
        the(model, book->space, space, sizeof space);
    if (book->past.part >= 0 && book->past.flow > fmax(book->out.flow, book->in.flow)) {
        the(model, book->past.part, way, sizeof way);
        if (choked(model, value, book->past.part))
            snprintf(room, (size_t)size, CHOKED, way);
        else
            snprintf(room, (size_t)size, "gas is drawn through %s by the difference of pressure", way);
        return;
    }
    const struct way *most = book->out.flow >= book->in.flow ? &book->out : &book->in;
    if (most->part >= 0 && most->flow > FLOW_LEAST && most->flow >= 0.5 * book->within.flow) {
        const bool out = most == &book->out;
        the(model, most->part, way, sizeof way);
        const int own = space_at(model, most->part);
        if (own >= 0)
            the(model, own, space, sizeof space);
        if (choked(model, value, most->part))
            snprintf(room, (size_t)size, CHOKED, way);
        else if (carbon_on_the_way(model, value, most->flow) >= 0)
            tell_breath(model, value, most, out, space, room, size);
        else if (book->entering > HALF * book->leaving && book->leaving > HALF * book->entering)
            snprintf(room, (size_t)size, "gas passes through: as much comes in as goes out by %s", way);
        else
            snprintf(room, (size_t)size, out ? "%s lets gas out by %s" : "%s draws gas in by %s", space, way);
    } else if (book->within.part >= 0 && book->within.flow > FLOW_LEAST)
        snprintf(room, (size_t)size, "gas passes through %s until the pressures on both sides meet",
                 is_hole(model, book->within.part) ? "the hole" : the(model, book->within.part, way, sizeof way));
    else if (fabs(book->gauge) > PRESSURE_LEAST)
        snprintf(room, (size_t)size, "nothing flows: %s holds its pressure", space);
    else
        snprintf(room, (size_t)size, "nothing flows: inside and outside are at the same pressure");
}

/* Liquid that runs out comes before all gas: it burns, and no meter of gas shows it. */
static void tell_drain(const struct account *book, const struct ullage_model *model, char *room, int size)
{
    char way[96];
    snprintf(room, (size_t)size, "liquid fuel runs out by %s: no meter of gas shows that",
             the(model, book->drain.part, way, sizeof way));
}

static bool does_something(const char *verb)
{
    return !strcmp(verb, "set") || !strcmp(verb, "join") || !strcmp(verb, "part_from");
}

/* A title of the program's own making, or one that the procedure gives to several steps, tells little. */
static bool title_tells(const struct ullage_model *model, int step, const char *title)
{
    if (!strncmp(title, "Wait", 4))
        return false;
    for (int k = 0; k < ullage_model_steps(model); k++)
        if (k != step && !strcmp(ullage_model_step(model, k).title, title))
            return false;
    return true;
}

const char *step_title(const struct ullage_model *model, int step)
{
    if (step < 0 || step >= ullage_model_steps(model))
        return "";
    const struct ullage_step at = ullage_model_step(model, step);
    if (strcmp(at.verb, "wait") || step == 0 || title_tells(model, step, at.title))
        return at.title;
    const struct ullage_step before = ullage_model_step(model, step - 1);
    return does_something(before.verb) && before.depth == at.depth ? before.title : at.title;
}

const char *sentence_make(const struct ullage_model *model, const double *value, int step, char *room, int size)
{
    struct account book;
    char clause[256];
    account_make(&book, model, value);
    if (book.drain.flow > LIQUID_LEAST)
        tell_drain(&book, model, clause, sizeof clause);
    else if (book.supplied > FLOW_LEAST)
        tell_supply(&book, model, clause, sizeof clause);
    else
        tell_alone(&book, model, value, clause, sizeof clause);
    naming_capital(clause);
    const char *title = step_title(model, step);
    snprintf(room, (size_t)size, "%s%s%s.", title, *title ? ". " : "", clause);
    return room;
}
