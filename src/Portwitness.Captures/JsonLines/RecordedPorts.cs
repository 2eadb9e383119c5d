using Portwitness.Captures.Input;

namespace Portwitness.Captures.JsonLines;

/// <summary>
/// Whose a record is in a capture whose header names several "ports". Only the records of one are handed on; attaches, detaches
/// and what other ports answer to are of the bench, and always are.
/// </summary>
internal sealed class RecordedPorts
{
    private readonly string[] _ports;
    private readonly string _usual;
    private readonly string? _wanted;
    private readonly string? _read;
    private readonly long[] _unread;
    private long _unnamed;

    /// <summary>The ports of a header, and the one that is wanted; without a wish the header's own, or the first.</summary>
    public RecordedPorts(CaptureHeader header, string? wanted)
    {
        _ports = [.. header.Ports];
        _usual = header.Port ?? _ports[0];
        _wanted = wanted;
        _read = wanted is null ? _usual : _ports.Append(_usual).FirstOrDefault(port => IsSame(port, wanted));
        _unread = new long[_ports.Length];
    }

    /// <summary>The port that is read; the wanted one, of which there is nothing, when it is none of them.</summary>
    public string Read => _read ?? _wanted!;

    /// <summary>Whether an event is known to whoever reads another port.</summary>
    public static bool IsOfTheBench(string name) =>
        name is CaptureEvents.Attach or CaptureEvents.Detach or CaptureEvents.Rp or CaptureEvents.DataLine;

    /// <summary>Whether a record that states this port, or none, is of the port that is read; others are counted.</summary>
    public bool Takes(string? stated)
    {
        string port = stated ?? _usual;
        if (_read is not null && IsSame(port, _read))
        {
            return true;
        }

        int at = Array.FindIndex(_ports, known => IsSame(known, port));
        if (at >= 0)
        {
            _unread[at]++;
        }
        else
        {
            _unnamed++;
        }

        return false;
    }

    /// <summary>The port of an event; null for the one that is read.</summary>
    public string? PortOf(string? stated)
    {
        string port = stated ?? _usual;
        return IsSame(port, Read) ? null : port;
    }

    /// <summary>Tells what was not read.</summary>
    public void Complete(FaultLog faults)
    {
        if (_read is null)
        {
            faults.Report(0, 0, FaultCodes.OtherPorts, FaultText.PortMissing(_wanted!, _ports));
        }

        for (int at = 0; at < _ports.Length; at++)
        {
            if (_unread[at] > 0)
            {
                faults.Report(0, 0, FaultCodes.OtherPorts, FaultText.PortUnread(_ports[at], _unread[at], Read));
            }
        }

        if (_unnamed > 0)
        {
            faults.Report(0, 0, FaultCodes.PortUnknown, FaultText.PortsUnknown(_unnamed, _ports));
        }
    }

    private static bool IsSame(string left, string right) => string.Equals(left, right, StringComparison.OrdinalIgnoreCase);
}
