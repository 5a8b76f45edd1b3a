#!/usr/bin/python3
"""Compares reading a CSV file of 600,000 rows x 8 columns: this program, pandas, NumPy, DuckDB.

    /usr/bin/python3 acquisition/src/bench/compare_csv.py [rounds]

from the project's folder, after `mvn -q -DskipTests package` and, for DuckDB,
`mvn dependency:get -Dartifact=org.duckdb:duckdb_jdbc:1.5.6.0`. Needs Debian's python3-pandas and
python3-numpy. Readers take turns within a round, so that other load on the machine meets all of
them. `whole` is a process that reads once, from its start to its end; `first` and `warm` are timed
inside a process that reads eight times: the first, and the median of the last five.
"""

import pathlib
import statistics
import subprocess
import sys
import tempfile
import time

BENCH = pathlib.Path(__file__).resolve().parent
ROOT = BENCH.parents[2]
MAVEN = pathlib.Path.home() / ".m2" / "repository"
WARM_READS = 8


def generate(path):
    """Writes what CsvReadBenchmark writes in kind: six-decimal currents, four-decimal voltages."""
    import numpy

    rows = 600_000
    random = numpy.random.default_rng(1)
    time_s = numpy.arange(rows) * 1e-4
    angle = 2 * numpy.pi * 50 * time_s
    envelope = 400 * numpy.exp(-time_s / 10) + 50
    columns = [time_s]
    for phase in range(3):
        columns.append(envelope * numpy.sin(angle - phase * 2 * numpy.pi / 3)
                       + random.uniform(-2, 2, rows))
    for phase in range(3):
        columns.append(565 * numpy.sin(angle + 0.5 - phase * 2 * numpy.pi / 3)
                       + random.uniform(-2, 2, rows))
    columns.append(numpy.minimum(1480, time_s * 100))
    with open(path, "w") as out:
        out.write("time_s,i1_A,i2_A,i3_A,v12_V,v23_V,v31_V,speed_rpm\n")
        numpy.savetxt(out, numpy.column_stack(columns),
                      fmt="%.6f,%.6f,%.6f,%.6f,%.4f,%.4f,%.4f,%.3f")


def jar(group, name, version):
    return MAVEN / group.replace(".", "/") / name / version / f"{name}-{version}.jar"


def main():
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 7
    with tempfile.TemporaryDirectory() as folder:
        file = pathlib.Path(folder) / "start.csv"
        generate(file)
        duckdb = jar("org.duckdb", "duckdb_jdbc", "1.5.6.0")
        path = ":".join(map(str, [
            folder,
            ROOT / "acquisition/target/classes",
            ROOT / "analysis/target/classes",
            jar("ch.randelshofer", "fastdoubleparser", "2.0.1"),
            duckdb,
        ]))
        subprocess.run(["javac", "-cp", path, "-d", folder, BENCH / "ReadOurs.java",
                        BENCH / "ReadDuckDb.java"], check=True)
        readers = {
            "rampwright": (["java", "-cp", path, "ReadOurs"], []),
            "pandas": (["/usr/bin/python3", BENCH / "read_pandas.py"], []),
            "numpy.loadtxt": (["/usr/bin/python3", BENCH / "read_numpy.py"], []),
        }
        if duckdb.exists():
            readers["DuckDB into a table"] = (["java", "-cp", path, "ReadDuckDb"], ["table"])
            readers["DuckDB into arrays"] = (["java", "-cp", path, "ReadDuckDb"], ["arrays"])
        whole = {name: [] for name in readers}
        processor = {name: [] for name in readers}
        memory = {name: 0 for name in readers}
        first = {name: [] for name in readers}
        warm = {name: [] for name in readers}
        sums = {}
        for _ in range(rounds):
            for name, (command, tail) in readers.items():
                start = time.perf_counter()
                result = subprocess.run(
                    ["/usr/bin/time", "-f", "%U %S %M", *command, file, "1", *tail],
                    check=True, capture_output=True, text=True)
                whole[name].append(time.perf_counter() - start)
                user, system, kilobytes = result.stderr.split()[-3:]
                processor[name].append(float(user) + float(system))
                memory[name] = max(memory[name], int(kilobytes) / 1024)
                sums[name] = result.stdout.split()[1:3]
        for name, (command, tail) in readers.items():
            reads = 3 if name == "numpy.loadtxt" else WARM_READS
            for _ in range(2):
                result = subprocess.run([*command, file, str(reads), *tail],
                                        check=True, capture_output=True, text=True)
                seconds = [float(line.split()[0]) for line in result.stdout.splitlines()]
                first[name].append(seconds[0])
                warm[name].extend(seconds[-min(5, reads - 1):])
        megabytes = file.stat().st_size / 1e6
        print(f"{megabytes:.1f} MB, {rounds} rounds; medians in seconds, memory in MB")
        print(f"{'reader':<20} {'whole':>7} {'cpu':>7} {'first':>7} {'warm':>7} {'memory':>7}"
              f" {'whole/ours':>11} {'warm/ours':>10}  rows, sum of i1")
        median = statistics.median
        ours = "rampwright"
        for name in readers:
            print(f"{name:<20} {median(whole[name]):7.2f} {median(processor[name]):7.2f}"
                  f" {median(first[name]):7.2f} {median(warm[name]):7.3f} {memory[name]:7.0f}"
                  f" {median(whole[name]) / median(whole[ours]):11.2f}"
                  f" {median(warm[name]) / median(warm[ours]):10.2f}  {' '.join(sums[name])}")


if __name__ == "__main__":
    main()
