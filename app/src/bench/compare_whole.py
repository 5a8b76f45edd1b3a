#!/usr/bin/python3
"""Whole processes side by side: analysing a start of 600,000 rows, a batch of 400 small traces, the
start of each command, and a file of 1 GB in a heap of 1 GB.

    mvn -q -DskipTests package
    /usr/bin/python3 app/src/bench/compare_whole.py [rounds] [--big] [--jar OTHER.jar]

from the project's folder. Commands take turns within a round, so that other load on the machine meets
all of them; medians are printed, and the median of the ratios within rounds. Needs GNU time, and
Debian's python3-numpy and python3-pandas for the script beside which `analyze` is held. `--jar` adds
an earlier build to every comparison.
"""

import argparse
import pathlib
import statistics
import subprocess
import tempfile
import time

BENCH = pathlib.Path(__file__).resolve().parent
ROOT = BENCH.parents[2]
JAR = ROOT / "app/target/rampwright.jar"
PUMP = ROOT / "sample-traces/brine-pump"
NUMBERS_MB = 600_000 * 8 * 8 / 1e6


def measured(command):
    """Wall and processor seconds, peak resident MB."""
    start = time.perf_counter()
    run = subprocess.run(["/usr/bin/time", "-f", "%U %S %M", *map(str, command)],
                         stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
    wall = time.perf_counter() - start
    user, system, kilobytes = run.stderr.split()[-3:]
    return wall, float(user) + float(system), int(kilobytes) / 1024


def compare(title, commands, rounds):
    """Runs the commands in turn; ratios are those to the first."""
    for command in commands.values():
        measured(command)
    runs = {name: [] for name in commands}
    for _ in range(rounds):
        for name, command in commands.items():
            runs[name].append(measured(command))
    first = next(iter(commands))
    print(f"\n{title} ({rounds} rounds; load {pathlib.Path('/proc/loadavg').read_text().split()[0]})")
    print(f"{'':<28} {'wall s':>7} {'cpu s':>7} {'MB':>6} {'wall / first':>12} {'cpu / first':>12}")
    for name, values in runs.items():
        wall = statistics.median(v[0] for v in values)
        cpu = statistics.median(v[1] for v in values)
        memory = max(v[2] for v in values)
        by_wall = statistics.median(v[0] / f[0] for v, f in zip(values, runs[first]))
        by_cpu = statistics.median(v[1] / f[1] for v, f in zip(values, runs[first]))
        print(f"{name:<28} {wall:7.2f} {cpu:7.2f} {memory:6.0f} {by_wall:12.2f} {by_cpu:12.2f}",
              flush=True)


def small_traces(folder, count):
    """Copies of a shipped RMS trace, each with its currents scaled a little."""
    rows = sorted(PUMP.glob("trials/*/trace.csv"))[0].read_text().splitlines()
    header = next(i for i, row in enumerate(rows) if row.startswith("time_s"))
    for number in range(count):
        lines = rows[:header + 1]
        for row in rows[header + 1:]:
            cells = row.split(",")
            for column in (1, 2, 3):
                if cells[column]:
                    cells[column] = f"{float(cells[column]) * (1 + number / 4000):.2f}"
            lines.append(",".join(cells))
        (folder / f"start-{number:03}.csv").write_text("\n".join(lines) + "\n")


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("rounds", type=int, nargs="?", default=7)
    parser.add_argument("--big", action="store_true")
    parser.add_argument("--jar")
    given = parser.parse_args()
    rampwright = ["java", "-jar", JAR]
    launcher = [ROOT / "app/bin/rampwright"]
    earlier = {"earlier build": ["java", "-jar", given.jar]} if given.jar else {}

    def ours(*arguments):
        programs = {"rampwright": rampwright, "rampwright, launcher": launcher, **earlier}
        return {name: [*program, *arguments] for name, program in programs.items()}

    with tempfile.TemporaryDirectory() as place:
        folder = pathlib.Path(place)
        start = folder / "start.csv"
        subprocess.run(["java", BENCH / "MakeStart.java", start, "600000", "10000"], check=True)
        script = ["/usr/bin/python3", BENCH / "analyze_start.py", start]
        compare(f"analyze a start of 600,000 rows, {NUMBERS_MB:.0f} MB of numbers",
                {**ours("analyze", start), "script, pandas": [*script, "pandas"],
                 "script, NumPy": [*script, "numpy"]}, given.rounds)
        small_traces(folder, 400)
        start.unlink()
        compare("analyze 400 small RMS traces", ours("analyze", *sorted(folder.glob("*.csv"))),
                max(3, given.rounds // 2))
        compare("--help", ours("--help"), given.rounds)
        for command in ("analyze", "compare", "advise"):
            compare(f"{command} of the brine pump's folder", ours(command, PUMP),
                    max(3, given.rounds // 2))
        if given.big:
            big = folder / "big.csv"
            subprocess.run(["java", BENCH / "MakeStart.java", big, "13200000", "220000"], check=True)
            print(f"\n{big.stat().st_size / 1e9:.2f} GB, {13.2e6 * 8 * 8 / 1e6:.0f} MB of numbers")
            compare("analyze it within -Xmx1g",
                    {"rampwright": ["java", "-Xmx1g", "-jar", JAR, "analyze", big]}, 3)


if __name__ == "__main__":
    main()
