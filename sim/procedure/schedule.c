/* sim/procedure/schedule.c  What a scenario says is done by hand, made ready: `by_hand`, beside the procedure. */
#include "procedure/model.h"

int schedule_read(const struct ullage_model *model, struct arena *arena, const struct by_hand *of,
                  struct setting *setting, struct ullage_problems *problems)
{
    const struct node *set = of->set;
    const struct procedure *procedure = model->procedure;
    const struct scope scope = {.network = model->network,
                                .let = procedure->let,
                                .lets = procedure->lets,
                                .wait = -1,
                                .earliest = of->time,
                                .arena = arena,
                                .problems = problems};
    int count = 0;
    for (int i = 0; i < set->count; i++) {
        const struct node *word = set->child[i];
        const struct phrase what = {word->key, word->key_at}, value = {word->text, word->at};
        count += hand_setting_read(&scope, what, value, &setting[count]);
    }
    return count;
}

static int settings_in(const struct ullage_description *description)
{
    int count = 0;
    for (int k = 0; k < description->by_hands; k++)
        count += description->by_hand[k].set->count;
    return count;
}

bool schedule_make(struct ullage_model *model, const struct ullage_description *description,
                   struct ullage_problems *problems)
{
    const int most = settings_in(description);
    model->schedule = arena_take(model->arena, ((size_t)most + 1) * sizeof *model->schedule);
    struct setting *setting = arena_take(model->arena, ((size_t)most + 1) * sizeof *setting);
    bool good = model->schedule && setting;
    for (int k = 0; good && k < description->by_hands; k++) {
        const struct by_hand *of = &description->by_hand[k];
        const int read = schedule_read(model, model->arena, of, setting, problems);
        good = read == of->set->count;
        for (int i = 0; i < read; i++)
            if (!description->sound || !setting_faulty(model->network, &setting[i]))
                model->schedule[model->scheduled++] = (struct scheduled){of->time, setting[i]};
    }
    return good;
}
