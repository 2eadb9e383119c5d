using System.Globalization;
using System.Text.Unicode;
using Portwitness.Captures.Input;
using Portwitness.Captures.JsonLines;

namespace Portwitness.Captures.Pcapng;

/// <summary>
/// Chooses the one port of a file whose records are read, hands its header on, and tells what was not read of others.
/// A file may have several sections; one goes on with the capture only if its header is the same.
/// </summary>
internal sealed class PortSelection(ICaptureSink sink, FaultLog faults, string? wanted)
{
    private const int MaxInterfaces = 1000;

    private readonly List<PcapngInterface> _interfaces = [];
    private PcapngInterface? _chosen;
    private PcapngInterface? _first;
    private byte[]? _headerText;
    private string? _port;
    private bool _sectionRefused;
    private bool _sectionHasPackets;
    private bool _sectionIsFull;
    private bool _headed;
    private bool _everChosen;
    private long? _startUs;

    /// <summary>Begins a section, whose interfaces count from 0 again.</summary>
    public void BeginSection()
    {
        TellUnread();
        _interfaces.Clear();
        (_chosen, _sectionRefused, _sectionHasPackets, _sectionIsFull) = (null, false, false, false);
    }

    /// <summary>Takes an Interface Description Block's body; an empty one is an interface that cannot be used.</summary>
    public void Add(PcapngBlock body, long offset)
    {
        if (_interfaces.Count == MaxInterfaces)
        {
            if (!_sectionIsFull)
            {
                _sectionIsFull = true;
                faults.Report(0, 0, FaultCodes.PcapngBlockInvalid, FaultText.PcapngInterfacesTooMany(offset));
            }

            return;
        }

        PcapngInterface found = body.Length < PcapngInterface.FixedBytes
            ? new PcapngInterface { Index = _interfaces.Count, LinkType = 0 }
            : PcapngInterface.Read(_interfaces.Count, body, offset, faults);
        _interfaces.Add(found);
        if (found.IsOfRecords && _chosen is null && !_sectionRefused && IsWanted(found))
        {
            Choose(found, offset);
        }
        else if (!found.IsOfRecords && body.Length > 0)
        {
            faults.Report(0, 0, FaultCodes.PcapngLinkType, FaultText.PcapngLinkType(offset, found.Label, found.LinkType));
        }

        _first ??= found.IsOfRecords ? found : null;
        if (found != _chosen && found != _first)
        {
            found.HeaderText = [];
        }
    }

    /// <summary>The interface of a packet when it is the chosen one; null when its packets are not read.</summary>
    public PcapngInterface? Select(uint index, long offset, long line)
    {
        if (index >= (uint)_interfaces.Count)
        {
            faults.Report(line, 0, FaultCodes.PcapngBlockInvalid, FaultText.PcapngInterfaceMissing(offset, index));
            return null;
        }

        PcapngInterface found = _interfaces[(int)index];
        if (found == _chosen)
        {
            return found;
        }

        // A file of one port is read whatever the name.
        bool isFirst = !_sectionHasPackets && !_everChosen;
        _sectionHasPackets = true;
        if (isFirst && found.IsOfRecords && _interfaces.Count(port => port.IsOfRecords) == 1)
        {
            Choose(found, offset);
            return found;
        }

        found.Unread++;
        return null;
    }

    /// <summary>Microseconds since 1970 to those of the capture; the first time of a record counts where no header says more.</summary>
    public long FromStart(long absoluteUs)
    {
        _startUs ??= absoluteUs;
        EnsureHeader(PcapngTime.Started(absoluteUs));
        return absoluteUs - _startUs.Value;
    }

    /// <summary>Hands a header on when none was found, before the first record.</summary>
    public void EnsureHeader(DateTimeOffset? started = null)
    {
        if (!_headed)
        {
            HandOnHeader(new CaptureHeader { Format = "pcapng", Started = started });
        }
    }

    /// <summary>Tells what was not read, and hands an empty header on when there was none.</summary>
    public void Complete()
    {
        TellUnread();
        if (wanted is not null && !_everChosen && _first is not null)
        {
            faults.Report(0, 0, FaultCodes.PcapngOtherPorts, FaultText.PcapngPortMissing(wanted));
        }

        EnsureHeader();
    }

    private bool IsWanted(PcapngInterface found) => _everChosen ? found.Name == _port : wanted is null || found.Is(wanted);

    private void Choose(PcapngInterface found, long offset)
    {
        if (_everChosen)
        {
            if (!found.HeaderText.AsSpan().SequenceEqual(_headerText))
            {
                _sectionRefused = true;
                faults.Report(0, 0, FaultCodes.HeaderMisplaced, FaultText.PcapngSectionDiffers(offset, found.Label));
                return;
            }

            _chosen = found;
            return;
        }

        (_chosen, _everChosen, _headerText, _port) = (found, true, found.HeaderText, found.Name);
        if (found.HeaderText.Length > 0 && ReadHeader(found.HeaderText, offset) is { } header)
        {
            _startUs = header.Started is { } started ? PcapngTime.Floor(started) : 0;
            HandOnHeader(header);
        }
    }

    // An unusable header is reported, and the capture read as if there were none.
    private CaptureHeader? ReadHeader(byte[] text, long offset)
    {
        if (text.AsSpan().ContainsAnyInRange((byte)0, (byte)0x1F) || !Utf8.IsValid(text) || !HeaderLine.Is(text))
        {
            faults.Report(0, 0, FaultCodes.PcapngOptionInvalid, FaultText.PcapngHeaderInvalid(offset));
            return null;
        }

        HeaderLine line = new(faults);
        faults.Where = FaultText.PcapngHeaderAt(offset);
        CaptureHeader header = line.Parse(0, text);
        faults.Where = "";
        return line.IsVersionKnown ? header with { Format = "pcapng" } : null;
    }

    private void HandOnHeader(CaptureHeader header)
    {
        _headed = true;
        sink.OnHeader(_chosen is null ? header : header with
        {
            Port = _chosen.Name ?? header.Port,
            ResolutionUs = header.ResolutionUs ?? (_chosen.Clock.ResolutionUs > 1 ? _chosen.Clock.ResolutionUs : null),
        });
    }

    private void TellUnread()
    {
        foreach (PcapngInterface other in _interfaces)
        {
            if (other.Unread > 0 && other.IsOfRecords)
            {
                string name = other.Name ?? other.Index.ToString(CultureInfo.InvariantCulture);
                faults.Report(0, 0, FaultCodes.PcapngOtherPorts, FaultText.PcapngPortUnread(name, other.Unread, _port));
            }
        }
    }
}
