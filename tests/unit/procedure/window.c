/* tests/unit/procedure/window.c  The last seconds of a channel against all of them kept. */
#include "procedure/window.h"

#include "support/near.h"

enum { FED = 1500 };

static const struct window window = {.duration = 20.0};

#define SINCE 3.0 /* s */

/* Straight between the grid points of `all`. */
static double all_at(const double *all, double time)
{
    const double place = (time - SINCE) / window.duration * WINDOW_POINTS;
    const int k = (int)place;
    return all[k] + (place - k) * (all[k + 1] - all[k]);
}

static void the_ring_covers_its_window(void **unused)
{
    (void)unused;
    static double all[FED + 1];
    static struct window_memory memory;
    uint64_t draws = 7;
    for (int k = 0; k <= FED; k++)
        all[k] = near_draw(&draws);
    for (int k = 0; k < FED; k++) {
        window_feed(&memory, all[k]);
        const double time = window_moment(&window, SINCE, k) + 0.3 * window.duration / WINDOW_POINTS;
        const double value = all_at(all, time);
        const double spread = window_spread(&window, &memory, SINCE, time, value);
        const double rate = window_rate(&window, &memory, SINCE, time, value);
        if (k < WINDOW_POINTS) {
            assert_true(isnan(spread) && isnan(rate));
            continue;
        }
        const double oldest = all_at(all, time - window.duration);
        double least = fmin(value, oldest);
        double most = fmax(value, oldest);
        for (int i = k - WINDOW_POINTS + 1; i <= k; i++) {
            least = fmin(least, all[i]);
            most = fmax(most, all[i]);
        }
        assert_near("spread", spread, most - least, 1e-12); /* time is round to 1e-13 of a step */
        assert_near("rate", rate, (value - oldest) / window.duration, 1e-12);
    }
}

static void it_is_full_to_the_moment(void **unused)
{
    (void)unused;
    static struct window_memory memory;
    const double full = SINCE + window.duration;
    for (int k = 0; k < WINDOW_POINTS; k++) /* the point at `full` itself is not fed yet */
        window_feed(&memory, k);
    assert_true(isnan(window_spread(&window, &memory, SINCE, nextafter(full, 0.0), 200.0)));
    assert_near("spread", window_spread(&window, &memory, SINCE, full, 200.0), 200.0, 0.0);
    assert_near("rate", window_rate(&window, &memory, SINCE, full, 200.0), 10.0, 0.0);
    window_clear(&memory);
    assert_true(isnan(window_spread(&window, &memory, SINCE, full, 200.0)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_ring_covers_its_window),
        cmocka_unit_test(it_is_full_to_the_moment),
    };
    return cmocka_run_group_tests_name("procedure/window", tests, NULL, NULL) != 0;
}
