/* piece.h  The pipe that a valve of any kind sits in: its ports, its gas, its open ends, the word for how far it is open.
 *
 * Local coordinates: `from` is left and `to` right, each at the middle of the pipe; where one is the atmosphere the pipe goes
 * on to a filter. */
#ifndef VIEW_PART_PIECE_H
#define VIEW_PART_PIECE_H

#include "view/part/part.h"

#define PIECE_PIPE_HALF 12.5
#define PIECE_HALF 44.0       /* u of pipe to each side */
#define PIECE_OPEN_FROM 0.995 /* openings that are called so */
#define PIECE_SHUT_BELOW 0.0005

/* Wider by the filters of open ends and higher by what stands over them; those ends at height y, or in the middle. */
void piece_measure(const struct plate *plate, struct plate_body *body);
void piece_measure_at(struct plate_body *body, double y);
bool piece_port(const struct plate_body *body, const char *key, const char *opening, struct plate_port *port);

void piece_still(struct frame *frame, const struct scene *scene, const struct plate_body *body);
void piece_gas(struct frame *frame, const struct scene *scene, const struct plate_body *body);

/* Which part's gas stands before (0) or behind (1) it. */
int piece_side_gas(const struct scene *scene, int part, int side);

/* The open end of a side at height y: marks that stream, pipe from `near` to the filter, filter and what lies outside. Nothing
 * where the side is not the atmosphere. Marks go under what is drawn next. */
void piece_stream(struct frame *frame, const struct scene *scene, const struct plate_body *body, int side, double y);
void piece_outside(struct frame *frame, const struct scene *scene, const struct plate_body *body, int side, double y);
void piece_filter(struct frame *frame, double x, double y);
double piece_far(const struct plate_body *body, int side); /* u from the middle to where its pipe ends */

/* The true opening; 1 where the part has none. And its name with "open", "shut", "open 12 %". */
double piece_opening(const struct scene *scene, int part);
void piece_words(struct frame *frame, const struct plate_body *body, double opening);

#endif
