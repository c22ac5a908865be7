"""Every public header of the library compiles alone, shows nobody else's types and marks what a shared library exports.

usage: headers.py INCLUDE_FOLDER
"""
import pathlib
import re
import shutil
import subprocess
import sys

STANDARD = set("""algorithm any array atomic barrier bit bitset charconv chrono compare complex concepts
condition_variable coroutine deque exception filesystem forward_list functional future initializer_list iterator latch
limits list map memory memory_resource mutex new numbers numeric optional queue random ranges ratio scoped_allocator
semaphore set shared_mutex source_location span stack stdexcept stop_token string string_view system_error thread tuple
type_traits typeindex typeinfo unordered_map unordered_set utility valarray variant vector version cassert cctype cerrno
cfenv cfloat cinttypes climits cmath cstddef cstdint cstdio cstdlib cstring ctime cuchar""".split())
FLAGS = ["-std=c++20", "-fsyntax-only", "-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Werror", "-x", "c++"]

folder = pathlib.Path(sys.argv[1]).resolve()
headers = sorted(folder.glob("service/**/*.h"))
names = {str(header.relative_to(folder)) for header in headers}
passed = failed = 0


def check(what, wrong):
    global passed, failed
    if wrong:
        failed += 1
        print(f"FAILED: {what}: {wrong}")
    else:
        passed += 1


def foreign(text):
    for given in re.findall(r"^\s*#\s*include\s*([<\"][^>\"]*[>\"])", text, re.M):
        known = given[1:-1] in (STANDARD if given[0] == "<" else names)
        if not known:
            return f"#include {given} is neither of the standard library nor a public header"
    return None


def unmarked(text):
    begin = text.find("#pragma GCC visibility push(default)")
    end = text.rfind("#pragma GCC visibility pop")
    first, last = text.find("\nnamespace service {"), text.rfind("}  // namespace service")
    if 0 <= begin < first and end > last >= 0:
        return None
    return "its namespace is not between #pragma GCC visibility push(default) and pop"


def compiles(what, text, compiler):
    done = subprocess.run([compiler, *FLAGS, "-I", folder, "-"], input=text, text=True, capture_output=True)
    check(f"{what} under {compiler}", done.returncode and done.stderr)


# Whether a header stands alone is its own matter and not a compiler's; what a compiler thinks of them, it thinks of all.
compilers = [name for name in ("g++", "clang++") if shutil.which(name)]
for name in {"g++", "clang++"} - set(compilers):
    print(f"{name}: left out, it is not installed here")
for header in headers:
    name = header.relative_to(folder)
    text = header.read_text()
    check(f"{name}: its includes", foreign(text))
    if "namespace service" in text:
        check(f"{name}: its marks", unmarked(text))
    for compiler in compilers[:1]:
        compiles(f"{name} alone", f"#include <{name}>\n", compiler)
for compiler in compilers[1:]:
    compiles("all headers", "".join(f"#include <{header.relative_to(folder)}>\n" for header in headers), compiler)
if not headers or not compilers:
    check(str(folder), "no headers, or no compiler")
print(f"cases: {passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
