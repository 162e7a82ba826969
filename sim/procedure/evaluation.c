/* sim/procedure/evaluation.c  Working an expression out: values on a stack, each sign takes its own from the top. */
#include "procedure/expression.h"

#include <assert.h>
#include <math.h>

/* A value that is not there compares false, also with !=. */
static double pair_value(enum operation_code code, double a, double b)
{
    switch (code) {
    case OPERATION_OR:
        return a > 0.5 || b > 0.5;
    case OPERATION_AND:
        return a > 0.5 && b > 0.5;
    case OPERATION_LESS:
        return a < b;
    case OPERATION_AT_MOST:
        return a <= b;
    case OPERATION_MORE:
        return a > b;
    case OPERATION_AT_LEAST:
        return a >= b;
    case OPERATION_SAME:
        return a <= b && a >= b;
    case OPERATION_OTHER:
        return a < b || a > b;
    case OPERATION_SUM:
        return a + b;
    case OPERATION_DIFFERENCE:
        return a - b;
    case OPERATION_PRODUCT:
        return a * b;
    case OPERATION_QUOTIENT:
        return a / b;
    case OPERATION_MIN:
        return isnan(a) ? a : isnan(b) ? b : fmin(a, b);
    default: /* OPERATION_MAX */
        return isnan(a) ? a : isnan(b) ? b : fmax(a, b);
    }
}

/* Spread or rate; NaN where another wait than the window's own has run last. */
static double window_value(const struct operation *operation, const struct outlook *at)
{
    const struct window *window = &at->window[operation->window];
    const struct window_memory *memory = &at->memory[operation->window];
    const double value = at->channel[operation->index];
    if (window->wait != at->wait)
        return (double)NAN;
    if (operation->code == OPERATION_RATE)
        return window_rate(window, memory, at->since, at->time, value);
    return window_spread(window, memory, at->since, at->time, value) <= operation->number;
}

/* What stands for itself. */
static double leaf_value(const struct operation *operation, const struct outlook *at)
{
    switch (operation->code) {
    case OPERATION_NUMBER:
        return operation->number;
    case OPERATION_CHANNEL:
        return at->channel[operation->index];
    case OPERATION_SLOT:
        return at->slot[operation->index];
    case OPERATION_RATE:
        return window_value(operation, at);
    default: { /* settled: a window that is not filled is not settled */
        const double settled = window_value(operation, at);
        return settled > 0.5;
    }
    }
}

static double single_value(enum operation_code code, double a)
{
    switch (code) {
    case OPERATION_NEGATIVE:
        return -a;
    case OPERATION_ABS:
        return fabs(a);
    default:
        return !(a > 0.5);
    }
}

double expression_value(const struct expression *expression, const struct outlook *at)
{
    double stack[OPERATION_STACK] = {0.0};
    int height = 0;
    for (int k = 0; k < expression->operations; k++) {
        const struct operation *operation = &expression->operation[k];
        if (operation->code < OPERATION_NEGATIVE) {
            stack[height++] = leaf_value(operation, at);
        } else if (operation->code < OPERATION_OR) {
            stack[height - 1] = single_value(operation->code, stack[height - 1]);
        } else {
            height--;
            stack[height - 1] = pair_value(operation->code, stack[height - 1], stack[height]);
        }
        assert(0 < height && height <= OPERATION_STACK);
    }
    return stack[0];
}
