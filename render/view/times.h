/* times.h  When a fault is there, as a person has it: five lines, each in words, stepped, or typed. A course that was not put in yet
 * stands in the drawer; `from` NAN is the present moment. */
#ifndef VIEW_TIMES_H
#define VIEW_TIMES_H

#include "view/faults.h"

enum time_line { TIME_BEGINS, TIME_OVER, TIME_ENDS, TIME_AGAIN, TIME_LASTS, TIME_LINES };

/* The clock that they are told against. */
struct times_clock {
    double now, whole; /* s; the end of the axis */
};

bool fault_timed(const struct fault_row *row); /* it can be told when to come: no hole of the system itself */

/* From now on, at once, to stay. */
struct ullage_course times_usual(void);
bool times_are_usual(const struct ullage_course *course);
/* Those of a fault that was put in, as far as they still lie ahead: what has begun began by now. */
struct ullage_course times_of(const struct fault_row *row);
/* How long each turn lasts is asked only of what comes again, and liquid does not. */
int times_lines(const struct fault_row *row, const struct ullage_course *course);

const char *time_name(enum time_line line);
const char *time_words(const struct ullage_course *course, enum time_line line, struct times_clock clock, char *room,
                       int size);
/* All of it: "from 2:00, over 30 s, until 5:00"; "from now on". */
const char *times_words(const struct ullage_course *course, struct times_clock clock, char *room, int size);
const char *span_text(double seconds, char *room, int size); /* "30 s", "2 min" */

/* One line by a step up or down; back to the usual; or as typed: "2:00", "30 s", "45". Null, or what is wrong. What cannot stand
 * beside it gives way. */
void times_step(struct ullage_course *course, enum time_line line, int steps, struct times_clock clock);
void times_clear(struct ullage_course *course, enum time_line line);
const char *times_typed(struct ullage_course *course, enum time_line line, const char *typed, struct times_clock clock);

/* A size with its times, as a command takes it: "0.5 mm from=2 min". end_alone: nothing but an end is told of it. */
const char *times_value(const struct fault_row *row, double size, const struct ullage_course *course, double now,
                        bool end_alone, char *room, int room_size);

#endif
