/* sim/procedure/conditioning.h  What a canister holds that was loaded and purged before the scenario begins.
 *
 * The canister stands alone on a bench, at first clean. A gas of constant rate (n-butane and air, or the vapor of the
 * scenario's own fuel in air) goes in at the tank's side until `until` of it has left at the air's side; then air of constant
 * rate goes in at the air's side and leaves at the tank's, so many times the volume of the beds; and again, as many cycles as
 * told. What is held then is what the scenario begins with: cell by cell, the gas beside it at rest with it (network/held.c).
 *
 * Where no gas is named it is n-butane, with which canisters are tested, if the fuel holds n-butane or there is no fuel; else
 * the fuel, so that no gas has to be followed that nothing else brings. Carbon does not tell nitrogen from air
 * (property/carbon.c), so air stands for the nitrogen that loads on a real bench. */
#ifndef PROCEDURE_CONDITIONING_H
#define PROCEDURE_CONDITIONING_H

#include "network/description.h"

/* Lets every start of `description` that is to be conditioned know what it holds. What is made stands in the arena.
 * False when problems were added or memory is out. */
bool conditionings_make(struct arena *arena, struct ullage_description *description, struct ullage_problems *problems);

#endif
