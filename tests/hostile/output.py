"""Output that cannot be written leaves the old file whole, is told, and ends with exit code 4."""
import os
import resource
import shutil
import subprocess
import sys

sys.dont_write_bytecode = True  # leave no trace in the tree
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "support"))
from program import SANITIZED, ULLAGE, Folder, check, finish, run  # noqa: E402

OLD = "what stood here before\n"
PICTURES = run("run", "--plot", "x.png", "none.yaml")[0] == 4  # 2: this build draws nothing


def narrow(most):
    """A limit to the size of files, which stands for a disk that fills up. SIGXFSZ ignored, as a full disk sends none."""
    def before():
        import signal
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
    return before


def left_whole(here, before, name, what):
    check(here.read(name) == OLD, f"{what}: the old {name} is no longer whole")
    check(here.names() == before, f"{what}: left behind {sorted(set(here.names()) - set(before))}")


with Folder() as here:
    decay = here("decay.yaml")
    kinds = [("--csv", "out.csv"), ("--json", "out.json")] + [("--plot", "out.png"), ("--plot", "out.svg")] * PICTURES

    # All goes well: the new file is there, whole, and nothing else.
    for option, name in kinds:
        here.write(name, OLD)
        before = here.names()
        code, _, err = run("run", decay, "--quiet", option, here(name))
        check(code == 0 and os.path.getsize(here(name)) > 500 and here.names() == before, f"{name}: exit {code}, {err!r}")

    # A disk that fills up, at several moments.
    for option, name in kinds:
        for most in (0, 1, 400):
            here.write(name, OLD)
            before = here.names()
            code, out, err = run("run", decay, "--quiet", option, here(name), preexec_fn=narrow(most))
            check(code == 4 and name in err, f"{name} within {most} bytes: exit {code}, {err!r}")
            left_whole(here, before, name, f"within {most} bytes")

    # A device without room; a folder that is not there, or may not be written; a name that is a folder.
    for option, name in kinds[:2]:
        code, _, err = run("run", decay, "--quiet", option, "/dev/full")
        check(code == 4 and "No space" in err, f"{option} /dev/full: exit {code}, {err!r}")
    for option, name in kinds:
        code, _, err = run("run", decay, "--quiet", option, here("none/" + name))
        check(code == 4 and "none/" + name in err, f"{option} into no folder: exit {code}, {err!r}")
        os.makedirs(here("folder." + name.split(".")[1]), exist_ok=True)
        code, _, err = run("run", decay, "--quiet", option, here("folder." + name.split(".")[1]))
        check(code == 4 and err != "", f"{option} over a folder: exit {code}, {err!r}")
    with open("/dev/full", "w") as full:
        for args in (["run", decay], ["run", decay, "--quiet", "--csv", "-"], ["run", decay, "--quiet", "--json", "-"],
                     ["run", "--help"], ["--help"], ["--version"], ["list", "units"], ["check", decay]):
            code, _, err = run(*args, stdout=full)
            check(code == 4 and "standard output" in err, f"{args} to a full device: exit {code}, {err!r}")
    code, _, err = run("run", decay, "--quiet", "--csv", "/dev/null")
    check(code == 0 and not os.path.isfile("/dev/null"), f"--csv /dev/null: exit {code}, {err!r}")

    # No right: as nobody, who may not write over root's file, nor into a folder of root's. Only root can become nobody.
    setpriv = shutil.which("setpriv")
    if os.getuid() == 0 and setpriv:
        nobody = [setpriv, "--reuid=65534", "--regid=65534", "--clear-groups", ULLAGE]
        os.makedirs(here("closed"))
        os.chmod(here("closed"), 0o755)
        reach = subprocess.run([*nobody, "--version"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False)
        if reach.returncode == 0:  # else the build folder itself is closed to nobody
            for option, name in kinds:
                here.write(name, OLD)
                os.chmod(here(name), 0o644)
                before = here.names()
                for path in (here(name), here("closed/" + name)):
                    done = subprocess.run([*nobody, "run", decay, "--quiet", option, path], stdout=subprocess.PIPE,
                                          stderr=subprocess.PIPE, check=False)
                    check(done.returncode == 4, f"{path} as nobody: exit {done.returncode}, {done.stderr!r}")
                left_whole(here, before, name, "as nobody")
            check(os.listdir(here("closed")) == [], "left behind in the closed folder")
            os.chmod(decay, 0o600)
            done = subprocess.run([*nobody, "run", decay], stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False)
            check(done.returncode == 4, f"an unreadable scenario: exit {done.returncode}, {done.stderr!r}")
            os.chmod(decay, 0o644)

    # A pipe that nobody reads: exit 4, no words, no death by signal.
    for args in (["run", decay], ["run", decay, "--csv", "-", "--quiet"], ["run", decay, "--json", "-", "--quiet"],
                 ["list", "units"], ["run", "--help"]):
        reading, writing = os.pipe()
        os.close(reading)
        done = subprocess.run([ULLAGE, *args], stdout=writing, stderr=subprocess.PIPE, check=False)
        os.close(writing)
        check(done.returncode == 4 and done.stderr == b"", f"{args} into a broken pipe: {done.returncode}, {done.stderr!r}")

    # Standard streams that were closed from the start.
    here.write("out.csv", OLD)
    done = subprocess.run(["sh", "-c", 'exec "$0" run "$1" --quiet --csv "$2" <&- >&- 2>&-', ULLAGE, decay,
                           here("out.csv")], check=False)
    check(done.returncode == 0 and here.read("out.csv").startswith("time_s,"), f"all streams closed: {done.returncode}")
    done = subprocess.run(["sh", "-c", 'exec "$0" run "$1" >&-', ULLAGE, decay], stderr=subprocess.PIPE, check=False)
    check(done.returncode == 4, f"standard output closed: exit {done.returncode}, {done.stderr!r}")

    # Links, pipes and rights are kept.
    os.symlink("out.csv", here("link.csv"))
    os.chmod(here("out.csv"), 0o640)
    code, _, _ = run("run", decay, "--quiet", "--csv", here("link.csv"))
    check(code == 0 and os.path.islink(here("link.csv")), "a link was written over")
    check(os.stat(here("out.csv")).st_mode & 0o777 == 0o640, "a file lost its rights")
    straight = run("run", decay, "--quiet", "--csv", "-")[1]
    check(here.read("out.csv") == straight and len(straight) > 1000, "a file and standard output differ")
    os.mkfifo(here("fifo"))
    with subprocess.Popen([ULLAGE, "run", decay, "--quiet", "--csv", here("fifo")]) as process:
        with open(here("fifo"), encoding="utf-8") as fifo:
            check(fifo.read() == straight, "a named pipe got something else")
        check(process.wait(timeout=60) == 0, "a named pipe: exit code")

    # Numbers that fail, or bad input: no file appears.
    before = here.names()
    code, _, _ = run("run", decay, "--quiet", "--set", "leak.diameter=1", "--csv", here("new.csv"))
    check(code == 2 and here.names() == before, "bad input left a file")

    # A tiny disk of its own, where we may mount one.
    tiny = here("tiny")
    os.makedirs(tiny)
    if os.getuid() == 0 and subprocess.run(["mount", "-t", "tmpfs", "-o", "size=16k", "none", tiny],
                                           stderr=subprocess.DEVNULL, check=False).returncode == 0:
        try:
            with open(os.path.join(tiny, "out.csv"), "w", encoding="utf-8") as file:
                file.write(OLD)
            code, _, err = run("run", decay, "--quiet", "--set", "leak.diameter=0.1mm", "--csv",
                               os.path.join(tiny, "out.csv"))
            check(code == 4 and "No space" in err, f"a full disk: exit {code}, {err!r}")
            check(os.listdir(tiny) == ["out.csv"] and here.read("tiny/out.csv") == OLD, "a full disk: the old file")
        finally:
            subprocess.run(["umount", tiny], check=True)

check(SANITIZED in (True, False), "the environment")
finish()
