"""An instrument in the style of IEEE 488.2 on a serial device, for the tests.

usage: scpi_emulator.py DEVICE
Prints "ready" once it listens. It answers *IDN?, forgets its unit at power-on until UNIT PA comes, counts its
MEAS:PRES? answers in the forms NR1, NR2 and NR3 with now and then a special value, and takes 0.5 s over every
seventh one, so that this answer comes late.
"""

import os
import sys
import time
import tty


def main():
    device = os.open(sys.argv[1], os.O_RDWR | os.O_NOCTTY)
    tty.setraw(device)
    print("ready", flush=True)
    unit = None
    count = 0
    pending = b""
    while True:
        pending += os.read(device, 4096)
        while b"\n" in pending:
            line, pending = pending.split(b"\n", 1)
            command = line.strip().decode("ascii")
            if command == "*IDN?":
                os.write(device, b"SOMEONE,GAUGE,0,1.0\n")
            elif command == "UNIT PA":
                unit = "Pa"
            elif command == "MEAS:PRES?":
                count += 1
                if count % 7 == 0:
                    time.sleep(0.5)
                os.write(device, answer(count, unit).encode("ascii"))


def answer(count, unit):
    if unit is None:
        return "%d furlong\n" % count
    form = count % 5
    if form == 0:
        return "9.91E37\n"
    if form == 1:
        return "%d\n" % count
    if form == 2:
        return "%d.0\r\n" % count
    if form == 3:
        return "%.3E\n" % count
    return "+%d.00 %s\n" % (count, unit)


if __name__ == "__main__":
    main()
