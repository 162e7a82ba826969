/* sim/law/dip.h  Openings that a liquid can cover: how far they are covered, and the liquid that leaves by them. */
#ifndef LAW_DIP_H
#define LAW_DIP_H

#include "law/flow.h"

#define FUEL_DENSITY 740.0 /* kg/m3 of gasoline, for heads and jets (from memory, handbooks) */

#define FUEL_VISCOSITY 5e-4 /* Pa s, gasoline at 20 degC (from memory, handbooks) */

/* Share 0..1 of a round opening of `radius` [m] that liquid covers whose surface stands `rise` [m] above its centre. */
struct sloped dip_cover(double rise, double radius);

/* m of liquid that stand over it, as the mean of its covered part: 0 below, `rise` where it is wholly covered. */
struct sloped dip_head(double rise, double radius);

/* m3/s of liquid pushed through a thin round hole of `diameter` [m] by `drop` [Pa]; none where that is not above 0.
 * density kg/m3, viscosity Pa s. */
struct sloped dip_drain(double diameter, double density, double viscosity, double drop);

#endif
