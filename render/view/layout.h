/* layout.h  Where the zones of the picture lie, for any size of it. Height is always 1080 u; wide pictures have the column
 * beside the plate, others under it at the right. */
#ifndef VIEW_LAYOUT_H
#define VIEW_LAYOUT_H

#include <stdbool.h>

#define PICTURE_HEIGHT 1080.0
#define PICTURE_MARGIN 32.0
#define TEXT_LEAST 20.0 /* u */

struct layout {
    bool wide;
    double scale;            /* px per u */
    double left, top;        /* px: where the picture begins in its window */
    double width;            /* u */
    double least_text;       /* u: what 20 u text is drawn at */
    double plate_x, plate_y; /* u: the plate's corner */
    double key_x, key_y;     /* u: left end of the key, top of its bars */
    double column_x0, column_x1, column_y0, column_y1;
    double chart_x0, chart_x1, strip_y[3], strip_high, bar_y0, bar_y1;
};

struct layout layout_make(int width, int height);
/* Strips one under the other in the charts' zone: two, as layout_make has them, or three lower ones. */
void layout_strips(struct layout *layout, int strips);

#endif
