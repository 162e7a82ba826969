/* scene.h  All that a frame is made from, and the questions that drawn parts ask of it. */
#ifndef VIEW_SCENE_H
#define VIEW_SCENE_H

#include "view/branches.h"
#include "view/frame.h"
#include "view/motion.h"
#include "view/plan.h"
#include "view/plate.h"
#include "view/snapshot.h"
#include "view/state.h"
#include "view/traces.h"

struct scene {
    const struct ullage_model *model;
    const struct plate *plate;
    const struct cast *cast;
    const struct snapshot *now;
    const double *told;                  /* [channels] values that figures show: a true moment, not newer than now */
    const struct ullage_cell *told_cell; /* [cells] of that moment, as in `now` */
    const struct view *view;
    const struct motion *motion;
    const struct plan *plan;
    const struct faults *faults;
    const struct traces *traces;
    const struct traces *behind, *sound; /* another branch; the sound run; null: none */
    const struct branches *branches;     /* null: a run that only goes forward */
};

/* Mole shares of what can be told apart by eye; sum 1. */
struct mix {
    double air, clean, smoke, vapor; /* clean: test gas without smoke; vapor: fuel */
};

double scene_value(const struct scene *scene, int part, enum quantity quantity);
double scene_told(const struct scene *scene, int part, enum quantity quantity); /* for figures */
double scene_told_flow(const struct scene *scene, int part);
/* Cells of a part's beds, and how many; 0: it has none. The same cell as figures show it. */
int scene_cells(const struct scene *scene, int part, const struct ullage_cell **cell);
const struct ullage_cell *scene_told_cell(const struct scene *scene, const struct ullage_cell *cell);
double scene_gauge(const struct scene *scene, int part); /* Pa; part -1 and NAN: 0 */
struct mix scene_mix(const struct scene *scene, int part);
unsigned scene_colour(const struct scene *scene, int part); /* pressure colour of a part's gas */
double scene_flow(const struct scene *scene, int part); /* m3/s standard, from `from` to `to`; 0 where there is none */
bool scene_joined(const struct scene *scene, int equipment);
bool scene_type(const struct scene *scene, int part, const char *type);
/* A number as the person has it: "3.00 kPa". */
const char *scene_text(const struct scene *scene, double si, int dimension, char *room, int size);

/* Name and figure beside a body, where the plate has found room for them. figure null or "": the name alone. */
void scene_words(struct frame *frame, const struct plate_body *body, const char *figure);

/* A place's letter in a ring. */
#define SCENE_LETTER 16.0 /* u, its radius */
void scene_letter(struct frame *frame, double x, double y, const char *letter, bool chosen);

extern const struct text_style scene_name_style, scene_figure_style, scene_small_style, scene_note_style;

#endif
