"""A conditioned canister is kept where the XDG base directory specification says; kept, broken or impossible to keep, the
answer is the same to the bit."""
import os
import sys

sys.dont_write_bytecode = True  # leave no trace in the tree
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "support"))
from program import Folder, check, finish, run  # noqa: E402

RIG = """\
ullage: scenario/1
name: kept
system:
  parts:
    canister: {type: canister, beds: [{volume: 0.6 L, length: 150 mm, cells: 6}]}
    vent: {type: hole, from: canister.air, to: air, diameter: 8 mm}
start: {canister: {conditioned: {cycles: 2}}}
end: 1 h
record: {every: 1 min, channels: [canister.load, canister.n-butane, vent.flow]}
"""


def kept_below(folder):
    return sorted(os.path.join(at, name) for at, _, names in os.walk(folder) for name in names)


def surroundings(**told):
    env = {key: value for key, value in os.environ.items() if key not in ("HOME", "XDG_CACHE_HOME")}
    return {**env, **told}


with Folder() as here:
    rig = here.write("rig.yaml", RIG)

    def answer(what, **told):
        code, out, err = run("run", rig, "--csv", "-", env=surroundings(**told))
        check(code == 0 and out.count("\n") == 62, f"{what}: exit {code}, {err!r}")
        check("The carbon of the canister holds " in " ".join(err.split()), f"{what}: {err!r}")
        return out

    # Nothing says where: nothing is kept, and all goes well. A path that is not absolute says nothing.
    right = answer("nowhere")
    os.chdir(here.path)
    check(answer("not absolute", XDG_CACHE_HOME="cache", HOME="home") == right, "not absolute: another answer")
    check(not kept_below(here("cache")) and not kept_below(here("home")), "not absolute: kept all the same")

    # Kept, found again, broken, made anew.
    cache, home = here("cache/deep"), here("home")
    check(answer("first", XDG_CACHE_HOME=cache, HOME=home) == right, "first: another answer")
    kept = kept_below(cache)
    check(len(kept) == 1 and os.path.dirname(kept[0]) == os.path.join(cache, "ullage"), f"first: kept {kept}")
    check(not kept_below(home), "first: HOME is used though XDG_CACHE_HOME says where")
    before = os.stat(kept[0])
    check(answer("again", XDG_CACHE_HOME=cache) == right, "again: another answer")
    check(os.stat(kept[0]).st_ino == before.st_ino, "again: made anew though it was there")
    with open(kept[0], "rb") as file:
        whole = file.read()
    for what, text in (("empty", b""), ("cut", whole[:-100]), ("foreign", b"{}\n"), ("changed", whole.replace(b"3f", b"3e", 1))):
        with open(kept[0], "wb") as file:
            file.write(text)
        check(answer(what, XDG_CACHE_HOME=cache) == right, f"{what}: another answer")
        with open(kept[0], "rb") as file:
            check(file.read() == whole, f"{what}: not made anew")
    check(kept_below(cache) == kept, f"left behind: {kept_below(cache)}")

    # Unset or empty: below HOME.
    check(answer("home", XDG_CACHE_HOME="", HOME=home) == right, "home: another answer")
    kept = kept_below(home)
    check(len(kept) == 1 and os.path.dirname(kept[0]) == os.path.join(home, ".cache", "ullage"), f"home: kept {kept}")

    # Nothing can be written there: a folder without room for one, a file in its place.
    check(answer("no folder", XDG_CACHE_HOME="/proc/none") == right, "no folder: another answer")
    check(answer("a file", XDG_CACHE_HOME=rig) == right, "a file: another answer")
    check(here.read("rig.yaml") == RIG, "a file: written over")

finish()
