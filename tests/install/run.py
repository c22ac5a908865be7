"""Installs a build, moves it to another folder and builds somebody else's project against it: by find_package and by
pkg-config, with the static and the shared library.

usage: run.py BUILD_FOLDER CMAKE
"""
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
EXAMPLES, SAMPLE = HERE.parent / "examples", HERE.parents[1] / "sample-fleet"
build, cmake = pathlib.Path(sys.argv[1]).resolve(), sys.argv[2]
ANSWER = "pump-1 oil: due on 2026-05-01\nrefused: the machine `pump-1`: there is no site `yrad`\n"
passed = failed = 0


def run(*command, **more):
    return subprocess.run([str(word) for word in command], text=True, capture_output=True, **more)


def must(*command, **more):
    done = run(*command, **more)
    if done.returncode:
        raise RuntimeError(f"{' '.join(map(str, command))}\n{done.stdout}{done.stderr}")
    return done.stdout


def case(what, function, *arguments):
    global passed, failed
    try:
        function(*arguments)
        passed += 1
    except (RuntimeError, OSError) as error:
        failed += 1
        print(f"FAILED: {what}: {error}")


def says(expected, *command, **more):
    said = must(*command, **more)
    if said != expected:
        raise RuntimeError(f"it says {said!r}, not {expected!r}")


# Asks what is due of a fleet in memory, and enters facts into a record.
def answers(program, entering, **more):
    says(ANSWER, program, **more)
    says((EXAMPLES / "enter_a_fact.expected").read_text(), entering, SAMPLE, **more)


def by_cmake(prefix, kind, top):
    folder = top / f"cmake-{kind}"
    must(cmake, "-S", HERE / "consumer", "-B", folder, "-G", "Ninja", f"-DCMAKE_PREFIX_PATH={prefix}", f"-DKIND={kind}")
    must(cmake, "--build", folder)
    answers(folder / "consumer", folder / "enter_a_fact")


def by_pkg_config(prefix, kind, top):
    program, entering = top / f"by-pkg-config-{kind}", top / f"entering-by-pkg-config-{kind}"
    folder = next(prefix.rglob("pkgconfig"))
    environment = os.environ | {"PKG_CONFIG_PATH": str(folder), "LD_LIBRARY_PATH": str(folder.parent)}
    static = ["--static"] if kind == "static" else []
    flags = must("pkg-config", "--cflags", "--libs", *static, "service", env=environment).split()
    must("g++", "-std=c++20", HERE / "consumer" / "main.cpp", "-o", program, *flags)
    must("g++", "-std=c++20", EXAMPLES / "enter_a_fact.cpp", "-o", entering, *flags)
    answers(program, entering, env=environment)
    needs = "libservice.so" in must("ldd", program, env=environment)
    if needs != (kind == "shared"):
        raise RuntimeError("it is linked with the other library")


def only_public(prefix):
    library = next(prefix.rglob("libservice.so"))
    seen = must("nm", "-DC", "--defined-only", library)
    if "service::checked(service::Fleet)" not in seen:
        raise RuntimeError("`service::checked` is not exported")
    rooms = [f" service::{path.name}::" for path in (HERE.parents[1] / "libservice" / "src").iterdir()]
    inner = [line for line in seen.splitlines() if any(room in line for room in rooms)]
    if inner:
        raise RuntimeError("inner symbols are exported:\n" + "\n".join(inner[:20]))


def plans(prefix, top):
    whichever, fleet = prefix / "bin" / "whichever", shutil.copytree(SAMPLE, top / "fleet")
    must(whichever, "new", fleet)
    must(whichever, "--fleet", fleet, "import", fleet / "facts.csv", "--as-of", "2026-06-15")
    asked = [whichever, "--fleet", fleet, "rounds", "--from", "2026-06-15", "--as-of", "2026-06-15"]
    if "round" not in must(*asked):
        raise RuntimeError("it plans no round")
    solver = next(prefix.rglob("whichever-solver.so"))
    solver.rename(solver.with_suffix(".away"))
    without = run(*asked)
    solver.with_suffix(".away").rename(solver)
    if without.returncode != 74 or "whichever-solver.so" not in without.stderr:
        raise RuntimeError(f"without its solver it ends with {without.returncode}: {without.stderr}")


def places(program):
    """Where the loader looks for libraries: an empty place, or one without a root, is the folder in which one works."""
    told = [line for line in must("readelf", "-d", program).splitlines() if "RUNPATH" in line or "RPATH" in line]
    if not told:
        raise RuntimeError(f"{program.name} does not say where its solver is")
    for line in told:
        for place in line[line.index("[") + 1:line.rindex("]")].split(":"):
            if not place.startswith(("/", "$ORIGIN")):
                raise RuntimeError(f"{program.name} takes libraries from {place or 'the current folder'}: {line.strip()}")


def timers(prefix):
    for written in (HERE.parents[1] / "cli" / "timers").iterdir():
        placed = prefix / "share" / "doc" / "whichever" / "timers" / written.name
        if not placed.is_file() or placed.read_bytes() != written.read_bytes():
            raise RuntimeError(f"{written.name} is not there as it is in the source")


def main():
    with tempfile.TemporaryDirectory() as folder:
        top = pathlib.Path(folder)
        must(cmake, "--install", build, "--prefix", top / "first")
        prefix = top / "moved" / "here"
        prefix.parent.mkdir()
        (top / "first").rename(prefix)
        case("the command", must, prefix / "bin" / "whichever", "--version")
        case("where it looks for libraries", places, prefix / "bin" / "whichever")
        case("where it looks before it is installed", places, build / "cli" / "whichever")
        case("a plan, by the solver that it loads", plans, prefix, top)
        case("files for cron and systemd", timers, prefix)
        kinds = [kind for kind in ("static", "shared") if list(prefix.rglob(f"service-{kind}.cmake"))]
        for kind in {"static", "shared"} - set(kinds):
            print(f"{kind}: left out, this build has none (WHICHEVER_BOTH_LIBRARIES)")
        if not kinds:
            raise RuntimeError("no library was installed")
        for kind in kinds:
            case(f"find_package, {kind}", by_cmake, prefix, kind, top)
        if "shared" in kinds:
            case("what is exported", only_public, prefix)
            case("pkg-config, shared", by_pkg_config, prefix, "shared", top)
        if "static" in kinds:
            alone = shutil.copytree(prefix, top / "static-alone", symlinks=True)
            for library in alone.rglob("libservice.so*"):
                library.unlink()
            case("pkg-config, static", by_pkg_config, alone, "static", top)


main()
print(f"cases: {passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
