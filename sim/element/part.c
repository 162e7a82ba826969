/* sim/element/part.c  When a part that comes and goes is there, and how far a command has got. */
#include "element/part.h"

double ramp_value(const struct ramp *ramp, double time)
{
    if (time >= ramp->ends)
        return ramp->to;
    if (time <= ramp->begins)
        return ramp->from;
    return ramp->from + (ramp->to - ramp->from) * (time - ramp->begins) / (ramp->ends - ramp->begins);
}

/* Time since `from`, folded into one turn where it repeats. */
static double course_phase(const struct course *course, double time)
{
    const double since = time - course->from;
    return course->every > 0.0 && since >= 0.0 ? fmod(since, course->every) : since;
}

double course_since(const struct course *course, double time)
{
    return course->given ? fmax(course_phase(course, time), 0.0) : time;
}

double course_share(const struct course *course, double time)
{
    if (!course->given)
        return 1.0;
    if (time < course->from || time >= course->until)
        return 0.0;
    const double phase = course_phase(course, time);
    if (course->every > 0.0 && phase >= course->lasts)
        return 0.0;
    return course->ramp > 0.0 && phase < course->ramp ? phase / course->ramp : 1.0;
}

static double sooner(double best, double candidate, double time)
{
    return candidate > time && candidate < best ? candidate : best;
}

bool course_stands(const struct course *course)
{
    return !course->given || (course->from <= 0.0 && !(course->ramp > 0.0) && !(course->every > 0.0));
}

double course_corner(const struct course *course, double time)
{
    double next = (double)INFINITY;
    if (!course->given)
        return next;
    next = sooner(next, course->until, time);
    double turn = course->from;
    if (course->every > 0.0 && time > course->from)
        turn += course->every * floor((time - course->from) / course->every);
    for (int k = 0; k < 2; k++) { /* this turn and the one after */
        next = sooner(next, turn, time);
        next = sooner(next, turn + course->ramp, time);
        if (!(course->every > 0.0))
            return next;
        next = sooner(next, turn + course->lasts, time);
        turn += course->every;
    }
    return next;
}

double course_comes(const struct course *course, double time)
{
    double comes = course->given ? course->from : 0.0;
    const bool there = course_share(course, time) > 0.0;
    if (course->every > 0.0 && time > comes) {
        comes += course->every * floor((time - comes) / course->every);
        comes += !there && comes < time ? course->every : 0.0;
    }
    if (there || (comes >= time && comes < course->until))
        return comes;
    return (double)INFINITY;
}

struct course course_put(const struct course *before, bool there, const struct course *told, double time)
{
    const bool come = there && (!before->given || (before->from <= time && time < before->until));
    const bool ends = isfinite(told->until) && isnan(told->from) && !(told->ramp > 0.0 || told->every > 0.0);
    if (come && !told->given)
        return *before;
    struct course course = come && ends ? *before : *told;
    course.given = true;
    course.until = told->until;
    if (isnan(course.from))
        course.from = time;
    return course;
}
