"""Polls as pymodbus's client does: tcp PORT | rtu DEVICE BAUD, then SECONDS; prints polls a second and ms (50 %, 99 %)."""
import sys
import time

from pymodbus.client import ModbusSerialClient, ModbusTcpClient

if sys.argv[1] == "tcp":
    client = ModbusTcpClient("127.0.0.1", port=int(sys.argv[2]))
    seconds = float(sys.argv[3])
else:
    client = ModbusSerialClient(
        port=sys.argv[2], baudrate=int(sys.argv[3]), parity="N", stopbits=1, bytesize=8, timeout=1
    )
    seconds = float(sys.argv[4])
client.connect()
took = []
began = time.perf_counter()
while time.perf_counter() - began < seconds:
    asked = time.perf_counter()
    answer = client.read_holding_registers(0, 20, slave=17)
    if len(answer.registers) != 20:
        raise SystemExit("wrong answer")
    took.append((time.perf_counter() - asked) * 1e3)
whole = time.perf_counter() - began
took.sort()
print("%.1f %.2f %.2f" % (len(took) / whole, took[len(took) // 2], took[int(len(took) * 0.99)]))
