"""An hour's watch: does memory stay flat? JAR FOLDER [DEVICES [MINUTES]], with /usr/bin/python3; or
`serve DEVICES` for the servers alone.

Serves DEVICES (32) invented motors by pymodbus, an independent server, each on a port of its own in a
process of its own, and watches them all at 10 Hz with `watch`, started as the systemd unit does. Each
motor starts every ten minutes; every five minutes each server throws its client out once. Prints a line a
minute: resident memory, threads, open files, processor time, load average of the machine, and what the
status file says; every five minutes what is alive in the heap after a collection (jcmd).
"""
import asyncio
import json
import math
import multiprocessing
import os
import pathlib
import signal
import struct
import subprocess
import sys
import time

EVERY_S = 600
THROWN_OUT_EVERY_S = 300
FIRST_PORT = 21500
HZ = 10

ASSET = """[asset]
id = "M-{0}"
name = "Made-up motor {0}"

[motor]
rated_power_kW = 55.0
rated_voltage_V = 400.0
rated_current_A = 100.0
rated_frequency_Hz = 50.0
rated_speed_rpm = 1480.0
power_factor = 0.86
efficiency_pct = 94.0
"""

MAP = """[device]
name = "meter {0}"
link = "tcp"
host = "127.0.0.1"
tcp_port = {1}
unit = 17
poll_hz = {2}
"""

CHANNEL = """
[[channel]]
name = "{0}"
function = 3
address = {1}
type = "f32"
unit = "{2}"
"""


def motor(at):
    """Currents and speed at a second of the turn: 6 s of 3.5 In, 8 s of 0.8 In, coasting, rest."""
    if at < 20 or at >= 40:
        return 0.0, 0.0
    if at < 26:
        return 350.0, 1480 * (at - 20) / 6
    if at < 34:
        return 80.0, 1480.0
    return 0.0, 1480 * math.exp(-(at - 34) * 1.5)


def serve(count):
    from pymodbus.datastore import ModbusSequentialDataBlock, ModbusServerContext, ModbusSlaveContext
    from pymodbus.server.async_io import ModbusTcpServer

    class Motor(ModbusSequentialDataBlock):
        def __init__(self, offset):
            super().__init__(0, [0] * 20)
            self.offset = offset

        def getValues(self, address, count=1):
            current, speed = motor((time.monotonic() + self.offset) % EVERY_S)
            words = struct.unpack(">8H", struct.pack(">4f", current, current, current, speed))
            return list(words)[address : address + count]

    async def throw_out(server, offset):
        await asyncio.sleep(offset)
        while True:
            await asyncio.sleep(THROWN_OUT_EVERY_S)
            for handler in list(server.active_connections.values()):
                handler.transport.close()

    async def all_of_them():
        work = []
        for k in range(count):
            store = ModbusSlaveContext(hr=Motor(k * EVERY_S / count), zero_mode=True)
            context = ModbusServerContext(slaves={17: store}, single=False)
            server = ModbusTcpServer(context, address=("127.0.0.1", FIRST_PORT + k))
            work += [server.serve_forever(), throw_out(server, k)]
        await asyncio.gather(*work)

    print("serving", flush=True)
    asyncio.run(all_of_them())


def lay_out(folder, count):
    watch = ['[watch]\nwarn_MiB = 100\nleast_MiB = 50\nlog_MiB = 0.1\nlog_keep = 3\n']
    for k in range(count):
        asset = folder / f"motor-{k}"
        asset.mkdir(parents=True)
        (asset / "asset.toml").write_text(ASSET.format(k))
        channels = [("i1", 0, "A"), ("i2", 2, "A"), ("i3", 4, "A"), ("speed", 6, "rpm")]
        text = MAP.format(k, FIRST_PORT + k, HZ) + "".join(CHANNEL.format(*c) for c in channels)
        (folder / f"meter-{k}.map.toml").write_text(text)
        watch.append(f'[[asset]]\nfolder = "motor-{k}"\nmaps = "meter-{k}.map.toml"\n')
    (folder / "watch.toml").write_text("\n".join(watch))


def live(pid):
    said = subprocess.run(["jcmd", str(pid), "GC.class_histogram"], capture_output=True, text=True)
    return int(said.stdout.split()[-1]) / 2**20


def sample(pid, folder, began):
    status = {}
    for line in pathlib.Path(f"/proc/{pid}/status").read_text().splitlines():
        key, _, value = line.partition(":")
        status[key] = value.strip()
    cpu = pathlib.Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()
    cpu_s = (int(cpu[11]) + int(cpu[12])) / os.sysconf("SC_CLK_TCK")
    told = json.loads((folder / "watch-status.json").read_text())
    faults = sum(d["faults"] for a in told["assets"] for d in a["devices"])
    minutes = (time.monotonic() - began) / 60
    print(
        "%5.1f min  %6.1f MiB  %3s threads  %3d files  %6.1f cpu s  load %s  %d trials  %d faults now"
        % (
            minutes,
            int(status["VmRSS"].split()[0]) / 1024,
            status["Threads"],
            len(os.listdir(f"/proc/{pid}/fd")),
            cpu_s,
            " ".join("%.1f" % load for load in os.getloadavg()),
            told["trials"],
            faults,
        ),
        flush=True,
    )
    if round(minutes) % 5 == 0:
        print("           %.1f MiB alive" % live(pid), flush=True)


def main():
    if sys.argv[1] == "serve":
        serve(int(sys.argv[2]))
        return
    jar, folder = sys.argv[1], pathlib.Path(sys.argv[2])
    count = int(sys.argv[3]) if len(sys.argv) > 3 else 32
    minutes = float(sys.argv[4]) if len(sys.argv) > 4 else 62
    lay_out(folder, count)
    servers = multiprocessing.Process(target=serve, args=(count,), daemon=True)
    servers.start()
    time.sleep(2)
    with open(folder / "said", "w") as said:
        watch = subprocess.Popen(
            ["java", "-Xmx256m", "-XX:+UseSerialGC", "-jar", jar, "watch", str(folder / "watch.toml")],
            stdout=said,
            stderr=said,
        )
    began = time.monotonic()
    try:
        while time.monotonic() - began < minutes * 60 and watch.poll() is None:
            time.sleep(60)
            sample(watch.pid, folder, began)
    finally:
        watch.send_signal(signal.SIGTERM)
        print("ended with", watch.wait())
        servers.terminate()


main()
