/* intent.h  From a key or the mouse to what a person wants. What is only about seeing is done to the view at once; what is
 * about the run is handed on. */
#ifndef VIEW_INTENT_H
#define VIEW_INTENT_H

#include "view/scene.h"

enum input_kind { INPUT_KEY, INPUT_PRESS, INPUT_MOVE, INPUT_RELEASE, INPUT_WHEEL };

enum input_key { /* letters, digits and signs are their own character */
                 KEY_SPACE = ' ',
                 KEY_ENTER = 256,
                 KEY_ESCAPE,
                 KEY_TAB,
                 KEY_BACKSPACE,
                 KEY_LEFT,
                 KEY_RIGHT,
                 KEY_UP,
                 KEY_DOWN,
                 KEY_HOME,
                 KEY_END
};

struct input {
    enum input_kind kind;
    int key;
    bool shift;
    double x, y; /* u */
    int wheel;   /* notches, up positive */
};

enum intent_kind {
    INTENT_NONE,
    INTENT_GO,      /* to `number` s */
    INTENT_COMMAND, /* what, value */
    INTENT_FAULT,   /* row `part` of the faults to size `number`; 0: out */
    INTENT_HEALTHY, /* all faults out */
    INTENT_FILE_WEATHER, /* air, sun and wind as the file has them */
    INTENT_BRANCH,  /* over to branch `part` */
    INTENT_NAME,    /* branch `part` is called `value` */
    INTENT_FORGET,  /* branch `part` */
    INTENT_SOUND,   /* the sound run along, or no more */
    INTENT_WRITE,   /* the picture to a file */
    INTENT_KEEP,    /* what was done by hand, as a scenario */
    INTENT_LEAVE
};

struct intent {
    enum intent_kind kind;
    int part;
    double number;
    char what[96], value[256];
};

/* What is held while the button is down. */
struct grip {
    enum spot_kind what;
    int part;
    struct frame_box box;
    double from, to, begun_x, begun_y;
    bool moved;
    double opening; /* at the start */
};

/* frame: the one on the screen, whose spots say what lies where. reach: how near counts, in u. */
struct intent intent_of(const struct input *input, struct view *view, struct grip *grip, const struct scene *scene,
                        const struct frame *frame, double reach);

/* A key while a value is being typed, or that begins one: a character, Backspace, Escape. */
void typed_key(struct view *view, int key);

#define RATE_LEAST 0.1
#define RATE_MOST 1e4
/* The next rate of the row 1, 2, 5. */
double rate_faster(double rate);
double rate_slower(double rate);

#endif
