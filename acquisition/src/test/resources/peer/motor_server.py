"""A motor behind an independent Modbus server (pymodbus): tcp PORT | rtu DEVICE BAUD.

Input register 8 of unit 17 holds the current in 0.1 A, discrete input 3 the run command; from the first
second on, in turns: 2.5 s at rest, 2 s of 350 A, 2 s of 90 A.
"""
import sys
import threading
import time

from pymodbus.datastore import ModbusSequentialDataBlock, ModbusServerContext, ModbusSlaveContext
from pymodbus.server import StartSerialServer, StartTcpServer
from pymodbus.transaction import ModbusRtuFramer, ModbusSocketFramer

store = ModbusSlaveContext(
    di=ModbusSequentialDataBlock(0, [0] * 20),
    co=ModbusSequentialDataBlock(0, [0] * 20),
    hr=ModbusSequentialDataBlock(0, [0] * 20),
    ir=ModbusSequentialDataBlock(0, [0] * 20),
    zero_mode=True,
)
context = ModbusServerContext(slaves={17: store}, single=False)


def turn():
    began = time.monotonic()
    while True:
        at = (time.monotonic() - began) % 6.5
        current = 0 if at < 2.5 else 3500 if at < 4.5 else 900
        store.setValues(4, 8, [current])
        store.setValues(2, 3, [int(current > 0)])
        time.sleep(0.005)


threading.Thread(target=turn, daemon=True).start()
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
