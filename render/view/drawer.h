/* drawer.h  The drawer of faults as state: what it lists, what is searched for, where its cursor stands, whose ruler is open.
 * Pure functions from what a person does to what it shows next; knows no ink. */
#ifndef VIEW_DRAWER_H
#define VIEW_DRAWER_H

#include "view/times.h"

enum { SEARCH_MOST = 31, DRAWER_LINES = 512 };

struct drawer {
    int part;   /* only its faults; -1: all of them */
    int row;    /* whose ruler is open; -1: none, the list is */
    int cursor; /* line that keys act on */
    int time;                   /* line of its times that keys act on; -1: they are closed */
    struct ullage_course times; /* of one that was not put in yet */
    bool searching;
    char search[SEARCH_MOST + 1];
};

/* What it lists, from the top: all that is wrong now, or was put in and waits, then what else can be and matches. */
struct drawer_lines {
    int count, wrong;
    int row[DRAWER_LINES];
};

void drawer_begin(struct drawer *drawer);
void drawer_lines(const struct drawer *drawer, const struct faults *faults, struct drawer_lines *lines);
/* The faults of one part: its ruler at once where there is but one; -1: of all. */
void drawer_part(struct drawer *drawer, const struct faults *faults, int part);
void drawer_choose(struct drawer *drawer, const struct faults *faults, int row);
void drawer_list(struct drawer *drawer); /* back to the list */
void drawer_times(struct drawer *drawer, bool open);
void drawer_move(struct drawer *drawer, const struct faults *faults, int by);
int drawer_row(const struct drawer *drawer, const struct faults *faults); /* under the cursor, or open; -1: none */

/* The times of a row, as far as they lie ahead: of one that was not put in, those chosen for it. */
struct ullage_course drawer_course(const struct drawer *drawer, const struct fault_row *row, double now);

/* Letters while something is searched for. False: the key is none of search's. */
bool drawer_search_key(struct drawer *drawer, int key);
void drawer_search(struct drawer *drawer);

/* The first line in sight where `lines` of `count` have room, the cursor among them. */
int drawer_top(int cursor, int count, int lines);

#endif
