/* sim/procedure/history.h  What a history is made of: branches, and kept moments that all of them share.
 *
 * A moment is a saved run. It belongs to no branch: it is good for every one whose orders up to it are those that the moment has
 * seen, told by their chain of hashes. So the past that branches share is kept once, and what is kept on one way is there for
 * another that begins later. The orders and all that was told along the present branch stand in the run's own log, those of the
 * others here. */
#ifndef PROCEDURE_HISTORY_H
#define PROCEDURE_HISTORY_H

#include "procedure/conduct.h"

enum {
    MOMENTS_MOST = 2048,
    MOMENTS_BYTES = 80 << 20, /* for all of them, */
    MOMENTS_BYTES_SOUND =
        20 << 20, /* and for those of the sound run, which has one branch: with the samples under 200 MB */
    NAME_ROOM = 64
};

struct moment {
    double time;
    int64_t made; /* solver steps up to it */
    int orders;   /* seen, and their chain */
    uint64_t chain;
    void *block;
};

struct branch {
    bool named;
    char name[NAME_ROOM];
    int parent; /* -1: none */
    double parted_at;
    double latest; /* s */
    int samples, events; /* up to there */
    int64_t born;
    struct told told; /* while another is the present one */
};

struct ullage_history {
    struct ullage_run *run;
    size_t bytes;  /* that its moments may take */
    size_t size;   /* of a block */
    int room;      /* for moments */
    int64_t steps; /* of the solver between two moments */
    int moments;
    struct moment moment[MOMENTS_MOST]; /* in the order they were kept; the first is the start, and stays */
    int branches, present;
    int64_t births;
    struct branch branch[ULLAGE_BRANCHES_MOST];
    struct ullage_history *sound; /* of the run that goes along, which it owns; null: none */
    bool sound_over;              /* it has come to its end */
    uint64_t followed;            /* chain of the orders it was given, and how many of ours that were */
    int followed_orders;
};

/* ---- moments.c ---- */

/* Keeps the present moment, where the last one before it lies far enough behind. Without memory it is not kept: going back takes
 * longer, that is all. */
void moment_keep(struct ullage_history *history);
/* The last moment that is good for `told`, at or before `time`. */
const struct moment *moment_before(const struct ullage_history *history, const struct told *told, double time);
/* Lets go of those that are good for no branch. */
void moments_sift(struct ullage_history *history);
void moments_free(struct ullage_history *history);

/* ---- history.c ---- */

/* As ullage_history_create, in so many bytes. */
struct ullage_history *history_begin(struct ullage_run *run, size_t bytes);

/* Onward from now, keeping moments. */
enum ullage_status history_go_on(struct ullage_history *history, double time);
/* The run to `time` from the moment before it, whatever it was told until now. */
enum ullage_status history_return(struct ullage_history *history, double time);
/* Notes how far the present branch has been followed. */
void history_note(struct ullage_history *history);

/* ---- branches.c ---- */
const struct told *branch_told(const struct ullage_history *history, int branch);
void branch_begin(struct ullage_history *history);
/* Before a command at the present moment: begins a branch where something stands after it. Null, or a sentence that says why
 * there cannot be one. */
const char *history_part(struct ullage_history *history, const struct setting *setting);

/* ---- sound.c ---- */

/* Brings the sound run to where ours is, under our orders. */
void sound_follow(struct ullage_history *history);
void sound_free(struct ullage_history *history);

/* ---- hand.c ---- */

/* Null, or a sentence that says what is wrong. */
const char *hand_read(struct ullage_run *run, const char *what, const char *value, struct setting *into);
/* Order `index`, in place of it and of all that were known after it. False: memory. */
bool order_put(struct ullage_run *run, int index, double time, const struct setting *setting);

#endif
