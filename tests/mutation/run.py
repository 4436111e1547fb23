#!/usr/bin/env python3
"""Does the suite notice? Changes the model in many places, one at a time, and runs the tests that come by each.

    tests/mutation/run.py [--mutants 300] [--seed 20] [--folder build-mutation] [--cpu 60] [--jobs N] [--minutes M]
                          [--again] [ROOM ...]

Places (operators, constants, bounds, conditions, statements) are drawn with a fixed seed from the sources of the rooms.
One instrumented copy holds all of them (marks.hpp); a place that does not compile is left out, counted and replaced by
the next. Every test case is run once without a mutant to see what it comes by and how long it takes; then each mutant
is judged by the cases that come by it, those of its own room and the quickest first, until one fails. A case that
takes three times its time, or a crash, counts as noticed. Results stand in FOLDER/results.jsonl; a run that was stopped
goes on where it was; --again takes tests that were written since and judges those that lived by the new cases, and by those that were
left out for want of time (with a longer --cpu).
--cpu bounds the seconds a mutant may take: what was not run because of it is told.
Not part of continuous integration: it takes hours.
"""

import argparse
import collections
import json
import os
import pathlib
import random
import re
import resource
import shutil
import subprocess
import sys
import time

import places

HOME = pathlib.Path(__file__).resolve().parents[2]
MUTATED = ["optics", "color", "appearance", "search", "schedule", "measure", "learn"]
# Each sees the rooms before it.
TABLE = ["color", "optics", "measure", "material", "schedule", "appearance", "search", "learn", "job"]


def arguments():
    p = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    p.add_argument("rooms", nargs="*", default=MUTATED)
    p.add_argument("--mutants", type=int, default=300)
    p.add_argument("--seed", type=int, default=20)
    p.add_argument("--folder", default=str(HOME / "build-mutation"))
    p.add_argument("--cpu", type=float, default=60)
    p.add_argument("--jobs", type=int, default=os.cpu_count(), help="compilers at once")
    p.add_argument("--again", action="store_true", help="judge those that lived by cases written since")
    p.add_argument("--minutes", type=float, default=0, help="stop after so many (0: when all is done)")
    return p.parse_args()


def copy_sources(folder, under="."):
    """The files of the tree that git knows, or those below one folder of it."""
    files = subprocess.run(["git", "ls-files", "-z", under], cwd=HOME, check=True, capture_output=True).stdout
    for name in filter(None, files.decode().split("\0")):
        to = folder / name
        to.parent.mkdir(parents=True, exist_ok=True)
        if (HOME / name).is_file() and (not to.exists() or to.read_bytes() != (HOME / name).read_bytes()):
            shutil.copyfile(HOME / name, to)
            shutil.copymode(HOME / name, to)
    if under != ".":
        return
    shutil.copytree(folder / "src", folder / "unmarked/src", dirs_exist_ok=True)
    shutil.copyfile(HOME / "tests/mutation/marks.hpp", folder / "include/foretone/mutation_marks.hpp")


def drawn(options, source):
    """All places in the order in which they are drawn."""
    found = []
    for room in options.rooms:
        for path in sorted((source / "unmarked/src" / room).glob("*.[ch]pp")):
            found += places.places_of(f"src/{room}/{path.name}", path.read_text())
    random.Random(options.seed).shuffle(found)
    return found


def write_marked(source, chosen):
    by_file = collections.defaultdict(list)
    for number, place in chosen.items():
        by_file[place.file].append((number, place))
    for path in (source / "src").rglob("*.[ch]pp"):
        name = str(path.relative_to(source))
        text = (source / "unmarked" / name).read_text()
        if name in by_file:
            text = places.with_marks(text, by_file[name])
        if path.read_text() != text:
            path.write_text(text)


def build(options, source):
    build_folder = source / "build"
    environment = dict(os.environ, CCACHE_BASEDIR=str(source))
    if not (build_folder / "build.ninja").exists():
        subprocess.run(["cmake", "-S", source, "-B", build_folder, "-G", "Ninja", "-DCMAKE_UNITY_BUILD=ON",
                        "-DCMAKE_UNITY_BUILD_BATCH_SIZE=100", "-DFORETONE_WERROR=OFF",
                        "-DCMAKE_CXX_FLAGS_RELEASE=-O2 -DNDEBUG"], check=True, env=environment,
                       stdout=subprocess.DEVNULL)
    suites = ["test_" + room for room in suites_of(options.rooms)]
    done = subprocess.run(["cmake", "--build", build_folder, "-j", str(options.jobs), "--", "-k", "0", *suites],
                          env=environment, capture_output=True, text=True)
    (source / "build.log").write_text(done.stdout + done.stderr)
    return done.returncode == 0, done.stdout + done.stderr


def suites_of(rooms):
    return TABLE[min(TABLE.index(room) for room in rooms):]


def faulty(log, chosen):
    """Mutants in lines that the compiler names, or in whose marks it finds the error."""
    named = set(re.findall(r"(src/[\w/]+\.[ch]pp):(\d+)", log))
    lines = {(file, int(line) - 1) for file, line in named}  # the include of the marks is one line more
    out = []
    for number, place in chosen.items():
        last = place.line + place.text.count("\n")
        if any((place.file, line) in lines for line in range(place.line, last + 1)):
            out.append(number)
    last = 0
    for line in log.splitlines():
        if "In instantiation of" in line and (number := re.search(r"int N = (\d+)", line)):
            last = int(number.group(1))
        if "mutation_marks.hpp" in line and "error:" in line and last in chosen and last not in out:
            out.append(last)
    return out


def built(options, source):
    """Mutants by number, all compiled, and how many places had to be left out."""
    kept = source / "chosen.json"
    if kept.exists():
        saved = json.loads(kept.read_text())
        return {int(n): places.Place(**p) for n, p in saved["chosen"].items()}, saved["left_out"]
    queue, chosen, left_out, next_number = iter(drawn(options, source)), {}, 0, 1

    def fill():
        nonlocal next_number
        for place in queue:
            if len(chosen) == options.mutants:
                return
            if places_apart(place, chosen):
                chosen[next_number] = place
                next_number += 1

    fill()
    while True:
        write_marked(source, chosen)
        good, log = build(options, source)
        if good:
            break
        errors = "\n".join(line for line in log.splitlines()
                           if "error" in line or "required from" in line or "In instantiation of" in line)
        bad = faulty(errors, chosen)
        if not bad:
            sys.exit(f"the copy does not compile, and no mutant is to blame: {source}/build.log")
        print(f"left out, as they do not compile: {len(bad)}", flush=True)
        for number in bad:
            del chosen[number]
        left_out += len(bad)
        if left_out < options.mutants:
            fill()
    kept.write_text(json.dumps({"chosen": {n: p.__dict__ for n, p in chosen.items()}, "left_out": left_out}, indent=1))
    return chosen, left_out


def places_apart(place, chosen):
    return places.apart(place, [other for other in chosen.values() if other.file == place.file])


def run_cases(program, names, folder, mutant=0, reached="", cpu=600):
    """Runs test cases in one process; returns whether all passed, and the processor's seconds."""
    listed = folder / f"cases-{os.getpid()}.txt"
    listed.write_text("".join(re.sub(r'([\\,"\[])', r"\\\1", name) + "\n" for name in names))  # as Catch reads lists
    environment = dict(os.environ, FORETONE_MUTANT=str(mutant), FORETONE_REACHED=reached)
    if not reached:
        del environment["FORETONE_REACHED"]
    limit = lambda: resource.setrlimit(resource.RLIMIT_CPU, (int(cpu) + 1, int(cpu) + 2))
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    try:
        done = subprocess.run([program, "-f", listed, "--abort"], env=environment, capture_output=True,
                              preexec_fn=limit, timeout=60 + 40 * cpu)
        good = done.returncode == 0
    except subprocess.TimeoutExpired:
        good = False
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return good, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def looked_at(options, source):
    """Of every test case: its suite, name, seconds and the mutants it comes by."""
    kept = source / "cases.json"
    cases = json.loads(kept.read_text()) if kept.exists() else []
    known = {(c["suite"], c["name"]) for c in cases}
    for suite in suites_of(options.rooms):
        program = source / "build" / f"test_{suite}"
        if not program.exists():
            continue
        names = subprocess.run([program, "--list-test-names-only", "~[long]"], capture_output=True, text=True).stdout
        for name in names.splitlines():
            if (suite, name) in known or not name.strip():
                continue
            reached = source / "reached.txt"
            reached.unlink(missing_ok=True)
            good, seconds = run_cases(program, [name], source, reached=str(reached))
            by = [int(n) for n in reached.read_text().split()] if reached.exists() else []
            cases.append({"suite": suite, "name": name, "good": good, "seconds": seconds, "reached": by})
        kept.write_text(json.dumps(cases, indent=1))
        bad = [c["name"] for c in cases if c["suite"] == suite and not c["good"]]
        many = sum(c["suite"] == suite for c in cases)
        print(f"{suite}: {many} cases, {len(bad)} fail without a mutant {bad}", flush=True)
    return [c for c in cases if c["good"]]


def batches(cases, room):
    """What is quick first, in it the room's own suite first; cases of a suite together for a second or so."""
    order = [room] + [suite for suite in TABLE if suite != room]
    for least, most in ((0, 0.3), (0.3, 3), (3, float("inf"))):
        for suite in order:
            batch = []
            for case in sorted((c for c in cases if c["suite"] == suite and least <= c["seconds"] < most),
                               key=lambda c: c["seconds"]):
                batch.append(case)
                if sum(c["seconds"] for c in batch) > min(most, 3):
                    yield suite, batch
                    batch = []
            if batch:
                yield suite, batch


def judge(number, place, cases, options, source):
    room = place.file.split("/")[1]
    by = [c for c in cases if number in c["reached"]]
    out = {"mutant": number, "place": place.words(), "cases": len(by), "run": 0, "killed": False, "by": ""}
    spent = 0.0
    for suite, batch in batches(by, room):
        due = sum(c["seconds"] for c in batch)
        if spent + due > options.cpu and spent > 0:
            continue
        good, seconds = run_cases(source / "build" / f"test_{suite}", [c["name"] for c in batch], source,
                                  mutant=number, cpu=3 * due + 3)
        spent += seconds
        out["run"] += len(batch)
        if not good:
            out["killed"], out["by"] = True, suite
            break
    out["seconds"] = round(spent, 2)
    return out


def judge_again(options, chosen, source):
    """Judges those that lived by the cases that were not there before; then by those left out for want of time."""
    copy_sources(source, "tests")
    good, _ = build(options, source)
    if not good:
        sys.exit(f"the tests do not compile: {source}/build.log")
    before = {(c["suite"], c["name"]) for c in json.loads((source / "cases.json").read_text())}
    cases = looked_at(options, source)
    new = [c for c in cases if (c["suite"], c["name"]) not in before]
    kept = source / "results.jsonl"
    results = [json.loads(line) for line in kept.read_text().splitlines()]
    end = time.monotonic() + 60 * options.minutes if options.minutes else None

    def those_alive(asked, these):
        for at, old in enumerate(results):
            if old["killed"] or not asked(old) or (end and time.monotonic() > end):
                continue
            now = judge(old["mutant"], chosen[old["mutant"]], these, options, source)
            if these is new:
                now["run"] += old["run"]
                now["cases"] += old["cases"]
            results[at] = now
            if now["killed"]:
                print(f"noticed: {now['mutant']} {now['place']} by {now['by']}", flush=True)
            kept.write_text("".join(json.dumps(r) + "\n" for r in results))

    those_alive(lambda old: True, new)
    those_alive(lambda old: old["run"] < old["cases"], cases)  # not all were run for want of time
    return results


def report(options, chosen, left_out, results):
    killed = [r for r in results if r["killed"]]
    unseen = [r for r in results if not r["killed"] and r["cases"] == 0]
    alive = [r for r in results if not r["killed"] and r["cases"] > 0]
    print(f"\n{len(chosen)} mutants, seed {options.seed}; {left_out} places left out that do not compile")
    print(f"killed {len(killed)} of {len(results)} judged ({100 * len(killed) / max(1, len(results)):.0f} %)")
    for room in options.rooms:
        own = [r for r in results if r["place"].startswith(f"src/{room}/")]
        print(f"  {room}: {sum(r['killed'] for r in own)} of {len(own)}")
    print(f"in lines that no case reaches: {len(unseen)}")
    for r in unseen:
        print(f"  {r['mutant']} {r['place']}")
    print(f"alive: {len(alive)}")
    for r in alive:
        print(f"  {r['mutant']} {r['place']} ({r['run']} of {r['cases']} cases run)")


def main():
    options = arguments()
    source = pathlib.Path(options.folder).resolve()
    source.mkdir(parents=True, exist_ok=True)
    end = time.monotonic() + 60 * options.minutes if options.minutes else None
    if not (source / "chosen.json").exists():
        copy_sources(source)
    chosen, left_out = built(options, source)
    print(f"{len(chosen)} mutants built, {left_out} places left out that do not compile", flush=True)
    if options.again:
        report(options, chosen, left_out, judge_again(options, chosen, source))
        return
    cases = looked_at(options, source)
    kept = source / "results.jsonl"
    results = [json.loads(line) for line in kept.read_text().splitlines()] if kept.exists() else []
    done = {r["mutant"] for r in results}
    for number, place in chosen.items():
        if number in done:
            continue
        if end and time.monotonic() > end:
            print("time is up; the same command goes on from here")
            break
        results.append(judge(number, place, cases, options, source))
        with kept.open("a") as out:
            out.write(json.dumps(results[-1]) + "\n")
        if len(results) % 10 == 0:
            print(f"{len(results)} judged, {sum(r['killed'] for r in results)} killed", flush=True)
    report(options, chosen, left_out, results)


if __name__ == "__main__":
    main()
