/* sim/element/instrument.c  From a true value to what a dial shows. */
#include "element/elements.h"

#include "base/noise.h"

double instrument_noise(const struct part_look *at, double noise)
{
    return noise > 0.0 ? noise * noise_at(at->seed, at->time) : 0.0;
}

double instrument_shows(const struct instrument *instrument, double value, signed char *off_scale)
{
    double shown = value * (1.0 + instrument->gain_error) + instrument->zero_error + instrument->noise;
    shown += instrument->open_circuit * (instrument->most - shown);
    shown += instrument->short_circuit * (instrument->least - shown);
    if (instrument->resolution > 0.0)
        shown = instrument->resolution * round(shown / instrument->resolution);
    *off_scale = (signed char)((shown > instrument->most) - (shown < instrument->least));
    return fmin(fmax(shown, instrument->least), instrument->most);
}
