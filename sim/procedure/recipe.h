/* sim/procedure/recipe.h  All that the conditioning of a canister depends on, as a text to keep it under. */
#ifndef PROCEDURE_RECIPE_H
#define PROCEDURE_RECIPE_H

#include "network/description.h"

/* bench: the description that is run. first_steps: a hash of how its run begins. The caller frees it; null: memory is out. */
char *recipe_text(const struct ullage_description *bench, const struct conditioning *told, double tolerance,
                  uint64_t first_steps);

#endif
