/* colour.c  The pressure scale, made in OKLab so that equal steps look equal.
 * Matrices: B. Ottosson, "A perceptual color space for image processing", 2020 (from memory); sRGB curve: IEC 61966-2-1. */
#include "view/colour.h"

#include <math.h>

#define HUE_ZERO 85.0 /* degrees in OKLab */
#define HUE_BELOW 255.0
#define HUE_ABOVE 58.0
#define DEGREE 0.017453292519943295

static unsigned channel(double linear)
{
    const double x = fmin(fmax(linear, 0.0), 1.0);
    const double curve = x <= 0.0031308 ? 12.92 * x : 1.055 * pow(x, 1.0 / 2.4) - 0.055;
    return (unsigned)lround(255.0 * curve);
}

static unsigned from_oklab(double lightness, double a, double b)
{
    const double l = pow(lightness + 0.3963377774 * a + 0.2158037573 * b, 3.0);
    const double m = pow(lightness - 0.1055613458 * a - 0.0638541728 * b, 3.0);
    const double s = pow(lightness - 0.0894841775 * a - 1.2914855480 * b, 3.0);
    const unsigned red = channel(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s);
    const unsigned green = channel(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s);
    const unsigned blue = channel(-0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s);
    return red << 16 | green << 8 | blue;
}

unsigned colour_pressure(double gauge, bool bright)
{
    if (!isfinite(gauge))
        return COLOUR_PAPER;
    const double share = fmin(sqrt(fabs(gauge) / COLOUR_PRESSURE_END), 1.0);
    const double lightness = 0.955 - (bright ? 0.195 : 0.295) * share;
    const double chroma = 0.004 * (1.0 - share) + (bright ? 0.115 : 0.145) * share;
    const double hue = DEGREE * (gauge < 0.0 ? HUE_BELOW : gauge > 0.0 ? HUE_ABOVE : HUE_ZERO);
    return from_oklab(lightness, chroma * cos(hue), chroma * sin(hue));
}
