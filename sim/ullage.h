/* ullage.h  The one door to the physics bench: describe a system, run it, read it.
 *
 * Everything is SI inside: Pa, K, m3, mol, kg/s, s. `pressure` is absolute, `gauge_pressure` against the atmosphere of
 * that moment. Names are UTF-8. The library prints nothing, exits never, keeps no globals.
 *
 *     description   what a file, or a C program, says: parts, surroundings, procedure   (ullage_description_*)
 *       -> model    checked, indexed, immutable; any number of runs and threads share it (ullage_model_*)
 *       -> run      one experiment in time; owned by one thread                          (ullage_run_*)
 *       -> values   one number per channel at one moment, readings, verdicts, story, ledger
 *
 * Ownership: every `create`/`read` is undone by the `free` of the same name, which takes null. Strings handed out belong
 * to the object they were asked of and live as long as it does. No function keeps a pointer to an argument's text. */
#ifndef ULLAGE_H
#define ULLAGE_H

#include <signal.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* ---- dimensions and units ----------------------------------------------------------------------------------------
 * A dimension is the exponents of metre, kilogram, second, kelvin, mole, packed so that multiplying two quantities adds
 * their dimensions. */
#define ULLAGE_POWERS(metre, kilogram, second, kelvin, mole)                                                           \
    ((metre) + 32 * (kilogram) + 1024 * (second) + 32768 * (kelvin) + 1048576 * (mole))

enum ullage_dimension {
    ULLAGE_NUMBER = 0, /* pure numbers and shares */
    ULLAGE_LENGTH = ULLAGE_POWERS(1, 0, 0, 0, 0),
    ULLAGE_AREA = ULLAGE_POWERS(2, 0, 0, 0, 0), /* also permeability */
    ULLAGE_VOLUME = ULLAGE_POWERS(3, 0, 0, 0, 0),
    ULLAGE_TIME = ULLAGE_POWERS(0, 0, 1, 0, 0),
    ULLAGE_RATE = ULLAGE_POWERS(0, 0, -1, 0, 0),
    ULLAGE_SPEED = ULLAGE_POWERS(1, 0, -1, 0, 0),
    ULLAGE_MASS = ULLAGE_POWERS(0, 1, 0, 0, 0),
    ULLAGE_AMOUNT = ULLAGE_POWERS(0, 0, 0, 0, 1),
    ULLAGE_MOLAR_MASS = ULLAGE_POWERS(0, 1, 0, 0, -1),
    ULLAGE_DENSITY = ULLAGE_POWERS(-3, 1, 0, 0, 0),
    ULLAGE_PRESSURE = ULLAGE_POWERS(-1, 1, -2, 0, 0),
    ULLAGE_PRESSURE_RATE = ULLAGE_POWERS(-1, 1, -3, 0, 0),
    ULLAGE_TEMPERATURE = ULLAGE_POWERS(0, 0, 0, 1, 0),
    ULLAGE_MASS_FLOW = ULLAGE_POWERS(0, 1, -1, 0, 0),
    ULLAGE_AMOUNT_FLOW = ULLAGE_POWERS(0, 0, -1, 0, 1),
    ULLAGE_VOLUME_FLOW = ULLAGE_POWERS(3, 0, -1, 0, 0), /* standard flow: volume at 20 degC, 101325 Pa */
    ULLAGE_GIVE = ULLAGE_POWERS(4, -1, 2, 0, 0),        /* volume per pressure */
    ULLAGE_ENERGY = ULLAGE_POWERS(2, 1, -2, 0, 0),
    ULLAGE_POWER = ULLAGE_POWERS(2, 1, -3, 0, 0),
    ULLAGE_HEAT_CAPACITY = ULLAGE_POWERS(2, 1, -2, -1, 0),
    ULLAGE_HEAT_FLUX = ULLAGE_POWERS(0, 1, -3, 0, 0),      /* W/m2 */
    ULLAGE_HEAT_TRANSFER = ULLAGE_POWERS(0, 1, -3, -1, 0) /* W/m2/K */
};

/* One unit that files may use. si = number * factor + offset. */
struct ullage_unit {
    const char *name; /* as written: "inH2O" */
    enum ullage_dimension dimension;
    double factor, offset;
    const char *meaning;
};

/* All units in the order of the list; *count receives how many. */
const struct ullage_unit *ullage_units(int *count);

/* "kPa-like" SI name of a dimension ("Pa", "kg/s", "1"); composed ("m^2 s^-1") where none has a name of its own.
 * room must hold 64 bytes; returns room. */
const char *ullage_dimension_name(int dimension, char *room);

/* Reads "0.020 in", "14inH2O", "-3.5e2 Pa", "0.2 L/kPa", "40 %". Returns null and sets *si and *dimension, or a sentence
 * that says what is wrong (a static string). A bare number is of dimension ULLAGE_NUMBER. Never "inf", "nan", hex. */
const char *ullage_quantity_read(const char *text, double *si, int *dimension);

/* ---- problems: what a user got wrong, with its place ------------------------------------------------------------- */
struct ullage_place {
    const char *file; /* as named by the user; null: a C program */
    int line, column; /* from 1, in characters; 0: the file as a whole */
};

struct ullage_problem {
    struct ullage_place place;
    const char *wrong; /* what is wrong */
    const char *right; /* what would be right; may be empty */
};

enum ullage_outcome {
    ULLAGE_GOOD = 0,
    ULLAGE_BAD_INPUT = 2,   /* problems say what */
    ULLAGE_UNREADABLE = 4,  /* a file could not be read */
    ULLAGE_OUT_OF_MEMORY = 5
};

struct ullage_problems; /* a growing list, in the order found */
struct ullage_problems *ullage_problems_create(void);
void ullage_problems_free(struct ullage_problems *problems);
int ullage_problems_count(const struct ullage_problems *problems);
struct ullage_problem ullage_problems_at(const struct ullage_problems *problems, int index);

/* The name among `names` [count] that a misspelt word most likely meant; null: none is near enough to offer. */
const char *ullage_nearest(const char *word, const char *const *names, int count);

/* ---- descriptions ------------------------------------------------------------------------------------------------ */
struct ullage_description;

/* What a run may be told on top of its file. Null or zero: nothing. */
struct ullage_edits {
    const char *const *set; /* "leak.diameter=0.35mm", "surroundings.altitude=1500m", "let.limit=0.5mm"; [sets] */
    int sets;
    const char *const *fault; /* "leak tank.roof diameter=0.5mm from=10s"; [faults] */
    int faults;
    bool every_fault; /* every hole that its parts could have is made, of no size, and room for liquid, so that any fault may
                         be put in by hand. Such a run takes longer, and its bits are not those of one without */
    const char *const *search; /* folders searched for systems/ and procedures/ after the scenario's own; [searches] */
    int searches;
    const char *keep; /* a folder, made when needed, in which a conditioned canister is kept for the next time; null: none.
                         Results are the same to the bit with and without it */
    bool sound;       /* every fault of the scenario stands there without effect, so that all names stay good */
};

/* Reads a scenario file (path "-" is refused). Returns a description, or null with *outcome and problems filled.
 * edits may be null. A description that comes back may still hold problems only a model finds. */
struct ullage_description *ullage_description_read(const char *path, const struct ullage_edits *edits,
                                                   struct ullage_problems *problems, enum ullage_outcome *outcome);

/* A system alone, by its name or file, as a scenario in which nothing is done: for what there is to tell of it. */
struct ullage_description *ullage_description_of_system(const char *system, const struct ullage_edits *edits,
                                                        struct ullage_problems *problems,
                                                        enum ullage_outcome *outcome);

/* Checks a file of any kind (scenario, system, procedure) as far as it can be checked alone. */
enum ullage_outcome ullage_check(const char *path, const struct ullage_edits *edits, struct ullage_problems *problems);

/* What a file says of itself, for lists of files. Fields it lacks, or that are too long, are cut or "". False: it cannot
 * be read or is no file of ours. */
struct ullage_heading {
    char form[32];   /* "system/1" */
    char name[64];   /* its name */
    char about[512]; /* its sentences */
};
bool ullage_heading_read(const char *path, struct ullage_heading *heading);

/* A description made in C. `text` is what would stand in a file, in YAML: the same words, units and checks.
 *     d = ullage_description_text("ullage: scenario/1\n...", problems, &outcome) */
struct ullage_description *ullage_description_text(const char *text, struct ullage_problems *problems,
                                                   enum ullage_outcome *outcome);
void ullage_description_free(struct ullage_description *description);

/* ---- models ------------------------------------------------------------------------------------------------------ */
struct ullage_model;

/* Checks the whole and makes it ready to run. The description may be freed afterwards. Null with problems filled. */
struct ullage_model *ullage_model_create(const struct ullage_description *description,
                                         struct ullage_problems *problems);
void ullage_model_free(struct ullage_model *model);

const char *ullage_model_name(const struct ullage_model *model);   /* scenario's name */
const char *ullage_model_about(const struct ullage_model *model);  /* its sentence; may be empty */
const char *ullage_model_system(const struct ullage_model *model); /* system's name; may be empty */
uint64_t ullage_model_seed(const struct ullage_model *model);
double ullage_model_end(const struct ullage_model *model);  /* s; latest moment the run can reach; may be INFINITY */
double ullage_model_every(const struct ullage_model *model); /* s between recorded samples */

/* One part as the picture needs it. */
struct ullage_link { /* one end of a part: "from", "to", "of", "join" */
    const char *key;
    int part;            /* index of the part it names; -1: air; -2: nothing yet */
    const char *opening; /* "roof"; may be empty */
};
struct ullage_part {
    const char *id, *type; /* "vapor-line", "line" */
    const char *label;     /* `short` where given, else the id with spaces */
    bool equipment;        /* shop equipment */
    bool latent;           /* a hole that is not there unless it is put in by hand */
    bool placed;           /* x, y given */
    double x, y;           /* centre on the file's own grid, y downward */
    int turn;              /* 0, 90, 180, 270 */
    const char *shape;     /* of a tank: "box", "saddle", "cylinder", "drum"; else "" */
    int links;
    struct ullage_link link[4];
};
int ullage_model_parts(const struct ullage_model *model);
struct ullage_part ullage_model_part(const struct ullage_model *model, int index);
int ullage_model_find_part(const struct ullage_model *model, const char *id); /* -1: none */

/* A parameter's value as the model has it (SI); NAN where the part has none of that name. */
double ullage_model_parameter(const struct ullage_model *model, int part, const char *name);
/* A word of the part ("normally", "gas", "shape"); null where it has none. */
const char *ullage_model_word(const struct ullage_model *model, int part, const char *name);

/* How many cells the beds of a part have, all together; 0: the part has no bed. */
int ullage_model_cells(const struct ullage_model *model, int part);

/* One number a person can see: "tank.pressure". The same name is CSV column, chart, reading and JSON key. */
struct ullage_channel {
    const char *name;     /* "tank.gauge_pressure"; "time"; "air.pressure" */
    int part;             /* -1: air or time */
    const char *quantity; /* "gauge_pressure" */
    int dimension;
    const char *meaning;
};
int ullage_model_channels(const struct ullage_model *model);
struct ullage_channel ullage_model_channel(const struct ullage_model *model, int index);
int ullage_model_find_channel(const struct ullage_model *model, const char *name); /* -1: none */

/* Channels kept by `record`, in order: indices into the model's channels. */
int ullage_model_recorded(const struct ullage_model *model);
int ullage_model_recorded_channel(const struct ullage_model *model, int index);

/* The steps of the procedure as a person reads them, flattened in file order. */
struct ullage_step {
    const char *verb;  /* "wait", "set", "join", "part_from", "read", "judge", "say", "repeat", "when" */
    const char *title; /* the step's `name:` if it has one, else made from its content: "Vent valve shut" */
    bool named;        /* the title stands in the file: worth telling even where nothing else happens */
    int depth;         /* 0; one more inside each repeat or when */
    double least, most; /* s; what it may last: 0, 0 for all but wait */
    const char *condition; /* what a wait waits for, as text; "" if a plain time */
    bool gas;           /* puts gas on the system: the cautions belong beside it */
};
int ullage_model_steps(const struct ullage_model *model);
struct ullage_step ullage_model_step(const struct ullage_model *model, int index);

/* Values named in `let`, in order. */
int ullage_model_lets(const struct ullage_model *model);
const char *ullage_model_let(const struct ullage_model *model, int index, double *value, int *dimension);

/* ---- runs -------------------------------------------------------------------------------------------------------- */
struct ullage_run;

struct ullage_method {
    const char *solver; /* "bdf" (default) or "msbdf" */
    double tolerance;   /* the one number r; 0: 1e-6 */
    uint64_t seed;      /* used where seeded is true, else the model's */
    bool seeded;
};

/* method may be null. Null only when memory is out or the method is unknown. */
struct ullage_run *ullage_run_create(const struct ullage_model *model, const struct ullage_method *method);
void ullage_run_free(struct ullage_run *run);

enum ullage_status {
    ULLAGE_PAUSED,   /* at `time`; more to come */
    ULLAGE_FINISHED, /* the procedure is over or the scenario's end is reached: ullage_run_time says when */
    ULLAGE_STUCK,    /* the numbers failed: the run keeps its last good moment, ullage_run_trouble says why */
    ULLAGE_STOPPED   /* *stop became non-zero */
};

/* Follows the physics and the procedure to `time` (s since the start; INFINITY: to the end), or to where it ends.
 * Nothing is allocated while stepping; the story, readings and samples grow between steps. */
enum ullage_status ullage_run_advance(const struct ullage_model *model, struct ullage_run *run, double time);

/* A flag that a signal handler sets; looked at before every step. May be null. */
void ullage_run_heed(struct ullage_run *run, const volatile sig_atomic_t *stop);

double ullage_run_time(const struct ullage_run *run);
const char *ullage_run_trouble(const struct ullage_run *run); /* "" when there is none */

/* Commands from the hand, at the present moment: a part and what the procedure's `set` would say ("vent-valve","shut";
 * "leak","plugged"; "cap","50 %"), a live parameter ("leak.diameter","0.7 mm"), or what is wrong ("seal-leak tank.neck",
 * "0.5 mm" or "off"; see ullage_model_fault), or the surroundings ("surroundings.temperature", "35 degC ramp=20min"; see
 * ullage_weather). A fault may say when it is there: "0.5 mm from=10min ramp=30s until=20min every=60s
 * for=20s" has the keys of a file's fault; what is left out is as there, and without `from` it begins now. A size alone changes one
 * that has come, in its course, and puts in any other from now on, to stay; `until` alone sets an end to one that has come.
 * Returns null, or a sentence that says what is wrong. What is done here is not
 * part of the procedure; the story tells it. What had been ordered for later is forgotten, but by a history, which keeps it
 * as a branch. */
const char *ullage_run_command(const struct ullage_model *model, struct ullage_run *run, const char *what,
                               const char *value);

/* What was done by hand up to the present moment, in order. */
struct ullage_order {
    double time;
    const char *what, *value; /* as ullage_run_command takes them */
    bool fault;               /* puts a fault in, changes one or takes one out: what a sound run leaves out */
};
int ullage_run_orders(const struct ullage_run *run);
struct ullage_order ullage_run_order(const struct ullage_run *run, int index);

/* One number per channel at the present moment. value[channels]; off_scale[channels] receives +1 above the
 * instrument's range, -1 below it, 0 inside; it may be null. */
void ullage_run_values(const struct ullage_model *model, const struct ullage_run *run, double *value,
                       signed char *off_scale);

/* What a bed looks like inside, at the present moment: one cell of it. */
struct ullage_cell {
    double from, to;    /* 0: the tank's side .. 1: the air's side, by length over all beds of the part */
    double load;        /* kg of fuel vapor that its carbon holds; 0 in a bed without carbon */
    double full;        /* kg of n-butane that the same carbon would hold at 101325 Pa of it and 25 degC: what a load is
                           told against (a load of heavier vapors may pass it); 0 in a bed without carbon */
    double temperature; /* K, of gas and carbon */
    double vapor;       /* mole share of fuel in its gas */
};

/* cell[ullage_model_cells(model, part)], from the tank's side to the air's. */
void ullage_run_cells(const struct ullage_model *model, const struct ullage_run *run, int part,
                      struct ullage_cell *cell);

/* Recorded samples so far: row r holds [1 + recorded channels] numbers, time first. */
int ullage_run_samples(const struct ullage_run *run);
const double *ullage_run_sample(const struct ullage_run *run, int row);

/* One recorded channel of two runs or branches, over the moments that both have recorded. */
struct ullage_difference {
    double parts_at;    /* s; the first at which they differ by more than 1e-4 of all the channel does there; NAN: none */
    double largest, at; /* other - one where that is largest by size, SI; s; 0 and NAN where they never differ */
    double mean;        /* root mean square of other - one */
};

/* Column `recorded` of what one run has recorded, beside column `its` of another's, of the same model or of one that records the
 * same thing. Returns how many moments were compared: what stands in *difference is of those. */
int ullage_run_compare(const struct ullage_run *one, int recorded, const struct ullage_run *other, int its,
                       struct ullage_difference *difference);

struct ullage_reading {
    const char *name;
    double value; /* SI */
    int dimension;
    int over; /* +1: off the upper end of its scale, -1: under the lower end; the value stands at that end */
    double time;
    const char *channel; /* the channel it is, or "" where it is computed from several */
};
int ullage_run_readings(const struct ullage_run *run);
struct ullage_reading ullage_run_reading(const struct ullage_run *run, int index); /* in order; same name: later ones too */
/* All channels as they stood when the reading was taken [ullage_model_channels]: what the report explains it with. */
const double *ullage_run_reading_values(const struct ullage_run *run, int index);

enum ullage_result { ULLAGE_PASS, ULLAGE_FAIL, ULLAGE_OPEN };
struct ullage_verdict {
    const char *name, *reason; /* because: */
    enum ullage_result result;
    double time;
};
int ullage_run_verdicts(const struct ullage_run *run);
struct ullage_verdict ullage_run_verdict(const struct ullage_run *run, int index);

/* The story: what happened, in order, for the report and the picture to put into words. */
enum ullage_event_kind {
    ULLAGE_STEP_BEGUN,   /* step */
    ULLAGE_STEP_ENDED,   /* step */
    ULLAGE_WAIT_EXPIRED, /* step: at_most came before the condition */
    ULLAGE_COMMANDED,    /* subject = part or part.parameter, text = the word or value, number = SI value or opening; or
                             subject = "surroundings.temperature", text = "to 35 degC within 20 min" */
    ULLAGE_JOINED,       /* subject = equipment, text = port */
    ULLAGE_PARTED,       /* subject = equipment */
    ULLAGE_READ,         /* number = index of the reading */
    ULLAGE_JUDGED,       /* number = index of the verdict */
    ULLAGE_SAID,         /* text */
    ULLAGE_FAULT_CHANGED, /* subject = fault, text = "begins", "ends" */
    ULLAGE_SWITCHED       /* subject = part that opened or shut by itself, text = "opens", "opens inward",
                             "shuts"; of a cap, "relief opens" and so on; where that goes on and on, the first times
                             and then "goes on opening and shutting" once */
};
struct ullage_event {
    double time;
    enum ullage_event_kind kind;
    int step; /* -1: none */
    bool by_hand;
    const char *subject, *text;
    double number;
};
int ullage_run_events(const struct ullage_run *run);
struct ullage_event ullage_run_event(const struct ullage_run *run, int index);

/* Where the procedure stands: index of the present step, or -1 before, -2 after it. share: how far its wait is, 0..1. */
int ullage_run_step(const struct ullage_run *run, double *since, double *share);

/* The ledger. Rows: every species present, then "energy". mol, J. Booked so that in - out - stored_change = residual. */
struct ullage_ledger_row {
    const char *name;
    bool fuel;         /* a component of fuel: neither air, test gas, tracer nor the energy */
    double molar_mass; /* kg/mol; 0 of what has none of its own: tracers, energy */
    double in, out, stored_start, stored_change, residual, scale;
};
int ullage_model_ledger_rows(const struct ullage_model *model);
struct ullage_ledger_row ullage_run_ledger(const struct ullage_model *model, const struct ullage_run *run, int row);

/* What passed one opening to the outside (or a supply, or the engine): mol of a species, both ways. */
struct ullage_opening_row {
    const char *part; /* id of the part it went through */
    const char *species;
    double in, out;    /* mol */
    double molar_mass; /* kg/mol */
    bool fuel;         /* vapor of a component of the fuel */
    bool poured;       /* liquid that a fault brought in or took: `part` is what that is called */
};
int ullage_model_opening_rows(const struct ullage_model *model);
struct ullage_opening_row ullage_run_opening(const struct ullage_model *model, const struct ullage_run *run, int row);

/* The fuel in the ledger, all its components together, by where it is: kg. All 0 in a model without fuel. */
struct ullage_store {
    double start, now;
};
struct ullage_fuel {
    struct ullage_store liquid, gas, carbon; /* gas: vapor in all gas spaces, lines and beds too */
    double in, out;                          /* past all openings */
    double drained;                          /* what ran out as liquid, less what was filled in */
    double residual;                         /* of the component whose residual is the largest */
};
struct ullage_fuel ullage_run_fuel(const struct ullage_model *model, const struct ullage_run *run);

struct ullage_effort {
    const char *method; /* "bdf" */
    int64_t steps, derivatives, jacobians, factorizations, rejected, newton_failures;
    int64_t restarts;     /* times it began anew: at corners of inputs, commands, switches */
    int64_t longest;      /* most steps between two such times */
    double largest_drift; /* Pa; pressure state against the equation of state */
};
struct ullage_effort ullage_run_effort(const struct ullage_run *run);

/* Hash of time, state and inputs: equal runs have equal hashes. */
uint64_t ullage_run_hash(const struct ullage_run *run);

/* ---- history: back to any moment, and on from there another way --------------------------------------------------
 * Moments of a run are kept as it is advanced through its history, so that any moment is reached again with the bits it had.
 * A command at a moment before the latest one begins a branch: what stood after it stays, and the run goes on another way.
 * All branches share the past they have in common. A history of ullage_run_create's other method ("msbdf"), which starts
 * afresh wherever it is taken back to, is right to the tolerance instead. */
struct ullage_history;

enum {
    ULLAGE_BRANCHES_MOST = 12, /* where one more is begun, the oldest that was given no name and is not the present one is
                                  forgotten; where there is none, the command is refused */
    ULLAGE_SOUND = -1          /* in place of a branch: the sound run that goes along */
};

/* The run stays the caller's; freed after its history. Null: memory. */
struct ullage_history *ullage_history_create(const struct ullage_model *model, struct ullage_run *run);
void ullage_history_free(struct ullage_history *history);

/* On along the present branch: to its latest moment first, where that has not been reached again. */
enum ullage_status ullage_history_advance(struct ullage_history *history, double time);
/* Takes the run to any moment between 0 and the latest one of the present branch. Goes by the nearest kept moment before and
 * integrates on from there. */
enum ullage_status ullage_history_go(struct ullage_history *history, double time);
double ullage_history_latest(const struct ullage_history *history); /* of the present branch */

struct ullage_branch {
    const char *name; /* the one it was given; else "first", or what was done to begin it: "vent-valve shut" */
    bool named;       /* it was given one */
    int parent;       /* the branch it left; -1: none */
    double parted_at; /* s; 0 of the first */
    double latest;    /* s; up to where it has been followed */
    int64_t born;     /* counts up: tells a branch from another that later stands in its place */
};

/* In the order they were begun; the first is 0, a new one the last. Forgetting one moves those after it up. */
int ullage_history_branches(const struct ullage_history *history);
struct ullage_branch ullage_history_branch(const struct ullage_history *history, int branch);
int ullage_history_present(const struct ullage_history *history); /* the branch that the run is on */
/* Gives it a name of up to 60 bytes that no other has. Returns null, or a sentence that says what is wrong. */
const char *ullage_history_branch_name(struct ullage_history *history, int branch, const char *name);
/* Takes the run to another branch, at the moment it stands at now, or the branch's latest where that is earlier. */
enum ullage_status ullage_history_switch(struct ullage_history *history, int branch);
/* False: it is the first, or the present one. Branches that left it stand as if they had left its parent. */
bool ullage_history_forget(struct ullage_history *history, int branch);

/* The sound run: `sound`, a model of the same scenario made with edits.sound, follows the same commands but those that put in
 * faults, to the same moments, along the present branch. It stays the caller's and outlives the history. Costs as much
 * time as the run itself. False: memory, or no model of the same scenario. */
bool ullage_history_accompany(struct ullage_history *history, const struct ullage_model *sound);

/* What a branch, or ULLAGE_SOUND, has recorded up to its latest moment: rows as ullage_run_sample has them. Without a sound
 * run that has none. Good until the run is advanced, commanded or taken elsewhere. */
int ullage_history_samples(const struct ullage_history *history, int branch);
const double *ullage_history_sample(const struct ullage_history *history, int branch, int row);
/* All channels of a branch, or of ULLAGE_SOUND, at any moment that it has reached [channels]; off_scale may be null. The run stays
 * where it is. False: it has not been there. */
bool ullage_history_values(struct ullage_history *history, int branch, double time, double *value,
                           signed char *off_scale);

/* How what a hand can change stood on a branch, or on ULLAGE_SOUND, at a moment that it has reached: by what it was told, without
 * going there. what: a live parameter ("leak.diameter", SI), a part ("leak": its opening), a fault ("seal-leak tank.neck": its size;
 * 0 while it is not there). NAN: there is no such thing, or it has not been there. */
double ullage_history_setting(const struct ullage_history *history, int branch, double time, const char *what);

/* difference[ullage_model_recorded(model)]. Returns how many moments were compared. Either may be ULLAGE_SOUND. */
int ullage_history_compare(const struct ullage_history *history, int one, int other,
                           struct ullage_difference *difference);
/* The moment from which two branches were told different things, or one was told something and the other was not; INFINITY:
 * there is none; 0 of the sound run. Up to then two branches are the same to the bit. */
double ullage_history_parting(const struct ullage_history *history, int one, int other);

/* ---- recordings: what a run was told, written down so that it can be done again ------------------------------------------
 * A text of the form recording/1: the scenario, its edits, seed and method, every command with its time, and at the end the
 * moment and the hash of the run there. */

/* What `run` was told up to now, as a text; scenario: how it is called there. edits: those the model was made with, or null.
 * Given back by ullage_text_free. Null: memory. */
char *ullage_recording_text(const struct ullage_run *run, const char *scenario, const struct ullage_edits *edits);
void ullage_text_free(char *text);

struct ullage_recording;
/* Null with *outcome and problems filled. */
struct ullage_recording *ullage_recording_read(const char *path, struct ullage_problems *problems,
                                               enum ullage_outcome *outcome);
void ullage_recording_free(struct ullage_recording *recording);

struct ullage_recorded {
    const char *scenario, *name; /* as it was called then; the model's name */
    struct ullage_method method;
    struct ullage_edits edits; /* set, fault and every_fault of them */
    double end;                /* s */
    uint64_t hash;             /* of the run there */
    int commands;
};
struct ullage_recorded ullage_recording_about(const struct ullage_recording *recording);
struct ullage_order ullage_recording_command(const struct ullage_recording *recording, int index); /* in order of time */
/* Are all of its commands such that this model takes them? Problems say which are not. */
bool ullage_recording_suits(const struct ullage_recording *recording, const struct ullage_model *model,
                            struct ullage_problems *problems);

/* ---- what was built by hand, as a scenario of its own -------------------------------------------------------------------- */

/* The text of a scenario that does by itself what `run` has been through: the one at `path` with its edits made, the system and
 * procedure that it names put in; faults that were put in by hand stand among its `faults`, from when to when, and all else
 * that was done, with its time, under `by_hand`. path and edits are those of the
 * run's model. Given back by ullage_text_free. Null with *outcome and problems filled. */
char *ullage_scenario_text(const char *path, const struct ullage_edits *edits, const struct ullage_run *run,
                           struct ullage_problems *problems, enum ullage_outcome *outcome);

/* ---- what there is: tables behind `list` and --help --------------------------------------------------------------- */
struct ullage_kind {
    const char *name, *meaning; /* "valve", "opens and shuts a way for gas" */
};
int ullage_kinds(void);
struct ullage_kind ullage_kind_at(int index);

struct ullage_parameter {
    const char *name, *meaning;
    const char *form; /* "number", "word", "end", "command", "table" */
    const char *list; /* "beds": every item of that list has one, set by the item's number: beds.1.NAME; else "" */
    int dimension;
    double usual, least, most; /* SI; usual NAN: must be given; usual < least: worked out where it is left out */
    char choices[160];         /* words, "open shut"; "" for numbers */
};
int ullage_kind_parameters(int kind);
struct ullage_parameter ullage_kind_parameter(int kind, int index);

/* What can be wrong with parts of a kind. One has one size, of which 0 is nothing wrong and little is little; `least` to
 * `most` is what is met with, and `usual` NAN where a file has to say it. */
struct ullage_fault {
    const char *name;            /* "seal-leak" */
    const char *size;            /* key of its size: "diameter", "share", "offset" */
    int dimension;
    double least, usual, most;   /* SI; least < 0: either way. Of a temperature: a difference, K */
    const char *comes, *changes; /* how it comes about; what readings show */
    bool hole;                   /* a way out of its own: has to be there when the model is made */
    bool poured;                 /* liquid fuel: it comes and goes over a while, and not again and again */
};
int ullage_kind_faults(int kind);
struct ullage_fault ullage_kind_fault(int kind, int index);
/* Holes that can be in anything that keeps gas. */
int ullage_plain_holes(void);
struct ullage_fault ullage_plain_hole(int index);

/* What can be wrong with the parts of a model: first what its file says, in order, then all that may come by hand; holes only
 * where the file has them, or every_fault was asked for. By hand: ullage_run_command(model, run, what, "0.5 mm"), which puts it
 * in, or makes it larger or smaller, or "off". */
struct ullage_model_fault {
    const char *what;    /* "seal-leak tank.neck" */
    const char *id;      /* in the file; "": it is not there */
    int part;            /* whose it is */
    const char *opening; /* of the part; may be empty */
    int hole;            /* the part that it is; -1 */
    bool ready;          /* it can be put in by hand: always with every_fault, where there is fuel for those of it */
    struct ullage_fault fault;
};
int ullage_model_faults(const struct ullage_model *model);
struct ullage_model_fault ullage_model_fault(const struct ullage_model *model, int index);

/* When a fault is there, s since the run's start: from `from` until `until`, its size coming on over `ramp`; where every > 0 again
 * and again, every `every` for `lasts`, counted from `from`. */
struct ullage_course {
    double from, ramp, until, every, lasts; /* until INFINITY: it stays */
};

/* How it is at the present moment. It is in where size and share are not 0; since when, this time, in s. One that has a size and a
 * finite `begins` but no share waits for that moment, or for its next turn. */
struct ullage_fault_now {
    double size, share, since;   /* share: of its size, 0..1, as it comes on */
    double begins;               /* s; INFINITY: it is over, or was never put in */
    struct ullage_course course; /* of one that has a size */
};
struct ullage_fault_now ullage_run_fault(const struct ullage_model *model, const struct ullage_run *run, int index);

/* What of the surroundings can be changed while a run goes on. By hand: ullage_run_command(model, run, key,
 * "35 degC ramp=20min"), which goes straight from where it is to that, within `soonest` where no time is told, and stays there;
 * "as-in-file" goes back to what the file has in the same way, and on with that. An altitude changes the pressure of the air
 * alone, to that of the standard atmosphere: what driving up a hill does. */
struct ullage_weather {
    const char *key;     /* "surroundings.temperature" */
    const char *label;   /* "air temperature" */
    const char *channel; /* "air.temperature"; "" of the altitude */
    const char *meaning;
    int dimension;
    double least, most; /* SI */
    double soonest;     /* s: less it never takes */
};
int ullage_weathers(void);
struct ullage_weather ullage_weather_at(int index);

/* How it is at the present moment. */
struct ullage_weather_now {
    double value;        /* SI; of the altitude: where the standard atmosphere is as thick */
    bool by_hand;        /* it goes to, or stands at, what a hand or the procedure has told */
    double to;           /* what; NAN: it is not by hand */
    double begins, ends; /* s: of its way there, or back to what the file has; 0: there was none */
};
struct ullage_weather_now ullage_run_weather(const struct ullage_model *model, const struct ullage_run *run, int index);

/* The smallest thin sharp round hole that passes `flow` [mol/s] of air at 20 degC from `gauge` [Pa] over `ambient` [Pa];
 * for scales on the picture and worked examples. */
double ullage_hole_for_air(double flow, double gauge, double ambient);

#endif
