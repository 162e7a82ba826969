/* sim/element/instrument.c  From a true value to what a dial shows. */
#include "element/elements.h"

double instrument_shows(const struct instrument *instrument, double value, signed char *off_scale)
{
    double shown = value * (1.0 + instrument->gain_error) + instrument->zero_error;
    if (instrument->resolution > 0.0)
        shown = instrument->resolution * round(shown / instrument->resolution);
    *off_scale = (signed char)((shown > instrument->most) - (shown < instrument->least));
    return fmin(fmax(shown, instrument->least), instrument->most);
}
