/* faults.h  What can be wrong with a system, as rows that the drawer lists: each a place, a name and one size.
 *
 * Two sorts share the list. Holes of the system's own parts, like the plugs of a leak bar, are opened and plugged; all others
 * are put in and taken out. Made once for a model, taken anew from the run for each frame. */
#ifndef VIEW_FAULTS_H
#define VIEW_FAULTS_H

#include "view/cast.h"
#include "view/figure.h"

struct fault_row {
    char what[96];               /* as a command has it: "seal-leak tank.neck"; of a hole of the system its id */
    char name[48];               /* "Seal leak" */
    char place[112];              /* "tank, neck" */
    const char *comes, *changes; /* how it comes about, what readings show; "" */
    int part;                    /* whose it is; -1: nobody's */
    int hole;                    /* the part that it is, where it is a hole; -1 */
    bool own;                    /* a hole of the system itself */
    bool fixed;                  /* no hand can change it in this run */
    bool round;                  /* its size is the diameter of a hole */
    bool poured;                 /* liquid: it comes on over a while in every case */
    int index;                   /* among the model's faults; -1: an own hole */
    int dimension;
    double least, usual, most; /* SI; usual NAN: nothing is; least < 0: either way */
    bool in, waits;            /* there now; put in, and still to come, or to come again */
    double size, share, since; /* SI; of its size, as it comes on; moment, s, NAN: not known */
    double begins;             /* s: when what waits comes */
    double other;              /* its size on the way that is shown behind; 0: not there, NAN: not known */
    struct ullage_course course;
};

struct faults {
    int count;
    struct fault_row *row; /* those of the model in its order, then own holes */
};

/* False when memory is out. */
bool faults_make(struct faults *faults, const struct ullage_model *model, const struct cast *cast);
void faults_free(struct faults *faults);
/* How all of them are at the run's present moment; value: its channels. */
void faults_take(struct faults *faults, const struct ullage_model *model, const struct ullage_run *run,
                 const struct cast *cast, const double *value);
/* What a row's size is on another branch at the same moment; ULLAGE_SOUND: on the sound run. */
void fault_other(struct fault_row *row, const struct ullage_history *history, int branch, double time);
int faults_wrong(const struct faults *faults); /* how many are in */
bool fault_put_in(const struct fault_row *row); /* it is in, or waits */

struct unit_view fault_unit(const struct fault_row *row, enum units units);
/* Its size as a person has it: "0.50 mm", "12 %", "+2.0 K". */
struct figure fault_figure(const struct fault_row *row, double size, enum units units);
/* The same as a command takes it. */
const char *fault_value(const struct fault_row *row, double size, char *room, int room_size);
/* A size that was typed; bare numbers are in the unit shown. Null, or a sentence that says what would be right. */
const char *fault_typed(const struct fault_row *row, const char *typed, enum units units, double *size);

/* The scale that its ruler has: log where the sizes go over more than a decade. Holes all have one and the same. */
struct fault_scale {
    double least, most; /* at the left and right end */
    bool log;
};
struct fault_scale fault_scale(const struct fault_row *row);
double fault_scale_share(const struct fault_scale *scale, double size); /* 0 left .. 1 right */
double fault_scale_size(const struct fault_scale *scale, double share); /* the left end is nothing wrong: 0 */

#endif
