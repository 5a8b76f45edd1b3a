"""An independent Modbus server (pymodbus) for tests: tcp PORT | rtu DEVICE BAUD.

Holding register k holds (k * 7 + 1) mod 65536, input register k holds 65535 - k, coil and discrete
input k is 1 where k mod 3 is 0; for the first 300 of each. Registers 200.. hold big-endian floats
made by Python's struct: 160.5, -0.25, 1482.0.
"""
import struct
import sys

from pymodbus.datastore import ModbusSequentialDataBlock, ModbusServerContext, ModbusSlaveContext
from pymodbus.server import StartSerialServer, StartTcpServer
from pymodbus.transaction import ModbusRtuFramer, ModbusSocketFramer

holding = [(k * 7 + 1) & 0xFFFF for k in range(300)]
words = struct.unpack(">6H", struct.pack(">3f", 160.5, -0.25, 1482.0))
holding[200:206] = words
store = ModbusSlaveContext(
    di=ModbusSequentialDataBlock(0, [int(k % 3 == 0) for k in range(300)]),
    co=ModbusSequentialDataBlock(0, [int(k % 3 == 0) for k in range(300)]),
    hr=ModbusSequentialDataBlock(0, holding),
    ir=ModbusSequentialDataBlock(0, [65535 - k for k in range(300)]),
    zero_mode=True,
)
context = ModbusServerContext(slaves={17: store}, single=False)
print("serving", flush=True)
if sys.argv[1] == "tcp":
    StartTcpServer(
        context=context, framer=ModbusSocketFramer, address=("127.0.0.1", int(sys.argv[2]))
    )
else:
    StartSerialServer(
        context=context,
        framer=ModbusRtuFramer,
        port=sys.argv[2],
        baudrate=int(sys.argv[3]),
        parity="N",
        stopbits=1,
        bytesize=8,
        timeout=0.05,
    )
