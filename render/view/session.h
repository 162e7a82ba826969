/* session.h  A run and its picture, together: follows the run, keeps what the picture needs of it, does what a person wants.
 * Knows no window, no ink and no clock but the seconds it is told. */
#ifndef VIEW_SESSION_H
#define VIEW_SESSION_H

#include "view/intent.h"
#include "view/picture.h"

struct session {
    const struct ullage_model *model;
    struct ullage_run *run;
    struct ullage_history *history; /* null: the session only goes forward */
    struct text_measure measure;
    struct cast cast;
    struct plan plan;
    struct plate plate;
    struct snapshot now;
    struct motion motion, shown_motion;
    struct traces traces;     /* of a session that only goes forward */
    struct branches branches; /* of one that can go back */
    struct faults faults;
    const struct ullage_model *sound; /* the same without its faults; null: no sound run can go along */
    bool accompanied;                 /* it goes along */
    struct view view;
    struct grip grip;
    struct frame frame;            /* the last one made */
    double least_text;             /* u, that the plate was made for */
    bool *shown;                   /* [parts] holes that have come, and are drawn */
    double grid_time, grid_step;   /* s: where `motion` stands, in a session that only goes forward */
    double *grid_value;            /* [channels] at grid_time */
    double *told;                  /* [channels] as figures show them */
    struct ullage_cell *told_cell; /* [cells] the same */
    double told_age;               /* s on the wall since then */
    enum ullage_status status;
};

/* False when memory is out; free then, too. model and run stay the caller's. live: with a history, to go back. */
bool session_make(struct session *session, const struct ullage_model *model, struct ullage_run *run,
                  struct text_measure measure, int width, int height, bool live);
void session_free(struct session *session);

bool session_resize(struct session *session, int width, int height);

/* Live: `seconds` have gone by on the wall. Takes the run on if it plays. */
void session_tick(struct session *session, double seconds);
/* Forward only: to `time` s of the run, marks moved by simulated time on a fixed grid. */
enum ullage_status session_follow(struct session *session, double time);

/* The picture of now; null when memory is out. */
const struct frame *session_frame(struct session *session);
/* Hands in a key or the mouse, in px; what is left for the window to do comes back (write, leave, nothing). */
enum intent_kind session_input(struct session *session, struct input input);
/* Says something at the head of the picture. */
void session_say(struct session *session, const char *text);

#endif
