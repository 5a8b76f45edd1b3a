"""Reads a file a number of times with numpy.loadtxt; prints seconds for each and a checksum."""

import sys
import time

import numpy

for _ in range(int(sys.argv[2])):
    start = time.perf_counter()
    table = numpy.loadtxt(sys.argv[1], delimiter=",", skiprows=1)
    seconds = time.perf_counter() - start
    print(seconds, len(table), table[:, 1].sum())
