"""The built program from outside: run it, check what it did, end with what fell short. For tests/hostile/*.py."""
import os
import subprocess
import sys
import tempfile

ULLAGE = os.environ["ULLAGE"]
TOP = os.environ.get("ULLAGE_TOP", os.getcwd())
SANITIZED = os.environ.get("ULLAGE_SANITIZED", "0") == "1"

DECAY = """\
ullage: scenario/1
name: decay
about: A dry 30 L vessel at 14 inH2O empties through a 0.5 mm hole.
surroundings: {pressure: 101325 Pa, temperature: 20 degC}
system:
  parts:
    vessel: {type: vessel, volume: 30 L}
    leak: {type: hole, from: vessel, to: air, diameter: 0.5 mm}
start:
  vessel: {gauge_pressure: 14 inH2O, temperature: 20 degC, gas: air}
let: {limit: 60 s}
procedure:
  steps:
    - wait: {until: vessel.gauge_pressure < 8 inH2O, at_most: 30 min}
    - read: {decay_time: time, flow: leak.standard_flow}
    - judge: {tight: {pass: decay_time > limit, fail: decay_time < limit, because: a sound vessel holds for a minute}}
record: {every: 0.5 s, channels: [vessel.gauge_pressure, vessel.temperature, leak.flow]}
"""

# Hours of a leak that comes and goes every two seconds: minutes of work.
LONG = """\
ullage: scenario/1
name: long
system:
  parts:
    vessel: {type: vessel, volume: 1 L}
    supply: {type: hole, from: air, to: vessel, diameter: 0.1 mm}
    far: {type: vessel, volume: 1 L}
    between: {type: line, from: vessel, to: far, bore: 2 mm, length: 1 m}
faults:
  - {id: a, fault: leak, where: far, diameter: 0.3 mm, every: 2 s, for: 1 s}
start:
  vessel: {gauge_pressure: 3 kPa}
procedure:
  steps:
    - wait: {for: 2000 h}
record: {every: 1 h, channels: [vessel.gauge_pressure]}
"""

_failed = []
_checked = [0]


def check(good, text):
    _checked[0] += 1
    if not good:
        _failed.append(text)
        print("falls short:", text[:600])


def finish():
    print(f"{_checked[0]} checked, {len(_failed)} fall short")
    sys.exit(1 if _failed or not _checked[0] else 0)


def run(*args, stdin=subprocess.DEVNULL, **more):
    """(exit code, standard output, standard error) of the program."""
    more.setdefault("stdout", subprocess.PIPE)
    more.setdefault("stderr", subprocess.PIPE)
    done = subprocess.run([ULLAGE, *args], stdin=stdin, timeout=120, check=False, **more)
    text = [None if s is None else s.decode("utf-8", "replace") for s in (done.stdout, done.stderr)]
    return done.returncode, text[0], text[1]


class Folder:
    """A folder of its own that anybody may write into, with decay.yaml and long.yaml in it."""

    def __enter__(self):
        self._held = tempfile.TemporaryDirectory(prefix="ullage-test-")
        self.path = self._held.name
        os.chmod(self.path, 0o777)
        self.write("decay.yaml", DECAY)
        self.write("long.yaml", LONG)
        return self

    def __exit__(self, *_):
        self._held.cleanup()

    def __call__(self, name):
        return os.path.join(self.path, name)

    def write(self, name, text):
        with open(self(name), "w", encoding="utf-8") as file:
            file.write(text)
        return self(name)

    def read(self, name):
        with open(self(name), encoding="utf-8") as file:
            return file.read()

    def names(self):
        return sorted(os.listdir(self.path))
