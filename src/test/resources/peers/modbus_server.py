"""An independent Modbus RTU server (pymodbus) on a serial device, for the tests.

usage: modbus_server.py DEVICE UNIT BASE
Prints "ready" once it serves. Holding register 40 counts how often it was read, from BASE on; reading
register 50 takes 0.4 s, so that its answer, -1, comes late.
"""

import logging
import struct
import sys
import time

from pymodbus.datastore import ModbusSequentialDataBlock, ModbusServerContext, ModbusSlaveContext
from pymodbus.server import StartSerialServer
from pymodbus.transaction import ModbusRtuFramer


class Holding(ModbusSequentialDataBlock):
    def __init__(self, values, base):
        super().__init__(0, values)
        self.reads = base

    def getValues(self, address, count=1):
        if address <= 41 <= address + count - 1:
            self.reads += 1
            self.values[41] = self.reads
        if address <= 51 <= address + count - 1:
            time.sleep(0.4)
            self.values[51] = 0xFFFF  # -1: told apart from every count
        return super().getValues(address, count)


def words(data):
    return list(struct.unpack(">%dH" % (len(data) // 2), data))


def main():
    logging.disable(logging.CRITICAL)
    device, unit, base = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
    big = struct.pack(">f", -312.4)
    swapped = big[2:] + big[:2]
    registers = [0] * 100
    registers[0:1] = words(struct.pack(">h", -3124))
    registers[1:3] = words(big)  # ABCD
    registers[3:5] = words(swapped)  # CDAB
    registers[5:7] = words(big[::-1])  # DCBA
    registers[7:9] = words(swapped[::-1])  # BADC
    registers[9:11] = words(struct.pack(">i", -70000))
    registers[11:12] = [62412]
    registers[12:16] = words(struct.pack(">d", -0.75))
    registers[16:17] = [0b100]
    # the data block's address 0 is protocol address -1 here: one value is put before
    slave = ModbusSlaveContext(
        hr=Holding([0] + registers, base),
        ir=ModbusSequentialDataBlock(0, [0] + words(struct.pack(">h", -25)) + [1] * 19),
        co=ModbusSequentialDataBlock(0, [False] + [i % 3 == 0 for i in range(20)]),
        di=ModbusSequentialDataBlock(0, [False] + [i % 2 == 1 for i in range(20)]),
    )
    context = ModbusServerContext(slaves={unit: slave}, single=False)
    print("ready", flush=True)
    StartSerialServer(context=context, framer=ModbusRtuFramer, port=device, baudrate=38400, timeout=0.005)


if __name__ == "__main__":
    main()
