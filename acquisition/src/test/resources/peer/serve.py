"""Serves one unit, 17, as the command line says: tcp PORT | rtu DEVICE BAUD. Says "serving" first."""
import sys

from pymodbus.datastore import ModbusSequentialDataBlock, ModbusServerContext, ModbusSlaveContext
from pymodbus.server import StartSerialServer, StartTcpServer
from pymodbus.transaction import ModbusRtuFramer, ModbusSocketFramer


def store(holding, inputs, bits):
    """Registers and bits from address 0; coils and discrete inputs hold the same."""
    return ModbusSlaveContext(
        di=ModbusSequentialDataBlock(0, list(bits)),
        co=ModbusSequentialDataBlock(0, list(bits)),
        hr=ModbusSequentialDataBlock(0, list(holding)),
        ir=ModbusSequentialDataBlock(0, list(inputs)),
        zero_mode=True,
    )


def serve(unit):
    context = ModbusServerContext(slaves={17: unit}, single=False)
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
