"""The command line: what is refused, with which words and exit code; help; what goes to which stream."""
import json
import os
import sys

sys.dont_write_bytecode = True  # leave no trace in the tree
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "support"))
from program import DECAY, Folder, check, finish, run  # noqa: E402

with Folder() as here:
    decay = here("decay.yaml")

    # What is refused: exit 2, nothing on standard output, words that help.
    refused = [
        ([], "Commands"),
        (["rum", decay], "did you mean run?"),
        (["zzzz"], "see ullage --help"),
        (["--versoin"], "--help"),
        (["run"], "SCENARIO"),
        (["run", decay, decay], "one too many"),
        (["run", decay, "--sett", "a=b"], "did you mean --set?"),
        (["run", decay, "--se", "a=b"], "no option --se"),  # no abbreviations, however clear
        (["run", decay, "--quie"], "did you mean --quiet?"),
        (["run", decay, "--qui"], "no option --qui"),
        (["run", decay, "--cs=-"], "--csv"),
        (["run", decay, "-x"], "no option -x"),
        (["run", decay, "--hel"], "no option --hel"),
        (["run", decay, "--csv"], "--csv needs FILE"),
        (["run", decay, "--quiet=yes"], "takes no value"),
        (["run", decay, "--csv", "a", "--csv", "b"], "given twice"),
        (["run", decay, "--seed", "-5"], "--seed -5"),
        (["run", decay, "--seed", "1.5"], "--seed 1.5"),
        (["run", decay, "--seed", "99999999999999999999"], "--seed"),
        (["run", decay, "--seed", ""], "--seed"),
        (["run", decay, "--rtol", "0"], "--rtol 0"),
        (["run", decay, "--rtol", "nan"], "--rtol nan"),
        (["run", decay, "--rtol", "1 m"], "--rtol"),
        (["run", decay, "--solver", "euler"], "bdf or msbdf"),
        (["run", decay, "--units", "imperial"], "shop or si"),
        (["run", decay, "--expect", "open"], "pass or fail"),
        (["run", decay, "--plot", here("a.gif")], "plot"),  # the ending, or that this build draws none
        (["run", decay, "--set", "leak.diametre=1mm"], "diameter"),
        (["run", decay, "--set", "leek.diameter=1mm"], "leak"),
        (["run", decay, "--set", "leak.diameter=1"], "unit"),
        (["run", decay, "--set", "leak.diameter"], "leak.diameter"),
        (["run", decay, "--fault", "lek vessel diameter=1mm"], "leak"),
        (["run", decay, "--against", here("decay.yaml"), "--csv", decay], "over the scenario"),
        (["run", decay, "--csv", "-", "--json", "-"], "both"),
        (["run", decay, "--csv", here("a"), "--json", here("a")], "both"),
        (["view", decay, "--size", "800"], "1280x720"),
        (["view", decay, "--size", "800x"], "1280x720"),
        (["view", decay, "--every", "1s"], "--frames"),
        (["view", decay, "--frame", "1s"], "FILE"),
        (["view", decay, "--frame", "1", here("a.png")], "unit"),
        (["view", decay, "--frames", here("f"), "--frame", "1s", here("a.png")], "either"),
        (["check"], "FILE"),
        (["list"], "systems"),
        (["list", "part"], "did you mean parts?"),
        (["list", "parts", "valv"], "did you mean valve?"),
        (["list", "channels"], "SCENARIO"),
        (["list", "units", "Pa"], "ullage list units"),
    ]
    for args, words in refused:
        code, out, err = run(*args)
        check(code == 2, f"{args}: exit {code}, wanted 2")
        check(words in err, f"{args}: {words!r} is not in {err!r}")
        check(out == "", f"{args}: printed {out[:80]!r}")
    check(here.names() == ["decay.yaml", "long.yaml"], f"left behind: {here.names()}")
    check(here.read("decay.yaml") == DECAY, "the scenario was written over")

    # Help: for each command, on standard output, with every option and the exit codes.
    for args in (["--help"], ["-h"], ["help"], ["run", "--help"], ["view", "-h"], ["check", "--help"], ["list", "--help"],
                 ["run", decay, "--csv", "a", "--help"]):
        code, out, err = run(*args)
        check(code == 0 and len(out) > 200 and err == "", f"{args}: exit {code}, {len(out)} characters, {err!r}")
        check("Exit codes" in out and "Examples" in out, f"{args}: no examples or exit codes")
        check(all(len(line) <= 120 for line in out.splitlines()), f"{args}: lines over 120 columns")
    text = run("run", "--help")[1]
    for option in ("set", "fault", "csv", "json", "plot", "seed", "quiet", "expect", "units", "against", "solver", "rtol"):
        check(f"--{option}" in text, f"run --help says nothing of --{option}")
    code, out, _ = run("--version")
    check(code == 0 and out.startswith("ullage "), f"--version: {code}, {out!r}")

    # Standard output carries data, standard error talks.
    code, out, err = run("run", decay)
    check(code == 0 and "decay_time" in out and err == "", f"the story: exit {code}, stderr {err!r}")
    check("\x1b" not in out and "\r" not in out, "escape codes or carriage returns in a pipe")
    code, out, err = run("run", decay, "--quiet")
    check(code == 0 and out == "" and err == "", f"--quiet: exit {code}, {out!r}, {err!r}")
    code, out, err = run("run", decay, "--csv", "-")
    check(code == 0 and out.startswith("time_s,vessel.gauge_pressure_Pa,vessel.temperature_K,leak.flow_kg/s\n"),
          f"--csv -: {out[:80]!r}")
    check("decay_time" in err, "the story is not on standard error while data is on standard output")
    code, out, err = run("run", decay, "--json", "-", "--quiet")
    check(code == 0 and json.loads(out)["scenario"] == "decay", f"--json -: exit {code}, {out[:80]!r}")
    code, out, err = run("run", "--quiet", "--json=-", "--", decay)
    check(code == 0 and out.startswith("{"), f"options before, = and --: exit {code}, {err!r}")

    # Exit codes of judgements: a decay over a minute passes.
    for limit, expect, want in (("40s", "pass", 0), ("40s", "fail", 1), ("300s", "pass", 1), ("300s", "fail", 0)):
        code, _, err = run("run", decay, "--quiet", "--set", f"let.limit={limit}", "--expect", expect)
        check(code == want, f"limit {limit}, --expect {expect}: exit {code}, wanted {want}")
        check((err != "") == (want == 1), f"limit {limit}, --expect {expect}: said {err!r}")
    here.write("silent.yaml", DECAY.split("    - judge:")[0] + "record: {every: 1 s, channels: [leak.flow]}\n")
    for expect in ("pass", "fail"):
        code, _, err = run("run", here("silent.yaml"), "--quiet", "--expect", expect)
        check(code == 1 and "judges nothing" in err, f"no judgement, --expect {expect}: exit {code}, {err!r}")

    # Files that cannot be read: 4; several files: the worst.
    for args in (["run", here("none.yaml")], ["run", here.path], ["check", here("none.yaml")],
                 ["list", "channels", here("none.yaml")], ["run", decay, "--against", here("none.yaml")],
                 ["check", decay, here("none.yaml")]):
        code, _, err = run(*args)
        check(code == 4 and err != "", f"{args}: exit {code}, wanted 4; {err!r}")
    bad = here.write("bad.yaml", DECAY.replace("volume: 30 L", "volume: 30"))
    code, out, err = run("check", decay, bad)
    check(code == 2 and f"{decay}: good" in out and err.startswith(f"{bad}:7:"), f"check of two: {code}, {out!r}, {err!r}")
    code, _, err = run("run", decay, "--against", bad)
    check(code == 2 and err.startswith(f"{bad}:7:"), f"--against a bad file: {code}, {err!r}")

    # Lists.
    for what, least in (("systems", 2), ("parts", 10), ("faults", 5), ("procedures", 2), ("blends", 1), ("units", 40)):
        code, out, err = run("list", what, cwd="/")
        check(code == 0 and len(out.splitlines()) >= least and err == "", f"list {what}: exit {code}, {out!r}, {err!r}")
    for part in ("vessel", "tank", "canister", "line", "hole", "valve", "cap", "port", "supply", "meter", "gauge",
                 "sensor", "manifold"):
        code, out, _ = run("list", "parts", part)
        check(code == 0 and len(out.splitlines()) >= 2, f"list parts {part}: exit {code}, {out!r}")
    code, out, _ = run("list", "parts", "canister")
    for name in ("end_space", "beds.N.volume", "beds.N.wet", "beds.N.carbon"):
        check(any(line.split()[:1] == [name] for line in out.splitlines()), f"list parts canister: no {name}: {out!r}")
    code, out, _ = run("list", "channels", decay)
    for channel in ("time", "air.pressure", "vessel.gauge_pressure", "leak.flow", "leak.standard_flow"):
        check(code == 0 and any(line.split()[0] == channel for line in out.splitlines()), f"list channels: no {channel}")

    # A window without a display: said at once, not waited for. A build without windows says that.
    nowhere = {name: value for name, value in os.environ.items()
               if name not in ("DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER")}
    code, _, err = run("view", decay, env=nowhere)
    check((code == 4 and "no display" in err) or (code == 2 and "made without" in err), f"no display: {code}, {err!r}")

    # --units si tells the story in the units of the files.
    out = run("run", decay, "--units", "si")[1]
    check("inH2O" not in out.split("Readings")[1] and " m^3/s" in out or " m3/s" in out, f"--units si: {out!r}")

finish()
