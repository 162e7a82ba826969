/* intent.c  Keys and mouse. Everything can be done by the left button and the wheel alone, and by keys alone. */
#include "view/intent.h"

#include "view/chart/chart.h"
#include "view/charts.h"
#include "view/column.h"
#include "view/intent_drawer.h"
#include "view/part/part.h"
#include "view/ways_page.h"
#include "view/weather_page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DRAG_FROM 6.0  /* u: less is a click */
#define DRAG_FULL 90.0 /* u of drag from shut to open */
#define PINHOLE 0.002  /* opening that the first bit of a drag gives */
#define TIME_STEP 0.01 /* of the clock's axis, for arrows */

static const struct intent nothing = {INTENT_NONE, 0, 0.0, "", ""};

/* ---- rates --------------------------------------------------------------------------------------------------------- */
static double rate_near(double rate)
{
    const double decade = pow(10.0, floor(log10(rate) + 1e-9)), lead = rate / decade;
    return decade * (lead < 1.5 ? 1.0 : lead < 3.5 ? 2.0 : 5.0);
}

double rate_faster(double rate)
{
    const double at = rate_near(rate), lead = at / pow(10.0, floor(log10(at) + 1e-9));
    return fmin(at * (lead > 1.5 && lead < 3.0 ? 2.5 : 2.0), RATE_MOST);
}

double rate_slower(double rate)
{
    const double at = rate_near(rate), lead = at / pow(10.0, floor(log10(at) + 1e-9));
    return fmax(at / (lead > 3.0 ? 2.5 : 2.0), RATE_LEAST);
}

/* ---- commands ------------------------------------------------------------------------------------------------------ */
static struct intent go_to(double time)
{
    struct intent intent = nothing;
    intent.kind = INTENT_GO;
    intent.number = fmax(time, 0.0);
    return intent;
}

static struct intent command(const struct scene *scene, int part, const char *parameter, const char *value)
{
    struct intent intent = nothing;
    intent.kind = INTENT_COMMAND;
    snprintf(intent.what, sizeof intent.what, "%s%s%s", ullage_model_part(scene->model, part).id, *parameter ? "." : "",
             parameter);
    snprintf(intent.value, sizeof intent.value, "%s", value);
    return intent;
}

static double opening_of(const struct scene *scene, int part)
{
    const double opening = scene_value(scene, part, OPENING), rate = scene_value(scene, part, RATE);
    if (isfinite(rate)) /* a nozzle that has shut itself off still has its lever locked */
        return rate > 0.0 || scene_value(scene, part, SHUT_OFF) > 0.5 ? 1.0 : 0.0;
    return isfinite(opening) ? opening : 1.0;
}

/* The words of each kind for shut and open. */
static const struct {
    const char *type, *shut, *open;
} ends[] = {{"valve", "shut", "open"},
            {"hole", "plugged", "open"},
            {"cap", "on", "off"},
            {"supply", "off", "on"},
            {"nozzle", "off", "filling"}};

static struct intent open_to(const struct scene *scene, int part, double opening)
{
    char share[32];
    for (size_t k = 0; k < sizeof ends / sizeof ends[0]; k++) {
        if (!scene_type(scene, part, ends[k].type))
            continue;
        if (opening <= 0.0 || opening >= 1.0)
            return command(scene, part, "", opening <= 0.0 ? ends[k].shut : ends[k].open);
        snprintf(share, sizeof share, "%.3g %%", 100.0 * opening);
        return command(scene, part, "", share);
    }
    return nothing;
}

static struct intent toggle(const struct scene *scene, int part)
{
    return open_to(scene, part, opening_of(scene, part) < 0.5 ? 1.0 : 0.0);
}

/* The row of the faults that a hole is; -1: it has none. */
static int hole_row(const struct scene *scene, int part)
{
    for (int k = 0; part >= 0 && k < scene->faults->count; k++)
        if (scene->faults->row[k].hole == part)
            return k;
    return -1;
}

/* A hole opens its ruler; once that is open, it is opened or plugged. */
static struct intent hole_act(struct view *view, const struct scene *scene, int row)
{
    if (view->page == PAGE_FAULTS && view->drawer.row == row)
        return drawer_toggle(scene, row);
    drawer_open_row(view, scene, row);
    return nothing;
}

static bool in_drawer(const struct view *view)
{
    return view->page == PAGE_FAULTS;
}

/* ---- focus ---------------------------------------------------------------------------------------------------------- */
static bool takes_focus(const struct scene *scene, int body)
{
    return scene->plate->body[body].part >= 0;
}

static void focus_move(struct view *view, const struct scene *scene, int by)
{
    const struct plate *plate = scene->plate;
    int at = -1;
    for (int k = 0; k < plate->bodies; k++)
        if (plate->order[k] == view->focus)
            at = k;
    for (int tries = 0; tries < plate->bodies; tries++) {
        at = at < 0 && by < 0 ? plate->bodies - 1 : (at + by + plate->bodies) % plate->bodies;
        if (takes_focus(scene, plate->order[at])) {
            view->focus = plate->order[at];
            view->hover = -1;
            return;
        }
    }
}

static int focus_part(const struct scene *scene)
{
    return scene->view->focus >= 0 ? scene->plate->body[scene->view->focus].part : -1;
}

/* A valve or cap with the focus is moved by a twentieth; from nothing it starts with a pinhole. */
static struct intent focus_nudge(const struct scene *scene, int part, int up, bool fine)
{
    const double now = opening_of(scene, part);
    const double step = fine ? 0.01 : 0.05;
    double wanted = now + up * step;
    if (up > 0 && now <= 0.0)
        wanted = PINHOLE;
    else if (up > 0 && now < step)
        wanted = step;
    return open_to(scene, part, wanted);
}

/* ---- keys ----------------------------------------------------------------------------------------------------------- */
static double time_step(const struct scene *scene, bool fine)
{
    double tick;
    return plan_whole(scene->plan, scene->now, &tick) * TIME_STEP * (fine ? 0.1 : 1.0);
}

static struct intent arrow_key(const struct input *input, const struct scene *scene)
{
    const int part = focus_part(scene);
    const int up = input->key == KEY_UP ? 1 : input->key == KEY_DOWN ? -1 : 0;
    if (!up)
        return go_to(scene->now->time + (input->key == KEY_RIGHT ? 1.0 : -1.0) * time_step(scene, input->shift));
    if (part >= 0 && (scene_type(scene, part, "valve") || scene_type(scene, part, "cap")))
        return focus_nudge(scene, part, up, input->shift);
    return nothing;
}

static struct intent enter_key(struct view *view, const struct scene *scene)
{
    const int part = focus_part(scene), row = hole_row(scene, part);
    if (part < 0)
        return nothing;
    return row >= 0 ? hole_act(view, scene, row) : toggle(scene, part);
}

static void escape_key(struct view *view)
{
    if (view->help)
        view->help = false;
    else if (view->focus >= 0)
        view->focus = -1;
    else if (view->page == PAGE_AIR ? !weather_escape(view)
                                    : view->page == PAGE_WAYS || (in_drawer(view) && !drawer_back(view)))
        view->page = PAGE_STEPS;
    view->message[0] = '\0';
}

static void page_turn(struct view *view, const struct scene *scene, enum page page)
{
    if (!page_holds(scene, page))
        return;
    const int part = focus_part(scene);
    if (page == PAGE_FAULTS && part >= 0 && drawer_open_part(view, scene, part))
        return;
    if (page == PAGE_WAYS)
        view->ways = (struct ways_view){.cursor = scene->branches->present};
    if (page == PAGE_FAULTS) /* from wherever it stands, to all of them */
        drawer_begin(&view->drawer);
    weather_escape(view);
    view->typed[0] = '\0';
    view->page = page;
}

/* Letters and signs that change only what is seen. */
static bool view_key(int key, struct view *view, const struct scene *scene)
{
    switch (key) {
    case KEY_SPACE:
        view->playing = !view->playing;
        return true;
    case '[':
    case '-':
        view->rate = rate_slower(view->rate);
        return true;
    case ']':
    case '+':
    case '=':
        view->rate = rate_faster(view->rate);
        return true;
    case 's':
        page_turn(view, scene, PAGE_STEPS);
        return true;
    case 'r':
        page_turn(view, scene, PAGE_READINGS);
        return true;
    case 'e':
        page_turn(view, scene, PAGE_ENGINE);
        return true;
    case 'f':
        page_turn(view, scene, PAGE_FAULTS);
        return true;
    case 'a':
        page_turn(view, scene, PAGE_AIR);
        return true;
    case 'y':
        page_turn(view, scene, PAGE_WAYS);
        return true;
    case 'u':
        view->units = view->units == UNITS_METRIC ? UNITS_INCH : UNITS_METRIC;
        return true;
    case 'b':
        view->bright = !view->bright;
        return true;
    case '?':
        view->help = !view->help;
        return true;
    default:
        return false;
    }
}

static struct intent branch_to(int branch)
{
    struct intent intent = nothing;
    intent.kind = INTENT_BRANCH;
    intent.part = branch;
    return intent;
}

static struct intent branch_next(const struct scene *scene)
{
    const struct branches *branches = scene->branches;
    return branches->count > 1 ? branch_to((branches->present + 1) % branches->count) : nothing;
}

static struct intent key_intent(const struct input *input, struct view *view, const struct scene *scene)
{
    struct intent intent = nothing;
    const int key = input->key >= 'A' && input->key <= 'Z' ? input->key - 'A' + 'a' : input->key;
    if (in_drawer(view) && !view->help && drawer_key(input, view, scene, &intent))
        return intent;
    if (view->page == PAGE_AIR && !view->help && weather_page_key(input, view, scene, &intent))
        return intent;
    if (view->page == PAGE_WAYS && !view->help && ways_key(input, view, scene, &intent))
        return intent;
    if (view_key(key, view, scene))
        return intent;
    const double sample = fmax(ullage_model_every(scene->model), 1e-3);
    if (key == '.' || key == ',') {
        view->playing = false;
        return go_to(scene->now->time + (key == '.' ? sample : -sample));
    } else if (key == 'w') {
        intent.kind = INTENT_WRITE;
    } else if (key == 'k') {
        intent.kind = INTENT_KEEP;
    } else if (key == 'q') {
        intent.kind = INTENT_LEAVE;
    } else if (key == 'h') {
        intent.kind = INTENT_SOUND;
    } else if (key == 'n') {
        return branch_next(scene);
    } else if (key == KEY_HOME) {
        return go_to(0.0);
    } else if (key == KEY_END) {
        return go_to(scene->now->latest);
    } else if (key == KEY_TAB) {
        focus_move(view, scene, input->shift ? -1 : 1);
    } else if (key == KEY_ENTER) {
        return enter_key(view, scene);
    } else if (key == KEY_ESCAPE) {
        escape_key(view);
    } else if (key >= KEY_LEFT && key <= KEY_DOWN) {
        return arrow_key(input, scene);
    }
    return intent;
}

/* ---- mouse ---------------------------------------------------------------------------------------------------------- */
static double grip_value(const struct grip *grip, double x)
{
    const double share = fmin(fmax((x - grip->box.x0) / (grip->box.x1 - grip->box.x0), 0.0), 1.0);
    return grip->from + share * (grip->to - grip->from);
}

/* Up from where it was taken: the first bit is a pinhole, then by the square, so that small openings have room. */
static double dragged_opening(const struct grip *grip, double y)
{
    const double begun = sqrt(fmin(fmax(grip->opening, 0.0), 1.0));
    const double share = begun + (grip->begun_y - y) / DRAG_FULL;
    if (share <= 0.0)
        return 0.0;
    return share >= 1.0 ? 1.0 : fmax(share * share, PINHOLE);
}

static struct intent grip_drag(const struct grip *grip, const struct input *input, struct view *view,
                               const struct scene *scene)
{
    if (grip->what == SPOT_TIME_BAR)
        return go_to(fmin(grip_value(grip, input->x), scene->now->latest));
    if (grip->what == SPOT_SLIDER)
        return drawer_knob(scene, grip->part, grip_value(grip, input->x));
    if (grip->what == SPOT_WEATHER_SLIDER)
        weather_hold(view, grip->part, grip_value(grip, input->x));
    if (grip->what == SPOT_GRIP && grip->moved)
        return open_to(scene, grip->part, dragged_opening(grip, input->y));
    return nothing;
}

/* A hole opens its ruler. Others are worked, unless the drawer is in sight: then it shows what can be wrong with them. */
static struct intent part_click(int part, struct view *view, const struct scene *scene)
{
    const int row = hole_row(scene, part);
    if (row >= 0)
        return hole_act(view, scene, row);
    if (in_drawer(view) && drawer_open_part(view, scene, part))
        return nothing;
    return toggle(scene, part);
}

static struct intent click(const struct grip *grip, struct view *view, const struct scene *scene)
{
    switch (grip->what) {
    case SPOT_CLOCK:
        view->playing = !view->playing;
        break;
    case SPOT_RATE_LESS:
        view->rate = rate_slower(view->rate);
        break;
    case SPOT_RATE_MORE:
        view->rate = rate_faster(view->rate);
        break;
    case SPOT_PAGE:
        page_turn(view, scene, (enum page)grip->part);
        break;
    case SPOT_FAULT:
        drawer_open_row(view, scene, grip->part);
        break;
    case SPOT_DRAWER:
        return drawer_word_click(view, scene, grip->part);
    case SPOT_WEATHER:
        weather_open(view, grip->part);
        break;
    case SPOT_WEATHER_WORD:
        return weather_word_click(view, scene, grip->part);
    case SPOT_WAY:
        ways_choose(view, grip->part);
        break;
    case SPOT_WAY_WORD:
        return ways_click(view, scene, grip->part);
    case SPOT_BRANCH:
        return branch_to(grip->part);
    case SPOT_PLATE_PART:
        drawer_open_part(view, scene, grip->part);
        break;
    case SPOT_GUTTER:
        view->strip[grip->part] = charts_next_strip(scene->model, view->strip[grip->part]);
        break;
    case SPOT_TOGGLE:
    case SPOT_GRIP:
        return part_click(grip->part, view, scene);
    default:
        break;
    }
    return nothing;
}

static struct intent press(const struct input *input, struct view *view, struct grip *grip, const struct scene *scene,
                           const struct frame *frame, double reach)
{
    const struct frame_spot *spot = frame_spot_at(frame, input->x, input->y, reach);
    *grip = (struct grip){.what = SPOT_NONE, .part = -1};
    view->focus = -1;
    if (!spot)
        return nothing;
    *grip = (struct grip){spot->what, spot->part, spot->box, spot->from, spot->to, input->x, input->y, false, 0.0};
    if (spot->what == SPOT_GRIP)
        grip->opening = opening_of(scene, spot->part);
    if (spot->what == SPOT_TIME_BAR)
        view->playing = false;
    if (spot->what == SPOT_TIME_BAR || spot->what == SPOT_SLIDER || spot->what == SPOT_WEATHER_SLIDER)
        return grip_drag(grip, input, view, scene);
    return nothing;
}

static struct intent pointer_move(const struct input *input, struct view *view, struct grip *grip,
                                  const struct scene *scene, const struct frame *frame)
{
    if (grip->what == SPOT_NONE) {
        const struct frame_spot *spot = frame_spot_at(frame, input->x, input->y, 0.5);
        const bool part =
            spot && (spot->what == SPOT_PLATE_PART || spot->what == SPOT_TOGGLE || spot->what == SPOT_GRIP);
        view->hover = part ? spot->part : -1;
        return nothing;
    }
    grip->moved = grip->moved || hypot(input->x - grip->begun_x, input->y - grip->begun_y) > DRAG_FROM;
    return grip_drag(grip, input, view, scene);
}

static struct intent wheel(const struct input *input, struct view *view, const struct scene *scene,
                           const struct frame *frame, double reach)
{
    const struct frame_spot *spot = frame_spot_at(frame, input->x, input->y, reach);
    if (spot && spot->what == SPOT_SLIDER)
        return drawer_nudge(scene, spot->part, input->wheel, false);
    if (spot && spot->what == SPOT_WEATHER_SLIDER)
        return weather_nudge(view, scene, spot->part, input->wheel, false);
    if (spot && spot->what == SPOT_DRAWER)
        return drawer_wheel(view, scene, spot->part, input->wheel);
    if (spot && spot->what == SPOT_FAULT)
        drawer_move(&view->drawer, scene->faults, -input->wheel);
    if (spot && (spot->what == SPOT_TIME_BAR || spot->what == SPOT_RATE_LESS || spot->what == SPOT_RATE_MORE))
        view->rate = input->wheel > 0 ? rate_faster(view->rate) : rate_slower(view->rate);
    return nothing;
}

void typed_key(struct view *view, int key)
{
    const size_t used = strlen(view->typed);
    if (key == KEY_ESCAPE) {
        view->typed[0] = '\0';
    } else if (key == KEY_BACKSPACE && used > 0) {
        view->typed[used - 1] = '\0';
    } else if (used < TYPED_MOST && key >= ' ' && key < 127) {
        view->typed[used] = (char)key;
        view->typed[used + 1] = '\0';
    }
}

struct intent intent_of(const struct input *input, struct view *view, struct grip *grip, const struct scene *scene,
                        const struct frame *frame, double reach)
{
    struct intent intent = nothing;
    switch (input->kind) {
    case INPUT_KEY:
        return key_intent(input, view, scene);
    case INPUT_PRESS:
        return press(input, view, grip, scene, frame, reach);
    case INPUT_MOVE:
        return pointer_move(input, view, grip, scene, frame);
    case INPUT_WHEEL:
        return wheel(input, view, scene, frame, reach);
    case INPUT_RELEASE:
        if (grip->what == SPOT_WEATHER_SLIDER)
            intent = weather_let_go(view);
        else if (!grip->moved)
            intent = click(grip, view, scene);
        *grip = (struct grip){.what = SPOT_NONE, .part = -1};
        return intent;
    }
    return intent;
}
