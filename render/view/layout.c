/* layout.c  Zones of the picture. Nothing has a frame; white holds them apart. */
#include "view/layout.h"

#include <math.h>

#define NARROWEST (4.0 / 3.0)
#define WIDEST (16.0 / 9.0)
#define LETTERBOX_BELOW 1.25 /* width over height */
#define CENTRED_ABOVE 2.0
#define WIDE_FROM 1.72    /* from here on the column stands beside the plate */
#define PIXELS_LEAST 14.2 /* px: no text is drawn smaller */
#define COLUMN_WIDTH 548.0
#define COLUMN_NARROW 478.0
#define PLATE_WIDTH 1264.0

static void zones_wide(struct layout *layout)
{
    layout->column_x1 = layout->width - PICTURE_MARGIN;
    layout->column_x0 = layout->column_x1 - COLUMN_WIDTH;
    layout->column_y0 = 90.0;
    layout->column_y1 = 716.0;
    layout->plate_x = PICTURE_MARGIN + 0.5 * (layout->column_x0 - 44.0 - PICTURE_MARGIN - PLATE_WIDTH);
    layout->chart_x0 = 326.0;
    layout->chart_x1 = layout->width - PICTURE_MARGIN;
}

static void zones_narrow(struct layout *layout)
{
    layout->column_x1 = layout->width - PICTURE_MARGIN;
    layout->column_x0 = layout->column_x1 - COLUMN_NARROW;
    layout->column_y0 = 738.0;
    layout->column_y1 = 1068.0;
    layout->plate_x = 0.5 * (layout->width - PLATE_WIDTH);
    layout->chart_x0 = 286.0;
    layout->chart_x1 = layout->column_x0 - 50.0;
}

void layout_strips(struct layout *layout, int strips)
{
    const double top = 738.0, foot = 960.0;
    layout->strip_high = strips > 2 ? 54.0 : 98.0;
    for (int k = 0; k < strips; k++)
        layout->strip_y[k] = top + k * (foot - top - layout->strip_high) / (strips - 1);
}

struct layout layout_make(int width, int height)
{
    const double aspect = (double)width / height;
    const double shape = aspect < LETTERBOX_BELOW ? NARROWEST : aspect > CENTRED_ABOVE ? WIDEST : aspect;
    struct layout layout = {.width = PICTURE_HEIGHT * shape, .wide = shape >= WIDE_FROM};
    layout.scale = fmin(height / PICTURE_HEIGHT, width / layout.width);
    layout.left = 0.5 * (width - layout.scale * layout.width);
    layout.top = 0.5 * (height - layout.scale * PICTURE_HEIGHT);
    layout.least_text = fmax(TEXT_LEAST, PIXELS_LEAST / layout.scale);
    if (layout.wide)
        zones_wide(&layout);
    else
        zones_narrow(&layout);
    layout.plate_y = 130.0;
    layout.key_x = layout.plate_x + 28.0;
    layout.key_y = 672.0;
    layout_strips(&layout, 2);
    layout.bar_y0 = 978.0;
    layout.bar_y1 = 1010.0;
    return layout;
}
