/* frame.h  A frame as data: paths with their ink, texts with their boxes, spots that answer to the mouse.
 *
 * Lengths are in u: the picture is always 1080 u high. A frame holds no pointer into anything else, needs no display and can
 * be compared, tested and painted by any painter. Shapes are painted in order; the first `still` of them do not change
 * between most frames, so that a painter may keep them. */
#ifndef VIEW_FRAME_H
#define VIEW_FRAME_H

#include "view/colour.h"

#include <stdbool.h>
#include <stddef.h>

/* Width of a text in u at a size in u; weight 400..700. Handed in, so that view/ needs no font. */
struct text_measure {
    double (*width)(void *with, const char *text, double size, int weight);
    void *with;
};

enum node_op { NODE_MOVE, NODE_LINE, NODE_CURVE, NODE_CLOSE };

struct frame_node {
    enum node_op op;
    float x[6]; /* u; a line uses two, a curve six */
};

enum shape_kind { SHAPE_FILL, SHAPE_STROKE, SHAPE_TEXT, SHAPE_CLIP, SHAPE_UNCLIP };

struct frame_shape {
    enum shape_kind kind;
    unsigned colour;      /* 0xRRGGBB */
    int first, count;     /* nodes of the path; first byte and length of a text */
    float width, on, off; /* stroke: width, and dashes where on > 0 */
    int round;            /* stroke: round caps and joins */
    int shade;            /* fill: index of a gradient, -1: plain */
    float x, y, size;     /* text: left end, baseline, size */
    int weight;           /* text */
};

/* From y0 to y1, straight up and down. */
enum { SHADE_STOPS = 12 };

struct frame_shade {
    float y0, y1;
    int stops;
    float at[SHADE_STOPS];
    unsigned colour[SHADE_STOPS];
};

struct frame_box {
    double x0, y0, x1, y1;
};

/* What a text covers; every text has one. */
struct frame_word {
    struct frame_box box;
    double size;
    int first; /* byte of the text */
};

/* What lies under the pointer. Larger `what` is nearer to the eye. */
enum spot_kind {
    SPOT_NONE,
    SPOT_PLATE_PART, /* part: index */
    SPOT_CLOCK,
    SPOT_RATE_LESS,
    SPOT_RATE_MORE,
    SPOT_TIME_BAR,
    SPOT_GUTTER,         /* part: number of the strip */
    SPOT_PAGE,           /* part: the page */
    SPOT_FAULT,          /* part: row of the faults, to be chosen in the column */
    SPOT_SLIDER,         /* part: the row that it sets; a share of the ruler */
    SPOT_BRANCH,         /* part: the branch to go over to */
    SPOT_DRAWER,         /* part: what a word of the drawer does, enum drawer_word */
    SPOT_WEATHER_SLIDER, /* part: the row that it sets; a share of the ruler */
    SPOT_WEATHER_WORD,   /* part: what a word of their page does, enum weather_word */
    SPOT_WAY,            /* part: branch, to be chosen in the column */
    SPOT_WAY_WORD,       /* part: what a word beside it does, enum ways_word */
    SPOT_TOGGLE,         /* part: opened or shut by a click */
    SPOT_GRIP,           /* part: opened by dragging up: cap, blade */
    SPOT_WEATHER /* part: row of the surroundings, to be opened in the column; -1: all, by their words on the plate */
};

struct frame_spot {
    enum spot_kind what;
    int part;
    struct frame_box box;
    double from, to; /* of sliders and bars: the values at the box's left and right end; of grips: at bottom and top */
};

struct frame_place { /* where local coordinates lie: turned by quarters, mirrored left to right before that */
    double x, y;
    int turn;
    bool mirror;
};

struct frame {
    double width, height; /* u */
    double least_text;    /* u; smaller texts are drawn at this size */
    struct text_measure measure;
    double origin_x, origin_y; /* u: added to all that is drawn */
    struct frame_place place;
    int nodes, shapes, bytes, shades, words, spots;
    int node_room, shape_room, byte_room, shade_room, word_room, spot_room;
    struct frame_node *node;
    struct frame_shape *shape;
    char *text;
    struct frame_shade *shade;
    struct frame_word *word;
    struct frame_spot *spot;
    int still; /* how many shapes at the front are still */
    int begun; /* first node of the path being made */
    bool out_of_memory;
};

/* A frame starts as all zeros. clear keeps its memory, free gives it back. */
void frame_clear(struct frame *frame, double width, double height, double least_text, struct text_measure measure);
void frame_free(struct frame *frame);
void frame_still(struct frame *frame); /* what was drawn so far is still */

/* Where (0, 0) lies from here on, for all that is drawn, written or answers to the mouse. */
void frame_origin(struct frame *frame, double x, double y);
/* Local coordinates from here on, for paths and texts. */
void frame_at(struct frame *frame, double x, double y, int turn, bool mirror);
void frame_home(struct frame *frame);

/* A path is begun, drawn, then filled or stroked as often as wanted. */
void frame_path(struct frame *frame);
void frame_move(struct frame *frame, double x, double y);
void frame_line(struct frame *frame, double x, double y);
void frame_curve(struct frame *frame, double x1, double y1, double x2, double y2, double x, double y);
void frame_close(struct frame *frame);
void frame_arc(struct frame *frame, double x, double y, double radius, double from, double to); /* joins with a line */
void frame_rectangle(struct frame *frame, double x, double y, double w, double h);
void frame_rounded(struct frame *frame, double x, double y, double w, double h, double radius);
void frame_circle(struct frame *frame, double x, double y, double radius);

void frame_fill(struct frame *frame, unsigned colour);
void frame_fill_shaded(struct frame *frame, const struct frame_shade *shade);
void frame_stroke(struct frame *frame, unsigned colour, double width);       /* butt caps, mitred */
void frame_stroke_round(struct frame *frame, unsigned colour, double width); /* round caps and joins */
void frame_stroke_dashed(struct frame *frame, unsigned colour, double width, double on, double off);
void frame_clip(struct frame *frame); /* to the path, until frame_unclip; not nested */
void frame_unclip(struct frame *frame);

/* A straight stroke, a filled box. */
void frame_rule(struct frame *frame, double x0, double y0, double x1, double y1, unsigned colour, double width);
void frame_bar(struct frame *frame, double x, double y, double w, double h, unsigned colour);

/* How a text is set. */
struct text_style {
    double size; /* u */
    int weight;
    unsigned colour;
    double anchor; /* 0: x is its left end, 0.5: its middle, 1: its right end */
};

/* Draws a text and records its box; returns its width. The one function for all texts. Local coordinates do not turn it. */
double frame_text(struct frame *frame, double x, double baseline, struct text_style style, const char *text);
/* The same, smaller where it would be wider than `room`, down to the least size. */
double frame_text_fit(struct frame *frame, double x, double baseline, double room, struct text_style style,
                      const char *text);
double frame_text_width(const struct frame *frame, struct text_style style, const char *text);
double frame_text_size(const struct frame *frame, double size); /* the size that will be drawn */
/* The box a text would cover: from above its capitals to below its tails. */
struct frame_box frame_text_box(const struct frame *frame, double x, double baseline, struct text_style style,
                                const char *text);

void frame_spot(struct frame *frame, enum spot_kind what, int part, struct frame_box box, double from, double to);
/* The spot under (x, y), a margin of `reach` u around each allowed; the nearest wins, then the later one. Null: none. */
const struct frame_spot *frame_spot_at(const struct frame *frame, double x, double y, double reach);

bool box_overlaps(struct frame_box a, struct frame_box b);
struct frame_box box_grown(struct frame_box box, double by);

#endif
