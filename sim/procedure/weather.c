/* sim/procedure/weather.c  The surroundings at the door: what of them can be changed, and how they are at a moment. */
#include "procedure/conduct.h"

#include <assert.h>
#include <math.h>

/* In the order of weather_key[]. */
static const struct {
    const char *key, *label, *channel;
} words[] = {
    {"surroundings.temperature", "air temperature", "air.temperature"},
    {"surroundings.pressure", "air pressure", "air.pressure"},
    {"surroundings.altitude", "altitude", ""},
    {"surroundings.sun", "sun", "air.sun"},
    {"surroundings.wind", "wind", "air.wind"},
};

int ullage_weathers(void)
{
    return rows_count(weather_key);
}

struct ullage_weather ullage_weather_at(int index)
{
    assert(0 <= index && index < ullage_weathers());
    const struct row *row = &weather_key[index];
    return (struct ullage_weather){.key = words[index].key,
                                   .label = words[index].label,
                                   .channel = words[index].channel,
                                   .meaning = row->meaning,
                                   .dimension = row->dimension,
                                   .least = row->least,
                                   .most = row->most,
                                   .soonest = WEATHER_SOONEST};
}

struct ullage_weather_now ullage_run_weather(const struct ullage_model *model, const struct ullage_run *run, int index)
{
    assert(0 <= index && index < ullage_weathers());
    const enum weather which = weather_of_key(index);
    const struct weather_way way = run_weather_way(run->physics, which);
    const double value = run_weather_value(model->network, run->physics, which);
    return (struct ullage_weather_now){.value = weather_as_key(index, value),
                                       .by_hand = way.given && !way.back,
                                       .to = way.given && !way.back ? weather_as_key(index, way.to) : (double)NAN,
                                       .begins = way.begins,
                                       .ends = way.ends};
}
