/* sim/procedure/record.c  What a run keeps for the table and the charts: which channels, and how often.
 *
 * Where a scenario does not say: the gauge pressure of every gas space and gauge, the flow of every hole, valve, cap and
 * port, and all that a meter or sensor shows; every 1, 2 or 5 times a power of ten of a second, so that the longest the
 * run can last makes at most ROWS_USUAL rows, but not oftener than EVERY_LEAST. */
#include "base/text.h"
#include "procedure/model.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define ROWS_USUAL 20000.0
#define ROWS_MOST 2e7
#define EVERY_LEAST 0.05 /* s */

/* ---- how often ---- */

/* The first of 1, 2, 5, 10, 20 ... that is at least `value`. */
static double round_up(double value)
{
    static const double steps[] = {1.0, 2.0, 5.0, 10.0};
    const double decade = pow(10.0, floor(log10(value)));
    for (int k = 0; k < 4; k++)
        if (steps[k] * decade >= value * (1.0 - 1e-9))
            return steps[k] * decade;
    return 10.0 * decade;
}

static bool every_make(struct ullage_model *model, const struct ullage_description *description,
                       struct ullage_problems *problems)
{
    const double longest = isfinite(model->longest) ? model->longest : 0.0;
    model->every = description->every_given ? description->every : round_up(fmax(longest / ROWS_USUAL, EVERY_LEAST));
    if (longest / model->every <= ROWS_MOST)
        return true;
    char right[100];
    snprintf(right, sizeof right, "record every %g s or less often", round_up(longest / ROWS_MOST));
    problem_add(problems, description->at, right, "this run can last %g s, which is too much to record every %g s",
                longest, model->every);
    return false;
}

/* ---- which ---- */
static bool is_usual(const struct network *network, const struct ullage_channel *channel)
{
    if (channel->part < 0)
        return false;
    const struct part *part = network_part(network, channel->part);
    const struct element_kind *kind = part->kind;
    if (part->latent)
        return false;
    const bool flow = kind->is_passage && !strcmp(channel->quantity, "flow");
    return flow || kind->instruments || (kind->has_volumes && !strcmp(channel->quantity, "gauge_pressure"));
}

static void usual_channels(struct ullage_model *model)
{
    for (int k = 0; k < network_channels(model->network); k++) {
        const struct ullage_channel channel = network_channel(model->network, k);
        if (is_usual(model->network, &channel))
            model->channel[model->recorded++] = k;
    }
}

static bool channel_add(struct ullage_model *model, const struct node *word, struct ullage_problems *problems)
{
    char shown[TEXT_SHORT], right[200] = "ullage list channels prints what there is";
    const int found = network_find_channel(model->network, word->text);
    const char *nearest = found < 0 ? network_nearest_channel(model->network, word->text) : NULL;
    for (int k = 0; k < model->recorded; k++)
        if (model->channel[k] == found) {
            problem_add(problems, word->at, "name it once", "%s stands here twice", text_short(word->text, shown));
            return false;
        }
    if (nearest)
        snprintf(right, sizeof right, "did you mean %.100s?", nearest);
    if (found < 0)
        problem_add(problems, word->at, right, "there is no channel %s", text_short(word->text, shown));
    else if (strcmp(word->text, "time")) /* time is the first column anyway */
        model->channel[model->recorded++] = found;
    return found >= 0;
}

bool record_make(struct ullage_model *model, const struct ullage_description *description,
                 struct ullage_problems *problems)
{
    const struct node *channels = description->channels;
    model->channel = arena_take(model->arena, ((size_t)network_channels(model->network) + 1) * sizeof *model->channel);
    if (!model->channel)
        return false;
    bool good = every_make(model, description, problems);
    if (!channels)
        usual_channels(model);
    for (int i = 0; channels && i < channels->count; i++)
        if (channels->child[i]->kind == NODE_WORD)
            good = channel_add(model, channels->child[i], problems) && good;
    return good;
}
