/* sim/procedure/act.c  What the verbs of a procedure do to a run, at the present moment. */
#include "procedure/conduct.h"

#include <math.h>

double conduct_now(const struct ullage_run *run)
{
    return run_now(run->physics);
}

const struct step *conduct_step(const struct ullage_run *run, int index)
{
    return &run->model->procedure->step[index];
}

double conduct_value_at(struct ullage_run *run, const struct expression *expression, double time)
{
    const struct ullage_model *model = run->model;
    if (expression->channels > 0)
        run_look(model->network, run->physics, time, expression->channels, expression->channel, run->look, NULL);
    const struct outlook at = {.time = time,
                               .channel = run->look,
                               .slot = run->slot,
                               .window = model->procedure->window,
                               .memory = run->memory,
                               .since = run->progress->since,
                               .wait = run->progress->wait};
    return expression_value(expression, &at);
}

double conduct_value(struct ullage_run *run, const struct expression *expression)
{
    return conduct_value_at(run, expression, conduct_now(run));
}

/* ---- telling ---- */
void conduct_tell(struct ullage_run *run, struct ullage_event event)
{
    struct ullage_event *row = logbook_event(&run->log, run->progress->events);
    if (!row)
        return;
    *row = event;
    row->time = event.time > 0.0 ? event.time : conduct_now(run);
    row->subject = event.subject ? event.subject : "";
    row->text = event.text ? event.text : "";
    run->progress->events++;
}

void conduct_sample(struct ullage_run *run, double time)
{
    const struct ullage_model *model = run->model;
    double *row = logbook_sample(&run->log, run->progress->samples);
    if (!row)
        return;
    row[0] = time;
    run_look(model->network, run->physics, time, model->recorded, model->channel, row + 1, NULL);
    run->progress->samples++;
}

void conduct_read(struct ullage_run *run, int index, int slot, const struct expression *value)
{
    struct progress *progress = run->progress;
    const struct ullage_model *model = run->model;
    struct ullage_reading *row = logbook_reading(&run->log, progress->readings);
    double *values = logbook_values(&run->log, progress->readings);
    if (!row || !values)
        return;
    run_look_all(model->network, run->physics, conduct_now(run), values, run->look_off);
    const int channel = value->bare_channel;
    const int other = value->bare_slot;
    run->slot[slot] = conduct_value(run, value);
    run->over[slot] = channel >= 0 ? run->look_off[channel] : other >= 0 ? run->over[other] : 0;
    const int named = channel >= 0 ? channel : other >= 0 ? model->procedure->slot[other].channel : -1;
    *row = (struct ullage_reading){.name = model->procedure->slot[slot].name,
                                   .value = run->slot[slot],
                                   .dimension = value->dimension,
                                   .over = run->over[slot],
                                   .time = conduct_now(run),
                                   .channel = named >= 0 ? network_channel(model->network, named).name : ""};
    conduct_tell(run, (struct ullage_event){.kind = ULLAGE_READ,
                                            .step = index,
                                            .subject = row->name,
                                            .text = row->channel,
                                            .number = progress->readings});
    progress->readings++;
}

void conduct_judge(struct ullage_run *run, int index, const char *name, const char *reason, enum ullage_result result)
{
    struct progress *progress = run->progress;
    struct ullage_verdict *row = logbook_verdict(&run->log, progress->verdicts);
    if (!row)
        return;
    *row = (struct ullage_verdict){.name = name, .reason = reason, .result = result, .time = conduct_now(run)};
    conduct_tell(
        run, (struct ullage_event){
                 .kind = ULLAGE_JUDGED, .step = index, .subject = name, .text = reason, .number = progress->verdicts});
    progress->verdicts++;
}

/* ---- waiting ---- */
void conduct_wait(struct ullage_run *run, int index)
{
    struct progress *progress = run->progress;
    progress->wait = index;
    progress->since = conduct_now(run);
    progress->deadline = progress->since + conduct_step(run, index)->most;
    watch_begin(run);
}

/* ---- inputs ---- */
static void conduct_fault(struct ullage_run *run, const struct setting *setting)
{
    const struct network *network = run->model->network;
    if (setting->puts_in)
        run_fault_put(network, run->physics, setting->fault, setting->value, &setting->course);
    else
        run_fault_size(network, run->physics, setting->fault, setting->value);
    faults_again(run);
}

static void conduct_weather(struct ullage_run *run, const struct setting *setting)
{
    const struct network *network = run->model->network;
    const enum weather which = weather_of_key(setting->weather);
    if (setting->back)
        run_weather_back(network, run->physics, which, setting->lasts);
    else
        run_weather(network, run->physics, which, weather_from_key(setting->weather, setting->value), setting->lasts);
}

void conduct_set(struct ullage_run *run, int index, const struct setting *setting, bool by_hand)
{
    const struct network *network = run->model->network;
    if (setting->fault >= 0)
        conduct_fault(run, setting);
    else if (setting->row == SETTING_WEATHER)
        conduct_weather(run, setting);
    else if (setting->row >= 0)
        run_parameter(network, run->physics, setting->part, setting->row, setting->value);
    else
        run_command(network, run->physics, setting->part, setting->value);
    conduct_tell(run, (struct ullage_event){.kind = ULLAGE_COMMANDED,
                                            .step = index,
                                            .by_hand = by_hand,
                                            .subject = setting->subject,
                                            .text = setting->told ? setting->told : setting->text,
                                            .number = setting->value});
    switches_follow(run);
}

void conduct_part(struct ullage_run *run, int index, int equipment, int port, bool by_hand)
{
    const struct network *network = run->model->network;
    for (int k = 0; k < network_parts(network); k++) {
        const int joint = port < 0 || port == k ? network_joint(network, equipment, k) : -1;
        if (joint < 0 || !run_joined(network, run->physics, joint))
            continue;
        run_join(network, run->physics, joint, false);
        conduct_tell(run, (struct ullage_event){.kind = ULLAGE_PARTED,
                                                .step = index,
                                                .by_hand = by_hand,
                                                .subject = network_part(network, equipment)->id,
                                                .text = network_part(network, k)->id});
    }
}

void conduct_join(struct ullage_run *run, int index, int equipment, int port, bool by_hand)
{
    const struct network *network = run->model->network;
    const int joint = network_joint(network, equipment, port);
    if (run_joined(network, run->physics, joint))
        return;
    conduct_part(run, index, equipment, -1, by_hand);
    run_join(network, run->physics, joint, true);
    conduct_tell(run, (struct ullage_event){.kind = ULLAGE_JOINED,
                                            .step = index,
                                            .by_hand = by_hand,
                                            .subject = network_part(network, equipment)->id,
                                            .text = network_part(network, port)->id});
}
