using Portwitness.Captures.Input;

namespace Portwitness.Captures.Sysfs;

/// <summary>
/// Reads the Linux kernel's class usb_power_delivery, as "grep -r ." prints it. The capability lists of one PD device
/// become one message each; bits that the class does not show are unknown, not zero.
/// </summary>
internal sealed class SysfsReader(ICaptureSink sink, FaultLog faults) : ILineReader
{
    private const int MaxDevices = 16;

    private readonly List<Device> _devices = [];
    private bool _devicesLeftOut;
    private int _partnerMajor;
    private bool _partnersDiffer;

    /// <inheritdoc/>
    public void Read(long line, ReadOnlySpan<byte> text)
    {
        if (SysfsLine.TryRead(text, out SysfsLine shown))
        {
            if (DeviceOf(shown.Device) is { } device)
            {
                (shown.IsSource ? device.Source : device.Sink).AddLine(line, shown);
            }
        }
        else if (SysfsLine.TryReadRevision(text, out int major))
        {
            _partnersDiffer |= _partnerMajor != 0 && _partnerMajor != major;
            _partnerMajor = major;
        }
    }

    /// <inheritdoc/>
    public void Skipped(long line)
    {
    }

    /// <inheritdoc/>
    public void Complete()
    {
        sink.OnHeader(new CaptureHeader { Format = "sysfs" });
        if (_devices.Count == 0)
        {
            faults.Report(0, 0, FaultCodes.SysfsWithoutObjects, FaultText.SysfsWithoutObjects);
        }
        else if (_devicesLeftOut || _devices.Exists(device => !device.IsSame(_devices[0])))
        {
            // The laptop's own port is among them as a rule, and nothing in them tells whose they are.
            faults.Report(
                0, 0, FaultCodes.SysfsSeveralPorts, FaultText.SysfsSeveralPorts([.. _devices.Select(device => device.Name)]));
        }
        else
        {
            Device device = _devices[0];
            bool allAreShown = device.Source.ProvesAllAreShown || device.Sink.ProvesAllAreShown;
            device.Source.HandTo(sink, RevisionCode, allAreShown);
            device.Sink.HandTo(sink, RevisionCode, allAreShown);
        }
    }

    // R3.2v1.1, Table 6.1: the header says 2.0 or 3.x; it cannot say which 3.x. Some laptops show 1.0 for any partner
    // and 0.0 for none, which say nothing. The PD device's own revision is that of the laptop's controller on many.
    private int? RevisionCode => _partnersDiffer ? null : _partnerMajor switch { 2 => 1, 3 => 2, _ => null };

    private Device? DeviceOf(ReadOnlySpan<byte> path)
    {
        foreach (Device known in _devices)
        {
            if (path.SequenceEqual(known.Path))
            {
                return known;
            }
        }

        if (_devices.Count == MaxDevices)
        {
            _devicesLeftOut = true;
            return null;
        }

        Device added = new(path.ToArray(), faults);
        _devices.Add(added);
        return added;
    }

    private sealed class Device(byte[] path, FaultLog faults)
    {
        public byte[] Path { get; } = path;

        public string Name => FaultText.Path(Path);

        public ShownList Source { get; } = new(isSource: true, faults);

        public ShownList Sink { get; } = new(isSource: false, faults);

        public bool IsSame(Device other) => Source.IsSame(other.Source) && Sink.IsSame(other.Sink);
    }
}
