#!/usr/bin/env python3
"""The schemas by an independent validator, on files read as YAML 1.2: every file that ships is good, every broken file that a
schema can see is refused. What it cannot see is listed here, so that neither list can grow unnoticed.

Run at the top of the source tree. Needs python3-jsonschema and python3-ruamel.yaml."""
import glob
import json
import os
import sys

try:
    import jsonschema
    from ruamel.yaml import YAML
    from ruamel.yaml.error import YAMLError
except ImportError as missing:
    sys.exit(f"{missing}: install python3-jsonschema and python3-ruamel.yaml")

# Broken files whose fault lies between keys, in another file, or in text that a schema takes as it is; and those that use
# what YAML has but our files have not.
BLIND = """
    anchor directive merge tag
    altitude-colder-than-fuel altitude-too-high bed-of-no-length
    by-hand-backwards by-hand-before-its-time by-hand-joined by-hand-no-such-part by-hand-no-such-time by-hand-no-such-word
    by-hand-poured-again by-hand-of-one-substance
    change-of-bad-value change-of-no-key change-of-nothing
    conditioned-no-carbon conditioned-rate conditioned-too-hot conditioned-until-nothing conditioned-vessel
    conditioned-without-fuel
    fault-called-twice fault-poured-again fault-of-one-substance fault-later-without-fuel fault-of-another-kind
    fault-of-no-unit fault-on-an-opening
    fault-too-large fault-without-fuel fault-ends-first fault-in-the-air fault-of-no-size fill-limit-commanded hole-of-no-size
    fill-colder-than-known fill-no-such-blend fill-past-the-brim fill-shares fill-shares-over
    fill-swells-over-the-brim fill-warmer-than-propane
    huge id-of-equipment id-of-fault join-nothing levels-fall levels-from-above levels-past-the-roof
    link-to-no-gas link-to-no-opening link-to-nothing loop loop-of-valves
    no-such-procedure no-such-system opening-too-high
    procedure-in-pieces profile-falls pump-on-quick record-never record-no-such-channel
    relief-of-no-pressure relief-without-hysteresis roll-over-sideways saturation
    set-nothing shares start-below-vacuum start-not-isothermal start-of-a-hole start-of-nothing
    surroundings-colder-than-fuel
    weather-at-once weather-colder-than-fuel weather-forever weather-is-read weather-misspelt weather-of-no-key
    weather-of-no-unit weather-off weather-over weather-storm weather-swells weather-too-warm
    engine-set-to-nothing trace-in-litres trace-goes-back trace-and-load engine-speed trace-of-no-air
    system-in-pieces system-is-a-procedure too-large unit-composed wait-for-a-length wait-on-nothing
""".split()

# Forms that nothing reads so far: their schema comes with their reader.
UNREAD = {"blend"}

SCHEMAS = {}


def tree(path):
    """The file as YAML 1.2; None where it is no YAML at all."""
    try:
        with open(path, encoding="utf-8-sig") as file:
            return YAML(typ="safe", pure=True).load(file)
    except (YAMLError, UnicodeDecodeError, ValueError, AttributeError):
        return None


def schema(form):
    if form not in SCHEMAS:
        with open(f"scenarios/schema/{form}.json", encoding="utf-8") as file:
            SCHEMAS[form] = json.load(file)
        jsonschema.Draft202012Validator.check_schema(SCHEMAS[form])
    return jsonschema.Draft202012Validator(SCHEMAS[form])


def faults(form, content):
    return [f"{'/'.join(str(step) for step in error.absolute_path)}: {error.message[:200]}"
            for error in schema(form).iter_errors(content)]


def shipped():
    """Every file that ships, by what it says it is."""
    wrong, count = [], 0
    for path in sorted(glob.glob("scenarios/**/*.yaml", recursive=True)):
        content = tree(path)
        form = str(content.get("ullage", "")).split("/")[0] if isinstance(content, dict) else ""
        if form in UNREAD:
            continue
        if not os.path.exists(f"scenarios/schema/{form}.json"):
            wrong.append(f"{path}: no schema for '{form}'")
            continue
        count += 1
        wrong += [f"{path}: {fault}" for fault in faults(form, content)]
    if count < 10:
        wrong.append(f"only {count} files ship")
    return wrong


def broken():
    """Every file of tests/hostile/bad: refused, or known to be out of a schema's sight."""
    wrong, unseen = [], set()
    for path in sorted(glob.glob("tests/hostile/bad/*.yaml")):
        content = tree(path)
        if content is not None and not faults("scenario", content):
            unseen.add(os.path.basename(path)[:-len(".yaml")])
    wrong += [f"{name}: the schema takes it" for name in sorted(unseen - set(BLIND))]
    wrong += [f"{name}: the schema sees it after all, or it is gone" for name in sorted(set(BLIND) - unseen)]
    return wrong


def parts_alike():
    """A part has the same keys in a system's file and within a scenario."""
    system, scenario = schema("system").schema["$defs"], schema("scenario").schema["$defs"]
    return [f"{name} differs between system and scenario" for name in system if system[name] != scenario.get(name)]


def main():
    wrong = shipped() + broken() + parts_alike()
    for line in wrong:
        print(line)
    print(f"{len(wrong)} wrong")
    sys.exit(len(wrong) > 0)


main()
