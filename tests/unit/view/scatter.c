/* tests/unit/view/scatter.c  Places of dots: on their tile, apart across its edges too, the first ones the farther. */
#include "view/scatter.h"

#include "support/near.h"

static double across(double a, double b)
{
    const double straight = fabs(a - b);
    return fmin(straight, SCATTER_TILE - straight);
}

static double nearest_of_first(int count)
{
    double least = SCATTER_TILE;
    for (int a = 0; a < count; a++)
        for (int b = 0; b < a; b++) {
            const struct scatter_place p = scatter_place(a), q = scatter_place(b);
            least = fmin(least, hypot(across(p.x, q.x), across(p.y, q.y)));
        }
    return least;
}

/* Random places would have some on top of each other; these are apart as their number allows. A square lattice of n would
 * have tile / sqrt(n) between two; half of that and more is even enough for the eye. */
static void places_keep_apart(void **state)
{
    (void)state;
    for (int count = 10; count <= SCATTER_PLACES; count += 10)
        assert_true(nearest_of_first(count) > 0.5 * SCATTER_TILE / sqrt(count));
}

static void places_are_on_the_tile(void **state)
{
    (void)state;
    double x = 0.0, y = 0.0;
    for (int k = 0; k < SCATTER_PLACES; k++) {
        const struct scatter_place at = scatter_place(k);
        assert_true(at.x >= 0.0 && at.x < SCATTER_TILE && at.y >= 0.0 && at.y < SCATTER_TILE);
        x += at.x / SCATTER_PLACES;
        y += at.y / SCATTER_PLACES;
    }
    assert_near("their middle, across", x, 0.5 * SCATTER_TILE, 10.0); /* u: less than one dot's distance */
    assert_near("their middle, down", y, 0.5 * SCATTER_TILE, 10.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(places_keep_apart), cmocka_unit_test(places_are_on_the_tile)};
    const int n = cmocka_run_group_tests(tests, NULL, NULL);
    return n != 0;
}
