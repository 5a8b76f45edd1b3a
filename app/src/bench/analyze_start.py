#!/usr/bin/python3
"""Does with NumPy what `analyze` does for the figures named here: what a careful analyst would write.

    /usr/bin/python3 analyze_start.py start.csv pandas|numpy

One-cycle RMS at every half cycle of three currents and three voltages (whole cycles from zero
crossings of a low-passed voltage), inception, full speed at 95 % of the last speed, peak, crest, RMS
and I2t of the start, dip, run current and unbalance. It leaves out what would need more than arrays:
positive sequence, P and Q, harmonics, findings, uncertainties, checks of the file.
"""

import json
import sys

import numpy


def read(path, with_what):
    if with_what == "pandas":
        import pandas

        frame = pandas.read_csv(path)
        return list(frame.columns), frame.to_numpy().T
    with open(path) as file:
        header = file.readline().strip().split(",")
    return header, numpy.loadtxt(path, delimiter=",", skiprows=1).T


def cycle_edges(time_s, voltage, rate_hz):
    """Indices of half cycles: zero crossings of the voltage smoothed over a millisecond."""
    width = max(1, int(rate_hz * 1e-3))
    smooth = numpy.convolve(voltage, numpy.ones(width) / width, "same")
    return numpy.flatnonzero(numpy.signbit(smooth[1:]) != numpy.signbit(smooth[:-1])) + 1


def rms(values, edges):
    """RMS over one cycle, for every half cycle."""
    squares = numpy.concatenate(([0.0], numpy.cumsum(values * values)))
    first, last = edges[:-2], edges[2:]
    return numpy.sqrt((squares[last] - squares[first]) / (last - first))


def main():
    header, columns = read(sys.argv[1], sys.argv[2])
    of = dict(zip(header, columns))
    time_s = of["time_s"]
    rate_hz = (len(time_s) - 1) / (time_s[-1] - time_s[0])
    edges = cycle_edges(time_s, of["v12_V"], rate_hz)
    at_s = time_s[edges[1:-1]]
    currents = {name: rms(of[name], edges) for name in ("i1_A", "i2_A", "i3_A")}
    voltages = {name: rms(of[name], edges) for name in ("v12_V", "v23_V", "v31_V")}
    frequency_hz = 1 / numpy.median(time_s[edges[2:]] - time_s[edges[:-2]])
    mean = sum(currents.values()) / 3
    run = {name: float(numpy.median(track[-50:])) for name, track in currents.items()}
    above = numpy.flatnonzero(mean > 0.1 * mean.max())
    inception = int(above[0])
    first = int(numpy.searchsorted(time_s, at_s[inception] - 0.02))
    quiet = max(numpy.abs(of[name][:first]).max() for name in currents)
    begin = first + int(numpy.flatnonzero(numpy.abs(of["i1_A"][first:]) > 5 * quiet)[0])
    speed = of["speed_rpm"]
    full = int(numpy.flatnonzero(speed >= 0.95 * numpy.median(speed[-1000:]))[0])
    inside = (at_s >= time_s[begin]) & (at_s <= time_s[full])
    before = at_s < time_s[begin] - 0.02
    results = {
        "frequency_Hz": float(frequency_hz),
        "current_begins_s": float(time_s[begin]),
        "full_speed_s": float(time_s[full]),
        "start_time_s": float(time_s[full] - time_s[begin]),
        "peak_current_A": {n: float(t[inside].max()) for n, t in currents.items()},
        "crest_A": {n: float(numpy.abs(of[n][begin:full]).max()) for n in currents},
        "start_rms_A": {n: float(numpy.sqrt(numpy.mean(of[n][begin:full] ** 2))) for n in currents},
        "i2t_A2s": {n: float(numpy.sum(of[n][begin:full] ** 2) / rate_hz) for n in currents},
        "run_current_A": run,
        "unbalance_pct": 100 * (max(run.values()) - min(run.values())) / numpy.mean(list(run.values())),
        "voltage_before_V": {n: float(numpy.median(t[before])) for n, t in voltages.items()},
        "lowest_voltage_V": {n: float(t[inside].min()) for n, t in voltages.items()},
    }
    results["dip_pct"] = {
        n: 100 * (1 - results["lowest_voltage_V"][n] / results["voltage_before_V"][n])
        for n in voltages
    }
    print(json.dumps(results))


if __name__ == "__main__":
    main()
