#!/usr/bin/python3
"""A stand-in for BlueZ on a bus of its own, to be told what happens.

It owns the name org.bluez on the bus at DBUS_SYSTEM_BUS_ADDRESS and offers adapters, devices and
characteristics with the interfaces of BlueZ. Commands come on standard input, one a line; each is
answered on standard output by "ok", or "failed: ..." when it makes no sense:

  adapter NAME                    plug an adapter in, switched on
  unplug NAME                     take it away, with all its devices
  power NAME on|off               off: devices are disconnected, as BlueZ does
  device NAME ADDRESS RSSI TITLE  a device somewhere; BlueZ hears it only during a search ("-": no RSSI)
  advertise ADDRESS UUID...       services it announces
  service ADDRESS SERVICE CHARACTERISTIC FLAGS VALUE [FORMAT]
                                  flags by comma, value and Presentation Format in hexadecimal
  battery ADDRESS PERCENT         level that BlueZ keeps by itself
  reach ADDRESS yes|no            no: disconnected, and forgotten if "forget" follows
  notify ADDRESS CHARACTERISTIC HEX...
                                  one notification for each, if the characteristic is subscribed to
  value ADDRESS CHARACTERISTIC HEX
                                  what a read brings from now on
  restart ADDRESS                 the services are taken away and come back at other paths
  refuse METHOD TEXT              that method fails from now on; no text: works again
  subscribed ADDRESS CHARACTERISTIC
                                  answers "ok yes" or "ok no"
  count METHOD                    answers "ok N": calls so far
"""
import os
import sys
from collections import Counter

import dbus
import dbus.mainloop.glib
import dbus.service
from gi.repository import GLib

PROPS = 'org.freedesktop.DBus.Properties'
OBJECTS = 'org.freedesktop.DBus.ObjectManager'
ADAPTER, DEVICE, BATTERY = 'org.bluez.Adapter1', 'org.bluez.Device1', 'org.bluez.Battery1'
SERVICE, CHARACTERISTIC, DESCRIPTOR = (
    'org.bluez.GattService1', 'org.bluez.GattCharacteristic1', 'org.bluez.GattDescriptor1')
FORMAT = '00002904-0000-1000-8000-00805f9b34fb'

calls = Counter()
refusals = {}


class Refused(dbus.DBusException):
    _dbus_error_name = 'org.bluez.Error.Failed'


def called(method):
    calls[method] += 1
    if method in refusals:
        raise Refused(refusals[method])


class Node(dbus.service.Object):
    """An object with interfaces of properties; each kind of object has its methods below."""

    def __init__(self, world, path, interfaces):
        self.world, self.path, self.interfaces = world, path, interfaces
        super().__init__(world.bus, path)
        world.nodes[path] = self
        world.root.InterfacesAdded(dbus.ObjectPath(path), interfaces)

    def leave(self):
        for path in [p for p in self.world.nodes if p.startswith(self.path + '/')]:
            if path in self.world.nodes:
                self.world.nodes[path].leave()
        del self.world.nodes[self.path]
        self.world.root.InterfacesRemoved(
            dbus.ObjectPath(self.path), dbus.Array(self.interfaces.keys(), signature='s'))
        self.remove_from_connection()

    def set(self, interface, **values):
        self.interfaces.setdefault(interface, {}).update(values)
        self.PropertiesChanged(interface, values, [])

    @dbus.service.method(PROPS, in_signature='s', out_signature='a{sv}')
    def GetAll(self, interface):
        return self.interfaces[interface]

    @dbus.service.signal(PROPS, signature='sa{sv}as')
    def PropertiesChanged(self, interface, changed, invalidated):
        pass


class Adapter(Node):
    @dbus.service.method(ADAPTER, in_signature='a{sv}')
    def SetDiscoveryFilter(self, _filter):
        called('SetDiscoveryFilter')

    @dbus.service.method(ADAPTER)
    def StartDiscovery(self):
        called('StartDiscovery')
        if not self.interfaces[ADAPTER]['Powered']:
            raise Refused('Resource Not Ready')
        self.set(ADAPTER, Discovering=dbus.Boolean(True))
        self.world.hear()

    @dbus.service.method(ADAPTER)
    def StopDiscovery(self):
        called('StopDiscovery')
        self.set(ADAPTER, Discovering=dbus.Boolean(False))


class Device(Node):
    @dbus.service.method(DEVICE, async_callbacks=('done', 'failed'))
    def Connect(self, done, failed):
        try:
            called('Connect')
        except Refused as refusal:
            failed(refusal)
            return
        self.waiting = (done, failed)
        self.try_connect()

    def try_connect(self):
        gadget = self.world.gadgets[self.address]
        if self.waiting and gadget['reach'] and self.world.powered(gadget['adapter']):
            done, self.waiting = self.waiting[0], None
            self.set(DEVICE, Connected=dbus.Boolean(True))
            done()
            self.world.grow(self)
            self.set(DEVICE, ServicesResolved=dbus.Boolean(True))

    @dbus.service.method(DEVICE)
    def Disconnect(self):
        called('Disconnect')
        if self.waiting:
            failed, self.waiting = self.waiting[1], None
            failed(Refused('le-connection-abort-by-local'))
        self.drop()

    def drop(self):
        if self.interfaces[DEVICE]['Connected']:
            for node in list(self.world.nodes.values()):
                if node.path.startswith(self.path + '/') and CHARACTERISTIC in node.interfaces:
                    node.subscribed = False
            self.set(DEVICE, ServicesResolved=dbus.Boolean(False), Connected=dbus.Boolean(False))


class Characteristic(Node):
    subscribed = False

    @dbus.service.method(CHARACTERISTIC, in_signature='a{sv}', out_signature='ay')
    def ReadValue(self, _options):
        called('ReadValue')
        value = dbus.Array(self.part['value'], signature='y')
        self.set(CHARACTERISTIC, Value=value)  # a read shows like a notification, as with BlueZ
        return value

    @dbus.service.method(CHARACTERISTIC)
    def StartNotify(self):
        called('StartNotify')
        self.subscribed = True


class Descriptor(Node):
    @dbus.service.method(DESCRIPTOR, in_signature='a{sv}', out_signature='ay')
    def ReadValue(self, _options):
        called('ReadDescriptor')
        return dbus.Array(self.value, signature='y')


class Root(dbus.service.Object):
    def __init__(self, world):
        super().__init__(world.bus, '/')
        self.world = world

    @dbus.service.method(OBJECTS, out_signature='a{oa{sa{sv}}}')
    def GetManagedObjects(self):
        called('GetManagedObjects')
        return {dbus.ObjectPath(p): n.interfaces for p, n in self.world.nodes.items()}

    @dbus.service.signal(OBJECTS, signature='oa{sa{sv}}')
    def InterfacesAdded(self, path, interfaces):
        pass

    @dbus.service.signal(OBJECTS, signature='oas')
    def InterfacesRemoved(self, path, interfaces):
        pass


class World:
    def __init__(self, bus):
        self.bus, self.nodes, self.gadgets, self.first = bus, {}, {}, 10
        self.root = Root(self)

    # what there is

    def adapter_node(self, name):
        return self.nodes.get('/org/bluez/' + name)

    def powered(self, name):
        node = self.adapter_node(name)
        return node is not None and bool(node.interfaces[ADAPTER]['Powered'])

    def device_node(self, address):
        adapter = self.gadgets[address]['adapter']
        return self.nodes.get(f'/org/bluez/{adapter}/dev_' + address.replace(':', '_'))

    def characteristic(self, address, uuid):
        device = self.device_node(address)
        return next((n for n in self.nodes.values() if device and n.path.startswith(device.path + '/')
                     and n.interfaces.get(CHARACTERISTIC, {}).get('UUID') == uuid), None)

    def hear(self):
        """What is in reach of a searching adapter shows up."""
        for address, gadget in self.gadgets.items():
            adapter = self.adapter_node(gadget['adapter'])
            if not adapter or not gadget['reach'] or not adapter.interfaces[ADAPTER].get('Discovering'):
                continue
            node = self.device_node(address)
            if node is None:
                values = {'Address': address, 'Name': gadget['title'], 'Connected': dbus.Boolean(False),
                          'ServicesResolved': dbus.Boolean(False), 'Adapter': dbus.ObjectPath(adapter.path),
                          'UUIDs': dbus.Array(gadget['uuids'], signature='s')}
                if gadget['rssi'] is not None:
                    values['RSSI'] = dbus.Int16(gadget['rssi'])
                node = Device(self, adapter.path + '/dev_' + address.replace(':', '_'), {DEVICE: values})
                node.address, node.waiting = address, None
            elif gadget['rssi'] is not None:
                node.set(DEVICE, RSSI=dbus.Int16(gadget['rssi']))

    def grow(self, device):
        """The services of a device that was connected; those there already stay."""
        for number, part in enumerate(self.gadgets[device.address]['parts']):
            service = f'{device.path}/service{self.first + number:04x}'
            path = service + '/char0001'
            if path in self.nodes:
                continue
            Node(self, service, {SERVICE: {'UUID': part['service'], 'Primary': dbus.Boolean(True)}})
            node = Characteristic(self, path, {CHARACTERISTIC: {
                'UUID': part['uuid'], 'Service': dbus.ObjectPath(service),
                'Flags': dbus.Array(part['flags'], signature='s')}})
            node.part = part
            if part['format']:
                Descriptor(self, path + '/desc0001', {DESCRIPTOR: {
                    'UUID': FORMAT, 'Characteristic': dbus.ObjectPath(path)}}).value = part['format']

    # commands

    def adapter(self, name):
        Adapter(self, '/org/bluez/' + name, {ADAPTER: {
            'Address': '00:AA:01:00:00:0' + name[-1], 'Powered': dbus.Boolean(True),
            'Discovering': dbus.Boolean(False)}})

    def unplug(self, name):
        self.adapter_node(name).leave()

    def power(self, name, state):
        on = state == 'on'
        for address, gadget in self.gadgets.items():
            device = self.device_node(address)
            if device and gadget['adapter'] == name and not on:
                device.drop()
        self.adapter_node(name).set(ADAPTER, Powered=dbus.Boolean(on))
        for address in self.gadgets:
            device = self.device_node(address)
            if device:
                device.try_connect()

    def device(self, adapter, address, rssi, *title):
        self.gadgets[address] = {'adapter': adapter, 'title': ' '.join(title), 'reach': True, 'parts': [],
                                 'uuids': [], 'rssi': None if rssi == '-' else int(rssi)}
        self.hear()

    def advertise(self, address, *uuids):
        self.gadgets[address]['uuids'] = uuids

    def service(self, address, service, uuid, flags, value, form=''):
        self.gadgets[address]['parts'].append({
            'service': service, 'uuid': uuid, 'flags': flags.split(','),
            'value': bytes.fromhex(value), 'format': bytes.fromhex(form)})

    def battery(self, address, percent):
        node = self.device_node(address)
        fresh = BATTERY not in node.interfaces
        node.set(BATTERY, Percentage=dbus.Byte(int(percent)))
        if fresh:
            self.root.InterfacesAdded(dbus.ObjectPath(node.path), {BATTERY: node.interfaces[BATTERY]})

    def reach(self, address, state, forget=''):
        self.gadgets[address]['reach'] = state == 'yes'
        device = self.device_node(address)
        if device and state == 'no':
            device.drop()
            if forget:
                device.leave()
        elif device:
            device.try_connect()
        self.hear()

    def notify(self, address, uuid, *values):
        node = self.characteristic(address, uuid)
        for value in values if node and node.subscribed else []:
            node.PropertiesChanged(CHARACTERISTIC, {'Value': dbus.Array(bytes.fromhex(value), signature='y')}, [])

    def value(self, address, uuid, value):
        for part in self.gadgets[address]['parts']:
            if part['uuid'] == uuid:
                part['value'] = bytes.fromhex(value)

    def restart(self, address):
        device = self.device_node(address)
        for path in [p for p in self.nodes if p.startswith(device.path + '/') and p.count('/') == 5]:
            self.nodes[path].leave()
        self.first += 0x10
        self.grow(device)

    def refuse(self, method, *text):
        refusals.pop(method, None)
        if text:
            refusals[method] = ' '.join(text)

    def subscribed(self, address, uuid):
        node = self.characteristic(address, uuid)
        return 'yes' if node and node.subscribed else 'no'

    def count(self, method):
        return str(calls[method])

    def command(self, source, _condition):
        line = source.readline()
        if not line:
            os._exit(0)
        try:
            name, *words = line.split()
            answer = getattr(self, name)(*words)
            print('ok' if answer is None else 'ok ' + answer, flush=True)
        except Exception as problem:  # told to the test, which then fails
            print(f'failed: {line.strip()}: {problem!r}', flush=True)
        return True


def main():
    dbus.mainloop.glib.DBusGMainLoop(set_as_default=True)
    bus = dbus.SystemBus()
    world = World(bus)
    name = dbus.service.BusName('org.bluez', bus)
    # unbuffered, so that a line that was read ahead is never waited for
    source = os.fdopen(os.dup(0), 'rb', buffering=0)
    reader = Lines(source)
    GLib.io_add_watch(source, GLib.PRIORITY_DEFAULT, GLib.IO_IN | GLib.IO_HUP, reader.ready(world))
    print('ok', name.get_name(), flush=True)
    GLib.MainLoop().run()


class Lines:
    """Splits standard input into lines and runs all that have come."""

    def __init__(self, source):
        self.source, self.rest, self.lines = source, b'', []

    def readline(self):
        return self.lines.pop(0) if self.lines else ''

    def ready(self, world):
        def run(source, condition):
            piece = self.source.read(65536)
            if not piece:
                os._exit(0)
            *whole, self.rest = (self.rest + piece).split(b'\n')
            self.lines += [line.decode() for line in whole]
            while self.lines:
                world.command(self, condition)
            return True
        return run


if __name__ == '__main__':
    sys.exit(main())
