/* sim/law/slit.c  Slit: a gap between long lips, as at a valve seat or a split seam.
 *
 * As a hole (hole.c), with X and Re on the gap h, depth L:
 *   K0 = 24 L/h + 64/pi        plates [textbook] and the two mouths [HASIMOTO1958]; the sum is the slit's own Dagan
 *   K  = G (1.60 + 1.06 w)     inertia, taken over from holes: an assumption, not checked against any measurement
 * Gas slips on the walls of gaps under 5 um, which lets through more than this. */
#include "law/between.h"
#include "law/passages.h"

#define PI 3.14159265358979323846

#define FULL_BORE_INERTIA 1.60 /* as in hole.c */
#define FREE_JET_MORE 1.06     /* as in hole.c: 2.66 less 1.60 */

static struct sloped slit_reynolds(double drive, double depth_over_gap, double thin)
{
    const double viscous = 24.0 * depth_over_gap + 64.0 / PI;
    struct sloped inertia = inertia_share(reynolds_estimate(drive, viscous));
    inertia.value *= FULL_BORE_INERTIA + FREE_JET_MORE * thin;
    inertia.slope *= FULL_BORE_INERTIA + FREE_JET_MORE * thin;
    return reynolds_varying(drive, viscous, inertia);
}

struct flow slit_flow(double width, double gap, double depth, const struct gas *a, const struct gas *b)
{
    if (gap <= 0.0 || width <= 0.0)
        return (struct flow){0};
    const struct between gas = between_upstream(a, b);
    const double thin = thin_share(depth / gap);
    const struct response drive = drive_expanding(&gas, gap, thin);
    const struct sloped reynolds = slit_reynolds(drive.value, depth / gap, thin);
    const struct response flow = reynolds_flow(reynolds, &drive, &gas, width * gap, gap);
    return flow_spread(&flow, &gas, a, b);
}
