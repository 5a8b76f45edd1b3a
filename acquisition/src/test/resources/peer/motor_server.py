"""A motor behind an independent Modbus server (pymodbus): tcp PORT | rtu DEVICE BAUD.

Input register 8 of unit 17 holds the current in 0.1 A, discrete input 3 the run command; from the first
second on, in turns: 2.5 s at rest, 2 s of 350 A, 2 s of 90 A.
"""
import threading
import time

from serve import serve, store

motor = store([0] * 20, [0] * 20, [0] * 20)


def turn():
    began = time.monotonic()
    while True:
        at = (time.monotonic() - began) % 6.5
        current = 0 if at < 2.5 else 3500 if at < 4.5 else 900
        motor.setValues(4, 8, [current])
        motor.setValues(2, 3, [int(current > 0)])
        time.sleep(0.005)


threading.Thread(target=turn, daemon=True).start()
serve(motor)
