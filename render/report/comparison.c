/* report/comparison.c  Two runs side by side: what was changed, what came of it, and why.
 *
 * The sentence is made of three things: the parameter that differs, the reading that answers to it most, and, where a
 * power law is known to tie the two, that law with what it alone would give. */
#include "report/comparison.h"

#include "report/meter.h"
#include "report/page.h"
#include "report/parting.h"

#include <math.h>
#include <string.h>

enum { CHANGES_MOST = 4 };

static const double same = 0.005;     /* relative difference under which two readings are told as the same */
static const double law_holds = 0.05; /* relative distance from a power law within which it is told as the reason */
static const double law_misses = 0.3; /* and beyond which it is left out */

struct change {
    const char *part;      /* label; null: a value of `let` */
    const char *parameter; /* "diameter" */
    int dimension;
    double this, other;
};

/* How a reading answers to a parameter when nothing else matters. */
struct answer {
    const char *parameter, *reading; /* the reading's word, as reading_word has it */
    double power;
    const char *why;
};

static const struct answer answers[] = {
    {"diameter", "flow", 2.0, "the area goes with the square of the width"},
    {"bore", "flow", 2.0, "the area goes with the square of the width"},
    {"diameter", "time", -2.0, "the area goes with the square of the width"},
    {"diameter", "hole", 1.0, "the scale follows the hole"},
    {"volume", "time", 1.0, "so much more gas has to move"},
    {"gauge_pressure", "flow", 0.5, "flow through a hole goes with the root of the pressure"},
};

int kind_find(const char *type)
{
    int kind = ullage_kinds() - 1;
    while (kind >= 0 && strcmp(ullage_kind_at(kind).name, type) != 0)
        kind--;
    return kind;
}

/* ---- what was changed -------------------------------------------------------------------------------------------- */

static bool differ(double a, double b)
{
    return fabs(a - b) > 1e-12 * (fabs(a) + fabs(b)); /* not numbers never differ */
}

static int part_changes(const struct ullage_model *this, const struct ullage_model *other, int part,
                        struct change *change, int most)
{
    const struct ullage_part here = ullage_model_part(this, part);
    const int there = ullage_model_find_part(other, here.id);
    const int kind = kind_find(here.type);
    int count = 0;
    if (there < 0 || kind < 0 || strcmp(ullage_model_part(other, there).type, here.type) != 0)
        return 0;
    for (int i = 0; i < ullage_kind_parameters(kind) && count < most; i++) {
        const struct ullage_parameter parameter = ullage_kind_parameter(kind, i);
        const double a = ullage_model_parameter(this, part, parameter.name);
        const double b = ullage_model_parameter(other, there, parameter.name);
        if (!*parameter.list && differ(a, b))
            change[count++] = (struct change){here.label, parameter.name, parameter.dimension, a, b};
    }
    return count;
}

static int let_changes(const struct ullage_model *this, const struct ullage_model *other, struct change *change,
                       int most)
{
    int count = 0;
    for (int i = 0; i < ullage_model_lets(this) && count < most; i++)
        for (int j = 0; j < ullage_model_lets(other) && count < most; j++) {
            struct change found = {NULL, NULL, 0, 0.0, 0.0};
            int dimension;
            found.parameter = ullage_model_let(this, i, &found.this, &found.dimension);
            const char *name = ullage_model_let(other, j, &found.other, &dimension);
            if (strcmp(found.parameter, name) == 0 && dimension == found.dimension && differ(found.this, found.other))
                change[count++] = found;
        }
    return count;
}

/* The air around, as it was at the start. */
static int air_changes(const struct experiment *this, const struct experiment *other, struct change *change, int most)
{
    static const struct {
        const char *quantity;
        int dimension;
    } air[] = {{"temperature", ULLAGE_TEMPERATURE}, {"pressure", ULLAGE_PRESSURE}};

    int count = 0;
    for (int i = 0; i < 2 && count < most; i++) {
        const double a = channel_value(this->model, this->start, -1, air[i].quantity);
        const double b = channel_value(other->model, other->start, -1, air[i].quantity);
        if (differ(a, b))
            change[count++] = (struct change){"air around", air[i].quantity, air[i].dimension, a, b};
    }
    return count;
}

static int changes_find(const struct experiment *this, const struct experiment *other, struct change *change)
{
    int count = 0;
    for (int part = 0; part < ullage_model_parts(this->model); part++)
        count += part_changes(this->model, other->model, part, change + count, CHANGES_MOST - count);
    count += air_changes(this, other, change + count, CHANGES_MOST - count);
    count += let_changes(this->model, other->model, change + count, CHANGES_MOST - count);
    return count;
}

/* ---- what came of it --------------------------------------------------------------------------------------------- */

static bool is_flow(int dimension)
{
    return dimension == ULLAGE_VOLUME_FLOW || dimension == ULLAGE_MASS_FLOW || dimension == ULLAGE_AMOUNT_FLOW;
}

/* What a reading is called in a sentence. */
static const char *reading_word(const struct ullage_reading *reading)
{
    if (is_flow(reading->dimension))
        return "flow";
    if (reading->dimension == ULLAGE_TIME)
        return "time";
    const size_t length = strlen(reading->channel);
    if (length >= 5 && strcmp(reading->channel + length - 5, ".hole") == 0)
        return "hole";
    return reading->name;
}

/* this / other of the reading at `index` of this; NAN where there is none to compare, or one is off its scale. */
static double reading_ratio(const struct experiment *this, const struct experiment *other, int index)
{
    const struct ullage_reading here = ullage_run_reading(this->run, index);
    const int there = experiment_reading(other, here.name);
    if (there < 0 || here.over != 0)
        return (double)NAN;
    const struct ullage_reading its = ullage_run_reading(other->run, there);
    const bool comparable =
        its.over == 0 && its.dimension == here.dimension && its.value != 0.0 && here.dimension != ULLAGE_TEMPERATURE;
    return comparable ? here.value / its.value : (double)NAN;
}

/* What a change did, in one word and one ratio. */
struct effect {
    const char *word; /* null: nothing can be compared */
    double ratio, weight;
};

/* Flows answer plainest, then times and holes; what did not change comes last, and corrections and losses not at all. */
static double effect_weight(const char *word, const char *channel, double ratio)
{
    static const char *const plain[] = {"flow", "time", "hole"};
    const double change = fabs(log(ratio));
    for (int i = 0; i < 3; i++)
        if (strcmp(word, plain[i]) == 0 && change > same)
            return 1e3 * (3 - i) + change;
    return strstr(channel, ".pressure_lost") || strstr(channel, ".true_hole") ? -1.0 : change;
}

static void effect_weigh(struct effect *best, const char *word, const char *channel, double ratio)
{
    const double weight = ratio > 0.0 ? effect_weight(word, channel, ratio) : -1.0; /* not a number: nothing to weigh */
    if (weight > best->weight)
        *best = (struct effect){word, ratio, weight};
}

/* this / other of the flow that a meter read while its scale of holes was read; NAN: it was not. */
static double flow_ratio(const struct experiment *this, const struct experiment *other, int index)
{
    const int there = experiment_reading(other, ullage_run_reading(this->run, index).name);
    if (there < 0 || !reading_is_hole(this, index) || !reading_is_hole(other, there))
        return (double)NAN;
    return meter_flow(this, index) / meter_flow(other, there);
}

static struct effect effect_find(const struct experiment *this, const struct experiment *other)
{
    struct effect best = {.weight = -1.0};
    for (int i = 0; i < ullage_run_readings(this->run); i++) {
        const struct ullage_reading reading = ullage_run_reading(this->run, i);
        if (!reading_stands(this, i))
            continue;
        effect_weigh(&best, reading_word(&reading), reading.channel, reading_ratio(this, other, i));
        effect_weigh(&best, "flow", "", flow_ratio(this, other, i));
    }
    return best;
}

/* ---- the sentence ------------------------------------------------------------------------------------------------ */

static const struct {
    const char *parameter, *adjective;
} adjectives[] = {{"diameter", "wide"}, {"bore", "wide"},  {"width", "wide"},   {"gap", "wide"},
                  {"length", "long"},   {"wall", "thick"}, {"volume", "large"}, {"height", "high"}};

static const char *adjective_of(const char *parameter)
{
    for (size_t i = 0; i < sizeof adjectives / sizeof adjectives[0]; i++)
        if (strcmp(adjectives[i].parameter, parameter) == 0)
            return adjectives[i].adjective;
    return NULL;
}

static void change_tell(struct page *page, const struct change *change, enum figure_units units)
{
    const char *adjective = adjective_of(change->parameter);
    char subject[FIGURE_ROOM];
    char words[FIGURE_ROOM];
    char here[FIGURE_ROOM];
    char there[FIGURE_ROOM];
    figure_words(change->part ? change->part : change->parameter, true, subject);
    figure_value(change->this, change->dimension, units, here);
    figure_value(change->other, change->dimension, units, there);
    if (change->part && adjective && change->this > 0.0 && change->other > 0.0)
        page_put(page, "%s %s %s, %s in place of %s", subject, figure_times(change->this / change->other, words),
                 adjective, here, there);
    else if (change->part)
        page_put(page, "%s: %s %s in place of %s", subject, figure_words(change->parameter, false, words), here, there);
    else
        page_put(page, "%s %s in place of %s", subject, here, there);
}

/* "4.0 times", "0.25 times", "31 times". */
static const char *times_put(double ratio, char *room)
{
    snprintf(room, FIGURE_ROOM, "%.*f times", ratio < 1.095 ? 2 : ratio < 9.95 ? 1 : 0, ratio);
    return room;
}

static void law_tell(struct page *page, const struct change *change, const char *word, double ratio)
{
    for (size_t i = 0; i < sizeof answers / sizeof answers[0]; i++) {
        const struct answer *answer = &answers[i];
        if (strcmp(answer->parameter, change->parameter) != 0 || strcmp(answer->reading, word) != 0)
            continue;
        const double alone = pow(change->this / change->other, answer->power);
        const double off = fabs(ratio / alone - 1.0);
        char number[FIGURE_ROOM];
        if (off < law_holds)
            page_put(page, ", for %s", answer->why);
        else if (off < law_misses)
            page_put(page, "; %s, and that alone would give %s", answer->why, times_put(alone, number));
        return;
    }
}

static void effect_tell(struct page *page, const struct effect *effect, const struct change *only)
{
    char words[FIGURE_ROOM];
    char number[FIGURE_ROOM];
    if (!effect->word)
        return;
    figure_words(effect->word, false, words);
    if (fabs(effect->ratio - 1.0) < same)
        page_put(page, ": the same %s", words);
    else
        page_put(page, ": %s the %s", times_put(effect->ratio, number), words);
    if (only)
        law_tell(page, only, effect->word, effect->ratio);
}

/* told: something was done in one of them alone, and has been told. */
static void sentence_write(FILE *to, const struct experiment *this, const struct experiment *other,
                           enum figure_units units, bool told)
{
    struct page page = {.to = to};
    struct change change[CHANGES_MOST];
    const int count = changes_find(this, other, change);
    const struct effect effect = effect_find(this, other);
    if (count == 0 && told && !effect.word)
        return;
    if (count == 0)
        page_put(&page, told ? "What came of it" : "No number of a part, of the air or of let differs between the two");
    for (int i = 0; i < count; i++) {
        page_put(&page, i ? "; " : "");
        change_tell(&page, &change[i], units);
    }
    effect_tell(&page, &effect, count == 1 ? &change[0] : NULL);
    page_put(&page, ".");
    page_end(&page);
}

/* ---- the table --------------------------------------------------------------------------------------------------- */

struct comparison {
    const char *name;
    char this[FIGURE_ROOM], other[FIGURE_ROOM], ratio[FIGURE_ROOM];
};

static struct comparison reading_compare(const struct experiment *this, const struct experiment *other, int index,
                                         enum figure_units units)
{
    struct comparison row = {.name = ullage_run_reading(this->run, index).name, .other = "-", .ratio = "-"};
    const int there = experiment_reading(other, row.name);
    const double ratio = reading_ratio(this, other, index);
    reading_figure(this, index, units, row.this);
    if (there >= 0)
        reading_figure(other, there, units, row.other);
    if (!isnan(ratio))
        snprintf(row.ratio, FIGURE_ROOM, "%.3g", ratio);
    return row;
}

static void table_write(FILE *to, const struct experiment *this, const struct experiment *other,
                        enum figure_units units)
{
    int name = cell_width("Reading");
    int here = cell_width("this");
    int there = cell_width("other");
    for (int i = 0; i < ullage_run_readings(this->run); i++) {
        const struct comparison row = reading_compare(this, other, i, units);
        name = cell_wider(name, row.name);
        here = cell_wider(here, row.this);
        there = cell_wider(there, row.other);
    }
    for (int i = -1; i < ullage_run_readings(this->run); i++) {
        if (i >= 0 && !reading_stands(this, i))
            continue;
        const struct comparison heading = {"Reading", "this", "other", "ratio"};
        const struct comparison row = i < 0 ? heading : reading_compare(this, other, i, units);
        cell_put(to, "", 2);
        cell_put(to, row.name, name + 2);
        cell_put(to, row.this, here + 2);
        cell_put(to, row.other, there + 2);
        fprintf(to, "%s\n", row.ratio);
    }
}

void comparison_write(FILE *to, const struct experiment *this, const struct experiment *other, enum figure_units units)
{
    const bool told = parting_told(to, this, other, units);
    sentence_write(to, this, other, units, told);
    if (ullage_run_readings(this->run) > 0)
        table_write(to, this, other, units);
    parting_write(to, this, other);
}
