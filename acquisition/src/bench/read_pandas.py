"""Reads a file a number of times with pandas; prints seconds for each and a checksum."""

import sys
import time

import pandas

for _ in range(int(sys.argv[2])):
    start = time.perf_counter()
    table = pandas.read_csv(sys.argv[1])
    seconds = time.perf_counter() - start
    print(seconds, len(table), table["i1_A"].sum())
