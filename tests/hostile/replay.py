"""What was told to a run, through the program: done again to the same bits or said to be otherwise, saved as a scenario that
does the same by itself, set beside what was told another time; nothing half written, nothing written over."""
import os
import re
import sys

sys.dont_write_bytecode = True  # leave no trace in the tree
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "support"))
from program import Folder, check, finish, run  # noqa: E402

RIG = """\
ullage: scenario/1
name: evening
system:
  parts:
    vessel: {type: vessel, volume: 30 L}
    tap: {type: valve, from: vessel, to: air, bore: 2 mm, normally: shut}
    leak: {type: hole, from: vessel, to: air, diameter: 0.5 mm, normally: plugged}
start: {vessel: {gauge_pressure: 3 kPa}}
record: {every: 1 s, channels: [vessel.gauge_pressure, vessel.temperature]}
end: 60 s
"""

TOLD = """\
ullage: recording/1
scenario: rig.yaml
name: evening
seed: 1
solver: bdf
tolerance: 1e-06
by_hand:
  - {{at: 10 s, set: {{{first}}}}}
  - {{at: 20.5 s, set: {{tap: shut}}}}
end: 60 s
hash: "{hash}"
"""


def told(here, name, first, digits="0123456789abcdef"):
    return here.write(name, TOLD.format(first=first, hash=digits))


with Folder() as here:
    rig = here.write("rig.yaml", RIG)
    told(here, "a.yaml", "tap: open")
    told(here, "b.yaml", "leak: open")

    # A hash that is not its own: said, and no success.
    code, out, err = run("run", rig, "--replay", here("a.yaml"), "--csv", here("a.csv"), "--record", here("again.yaml"))
    found = re.search(r"came out otherwise: ([0-9a-f]{16}) at 60 s", err)
    check(code == 1 and found, f"another hash: exit {code}, {err!r}")
    digits = found.group(1) if found else "0" * 16
    told(here, "a.yaml", "tap: open", digits)
    code, out, err = run("run", rig, "--replay", here("a.yaml"), "--save", here("saved.yaml"))
    check(code == 0 and "2 commands, the same to the bit." in out, f"its own hash: exit {code}, {out!r}, {err!r}")

    # What a replay records is the same recording.
    code, out, err = run("run", rig, "--replay", here("again.yaml"))
    check(code == 0 and "2 commands, the same to the bit." in out, f"recorded again: exit {code}, {err!r}")

    # Saved, it does the same by itself.
    code, out, err = run("run", here("saved.yaml"), "--csv", here("saved.csv"))
    check(code == 0 and here.read("saved.csv") == here.read("a.csv"), f"saved: exit {code}, other samples, {err!r}")

    # Beside another evening: what each was told alone, and where every channel parts. The tap is 2 mm, the leak 0.5 mm: the
    # vessel is emptied from 10 s on by either, so the first sample that differs is that of 11 s.
    code, out, err = run("run", rig, "--replay", here("a.yaml"), "--against", here("b.yaml"))
    check(code == 1 and "b.yaml came out otherwise" in err, f"the other's hash: exit {code}, {err!r}")
    check("By hand in this alone: tap open at 0:10." in out, out)
    check("By hand in the other alone: leak open at 0:10." in out, out)
    row = re.search(r"vessel\.gauge_pressure +0:11 +(-[0-9.]+ k?Pa) +(\d:\d\d)", out)
    check(row is not None, f"no row of the pressure: {out!r}")
    check("tap shut" not in out.split("Gas kept")[-1], f"told though both were: {out!r}")

    # Beside the sound scenario, and a scenario beside a recording.
    code, out, err = run("run", rig, "--replay", here("a.yaml"), "--against", rig)
    check(code == 0 and "By hand in this alone: tap open at 0:10; tap shut at 0:21." in out, f"exit {code}: {out!r}")
    code, out, err = run("run", rig, "--against", here("a.yaml"))
    check(code == 0 and "By hand in the other alone: tap open at 0:10; tap shut at 0:21." in out, f"{code}: {out!r}")

    # What is wrong in one alone.
    code, out, err = run("run", rig, "--fault", "leak vessel diameter=0.3mm", "--against", rig)
    check(code == 0 and re.search(r"Wrong in this alone: leak.* vessel, 0\.30 mm", out), f"exit {code}: {out!r}")

    # Over the scenario, to standard output, both into one: refused, and nothing is touched.
    for words in (["--record", rig], ["--save", rig], ["--record", "-"], ["--record", here("x"), "--save", here("x")]):
        code, out, err = run("run", rig, *words)
        check(code == 2 and err.count("\n") == 1, f"{words}: exit {code}, {err!r}")
    check(here.read("rig.yaml") == RIG and "x" not in here.names(), "refused, but written")

finish()
