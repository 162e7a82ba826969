/* sim/procedure/switched.c  Telling of parts that open and shut by themselves, without flooding the story: of what goes on
 * without a rest the first times are told, then once that it goes on. */
#include "procedure/conduct.h"

enum { TOLD_MOST = 4 };

#define REST 60.0 /* s without a flip: what comes then is news again */

void switches_begin(struct ullage_run *run)
{
    const struct network *network = run->model->network;
    for (int s = 0; s < network_switches(network); s++)
        run->switched[s] = (struct switched){run_switch(network, run->physics, s), 0, 0.0};
}

static void switch_tell(struct ullage_run *run, int index)
{
    const struct network *network = run->model->network;
    const struct switch_plan *plan = network_switch(network, index);
    struct switched *known = &run->switched[index];
    const double now = conduct_now(run);
    known->often = now - known->last < REST ? known->often + 1 : 1;
    known->last = now;
    if (known->often > TOLD_MOST + 1)
        return;
    const char *turns = known->on ? plan->turns_on : plan->turns_off;
    conduct_tell(run, (struct ullage_event){.kind = ULLAGE_SWITCHED,
                                            .step = -1,
                                            .subject = network_part(network, plan->part)->id,
                                            .text = known->often > TOLD_MOST ? "goes on opening and shutting" : turns});
}

void switches_follow(struct ullage_run *run)
{
    const struct network *network = run->model->network;
    for (int s = 0; s < network_switches(network); s++) {
        const bool on = run_switch(network, run->physics, s);
        if (on == run->switched[s].on)
            continue;
        run->switched[s].on = on;
        switch_tell(run, s);
    }
}
