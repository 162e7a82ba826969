/* tests/support/same.h  Are two runs the same to the bit, in state and in all they have told? And a rig on which to ask. */
#ifndef SUPPORT_SAME_H
#define SUPPORT_SAME_H

#include "support/rigs.h"
#include "support/run_text.h"

/* Everything told so far, bit by bit. */
static inline void assert_same_told(const struct ullage_model *model, const struct ullage_run *a,
                                    const struct ullage_run *b)
{
    const size_t width = (size_t)(1 + ullage_model_recorded(model)) * sizeof(double);
    assert_int_equal(ullage_run_samples(a), ullage_run_samples(b));
    for (int k = 0; k < ullage_run_samples(a); k++)
        assert_memory_equal(ullage_run_sample(a, k), ullage_run_sample(b, k), width);
    assert_int_equal(ullage_run_readings(a), ullage_run_readings(b));
    for (int k = 0; k < ullage_run_readings(a); k++) {
        const struct ullage_reading one = ullage_run_reading(a, k), two = ullage_run_reading(b, k);
        assert_string_equal(one.name, two.name);
        assert_memory_equal(&one.value, &two.value, sizeof one.value);
        assert_memory_equal(&one.time, &two.time, sizeof one.time);
    }
    assert_int_equal(ullage_run_events(a), ullage_run_events(b));
    for (int k = 0; k < ullage_run_events(a); k++) {
        const struct ullage_event one = ullage_run_event(a, k), two = ullage_run_event(b, k);
        assert_int_equal(one.kind, two.kind);
        assert_int_equal(one.by_hand, two.by_hand);
        assert_string_equal(one.text, two.text);
        assert_memory_equal(&one.time, &two.time, sizeof one.time);
    }
}

static inline void assert_same(const struct ullage_model *model, const struct ullage_run *a, const struct ullage_run *b)
{
    assert_near("time", ullage_run_time(a), ullage_run_time(b), 0.0);
    assert_true(ullage_run_hash(a) == ullage_run_hash(b));
    assert_same_told(model, a, b);
}

/* A wait for a condition with windows in the middle of the rig's procedure. */
static inline struct ullage_model *settling_model(void)
{
    static const char *const tail = "    - wait: {until: \"settled(tank.gauge_pressure, 5 s, 20 Pa) and "
                                    "rate(meter.hole, 4 s) < 1 mm/s\", at_most: 2 min}\n"
                                    "    - read: {settled: time, slope: \"rate(tank.gauge_pressure, 5 s)\"}\n"
                                    "record: {every: 0.5 s, channels: [tank.gauge_pressure, meter.hole, vent.flow]}\n";
    char text[4000];
    const char *record = strstr(rig_pull_up, "record:");
    snprintf(text, sizeof text, "%.*s%s", (int)(record - rig_pull_up), rig_pull_up, tail);
    return text_model(text);
}

#endif
