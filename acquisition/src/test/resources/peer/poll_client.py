"""Polls as pymodbus's client does: tcp PORT | rtu DEVICE BAUD, then SECONDS and HZ (0: as fast as it goes).

Prints polls a second, ms from question to answer (50 %, 99 %), and where HZ is given how far the
middles of question and answer are from one interval apart, ms (50 %, 99 %).
"""
import sys
import time

from pymodbus.client import ModbusSerialClient, ModbusTcpClient

if sys.argv[1] == "tcp":
    client = ModbusTcpClient("127.0.0.1", port=int(sys.argv[2]))
    seconds, hz = map(float, sys.argv[3:5])
else:
    client = ModbusSerialClient(
        port=sys.argv[2], baudrate=int(sys.argv[3]), parity="N", stopbits=1, bytesize=8, timeout=1
    )
    seconds, hz = map(float, sys.argv[4:6])
client.connect()
took = []
middles = []
began = time.perf_counter()
while time.perf_counter() - began < seconds:
    if hz > 0:
        due = began + len(middles) / hz
        time.sleep(max(0, due - time.perf_counter()))
    asked = time.perf_counter()
    answer = client.read_holding_registers(0, 20, slave=17)
    if len(answer.registers) != 20:
        raise SystemExit("wrong answer")
    answered = time.perf_counter()
    took.append((answered - asked) * 1e3)
    middles.append((asked + answered) / 2)
whole = time.perf_counter() - began


def part(values, share):
    return sorted(values)[int(len(values) * share)]


line = "%8.1f a second, %.2f ms (99 %%: %.2f)" % (len(took) / whole, part(took, 0.5), part(took, 0.99))
if hz > 0:
    off = [abs(b - a - 1 / hz) * 1e3 for a, b in zip(middles, middles[1:])]
    line += ", jitter %.2f ms (99 %%: %.2f)" % (part(off, 0.5), part(off, 0.99))
print(line)
