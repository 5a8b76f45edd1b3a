"""An independent Modbus server (pymodbus) for tests: tcp PORT | rtu DEVICE BAUD.

Holding register k holds (k * 7 + 1) mod 65536, input register k holds 65535 - k, coil and discrete
input k is 1 where k mod 3 is 0; for the first 300 of each. Registers 200.. hold big-endian floats
made by Python's struct: 160.5, -0.25, 1482.0.
"""
import struct

from serve import serve, store

holding = [(k * 7 + 1) & 0xFFFF for k in range(300)]
holding[200:206] = struct.unpack(">6H", struct.pack(">3f", 160.5, -0.25, 1482.0))
serve(store(holding, [65535 - k for k in range(300)], [int(k % 3 == 0) for k in range(300)]))
