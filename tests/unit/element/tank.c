/* tests/unit/element/tank.c  How high the liquid of a tank stands: by a level table, or as in a box. */
#include "support/run_text.h"

#define TANK(levels, level)                                                                                            \
    "ullage: scenario/1\nname: tank\nassume: {heat: isothermal}\nfill: {level: " level ", temperature: 20 degC, "      \
    "components: {n-decane: 100 %}}\nsystem:\n  parts:\n    tank: {type: tank, volume: 45 L, height: 220 mm" levels    \
    "}\nprocedure:\n  steps:\n    - read: {height: tank.liquid_height}\n"

#define SADDLE ", levels: [[0 L, 0 mm], [9 L, 40 mm], [22.5 L, 100 mm], [36 L, 150 mm], [45 L, 220 mm]]"

/* At a corner of the table the level is the corner's; of a box it goes with the volume. */
static void liquid_stands_as_the_table_says(void **unused)
{
    (void)unused;
    assert_near("box", text_read(TANK("", "50 %"), "height"), 0.110, 1e-9);
    assert_near("box, a fifth", text_read(TANK("", "20 %"), "height"), 0.044, 1e-9);
    assert_near("table, half", text_read(TANK(SADDLE, "50 %"), "height"), 0.100, 1e-9);
    assert_near("table, a fifth", text_read(TANK(SADDLE, "20 %"), "height"), 0.040, 1e-9);
    const double between = text_read(TANK(SADDLE, "65 %"), "height");
    assert_true(between > 0.100 && between < 0.150);
    assert_near("no liquid",
                text_read("ullage: scenario/1\nsystem:\n  parts:\n    tank: {type: tank, volume: 45 L}\n"
                          "procedure:\n  steps:\n    - read: {height: tank.liquid_height}\n",
                          "height"),
                0.0, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(liquid_stands_as_the_table_says)};
    return cmocka_run_group_tests_name("unit/element/tank", tests, NULL, NULL) != 0;
}
