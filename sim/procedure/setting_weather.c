/* sim/procedure/setting_weather.c  Reading what is to become of the surroundings: "35 degC", "35 degC ramp=20min", "as-in-file". */
#include "base/text.h"
#include "base/unit.h"
#include "procedure/setting.h"

#include <stdio.h>
#include <string.h>

enum { KEYS_MOST = 16, SENTENCE = 300 };

static const char owner[] = "surroundings.", shown_as[] = "air.";

static bool begins_with(const char *text, const char *with)
{
    return !strncmp(text, with, strlen(with));
}

static bool is_about_weather(const char *what)
{
    return begins_with(what, owner) || begins_with(what, shown_as) || !strcmp(what, "surroundings") ||
           !strcmp(what, "air");
}

/* The row of weather_key[]; -1 with a problem. */
static int key_read(const struct scope *scope, struct phrase what)
{
    const char *dot = strchr(what.text, '.'), *name = dot ? dot + 1 : "";
    const char *names[KEYS_MOST];
    const int found = rows_find(weather_key, name);
    char shown[TEXT_SHORT], right[SENTENCE] = "these can be set:";
    if (found >= 0 && begins_with(what.text, owner))
        return found;
    for (int k = 0; k < rows_count(weather_key); k++) {
        const size_t length = strlen(right);
        names[k] = weather_key[k].name;
        snprintf(right + length, sizeof right - length, "%s %s%s", k > 0 ? "," : "", owner, names[k]);
    }
    const char *nearest = found >= 0 ? name : nearest_name(name, names, rows_count(weather_key));
    if (nearest)
        snprintf(right, sizeof right, "did you mean %s%s?", owner, nearest);
    if (found >= 0)
        problem_add(scope->problems, what.at, right, "%s is what is read, not what is set", what.text);
    else
        problem_add(scope->problems, dot ? phrase_place(what, name) : what.at, right, "the surroundings have no %s",
                    *name ? text_short(name, shown) : "value of their own");
    return -1;
}

/* ---- the value, and how long it takes ---- */

/* "35 degC", and "20min" of "ramp=20min"; ramp->text is null where nothing is said of it. */
static bool value_part(const struct scope *scope, struct phrase value, struct phrase *target, struct phrase *ramp)
{
    const char *equals = strchr(value.text, '=');
    *target = value;
    *ramp = (struct phrase){0};
    if (!equals)
        return true;
    const char *key = equals, *wrong = strchr(equals + 1, '=');
    while (key > value.text && key[-1] != ' ')
        key--;
    size_t length = (size_t)(key - value.text);
    while (length > 0 && value.text[length - 1] == ' ')
        length--;
    if (wrong || equals - key != 4 || !begins_with(key, "ramp")) {
        problem_add(scope->problems, phrase_place(value, wrong ? wrong : key), "write it like 35 degC ramp=20min",
                    "beside its value there is only the time that it takes");
        return false;
    }
    target->text = arena_format(scope->arena, "%.*s", (int)length, value.text);
    *ramp = (struct phrase){equals + 1, phrase_place(value, equals + 1)};
    return target->text;
}

static bool ramp_read(const struct scope *scope, struct phrase ramp, double *lasts)
{
    *lasts = WEATHER_SOONEST;
    if (!ramp.text)
        return true;
    if (!constant_read(scope, ramp, ULLAGE_TIME, lasts))
        return false;
    if (*lasts >= WEATHER_SOONEST)
        return true;
    char right[SENTENCE];
    snprintf(right, sizeof right, "let it take %g s at least", WEATHER_SOONEST);
    problem_add(scope->problems, ramp.at, right, "the surroundings do not change within %s", ramp.text);
    return false;
}

/* The fuel has to be known as warm, or cold, as the air. */
static bool fuel_known(const struct scope *scope, struct phrase target, double temperature)
{
    const struct component *unknown = network_fuel_unknown(scope->network, temperature);
    if (!unknown)
        return true;
    const struct temperature_range good = component_range(unknown);
    char right[SENTENCE];
    snprintf(right, sizeof right, "write a temperature from %.4g to %.4g degC", good.low - ZERO_CELSIUS,
             good.high - ZERO_CELSIUS);
    problem_add(scope->problems, target.at, right, "nothing is known of %s in the fuel at %.4g degC", unknown->gas.name,
                temperature - ZERO_CELSIUS);
    return false;
}

/* And to stay in its tank, as the scenario has filled that. */
static bool fuel_stays(const struct scope *scope, struct phrase target, double temperature)
{
    const double share = network_fuel_swells(scope->network, temperature);
    if (share <= FUEL_FULLEST)
        return true;
    problem_add(scope->problems, target.at, "write a lower temperature, or fill less into the tank",
                "at %.4g degC this fuel swells to %.4g %% of the tank", temperature - ZERO_CELSIUS, 100.0 * share);
    return false;
}

static bool target_read(const struct scope *scope, struct phrase target, struct setting *into)
{
    into->back = !strcmp(target.text, "as-in-file");
    if (into->back)
        return true;
    if (!strcmp(target.text, "off")) {
        problem_add(scope->problems, target.at, "write as-in-file to go back to what the file has", "%s cannot be off",
                    weather_key[into->weather].name);
        return false;
    }
    if (!parameter_read(scope, target, &weather_key[into->weather], &into->value))
        return false;
    return weather_of_key(into->weather) != WEATHER_TEMPERATURE ||
           (fuel_known(scope, target, into->value) && fuel_stays(scope, target, into->value));
}

/* "20 min" of "20min". */
static const char *spaced(struct arena *arena, const char *text)
{
    const char *unit = number_end(text, true);
    return unit && *unit && *unit != ' ' ? arena_format(arena, "%.*s %s", (int)(unit - text), text, unit) : text;
}

/* "to 35 degC within 20 min" */
static const char *telling(struct arena *arena, struct phrase target, struct phrase ramp, const struct setting *setting)
{
    const char *to = setting->back ? "back as in the file" : spaced(arena, target.text);
    const char *within = ramp.text ? spaced(arena, ramp.text) : arena_format(arena, "%g s", setting->lasts);
    return to && within ? arena_format(arena, "%s%s within %s", setting->back ? "" : "to ", to, within) : NULL;
}

bool weather_setting_read(const struct scope *scope, struct phrase what, struct phrase value, struct setting *into,
                          bool *named)
{
    struct phrase target, ramp;
    *named = is_about_weather(what.text);
    if (!*named)
        return false;
    *into = (struct setting){.part = -1, .row = SETTING_WEATHER, .fault = -1, .weather = key_read(scope, what)};
    if (into->weather < 0 || !value_part(scope, value, &target, &ramp) || !target_read(scope, target, into) ||
        !ramp_read(scope, ramp, &into->lasts))
        return false;
    into->told = telling(scope->arena, target, ramp, into);
    return into->told;
}
