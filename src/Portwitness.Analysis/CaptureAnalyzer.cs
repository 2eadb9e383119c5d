using System.Buffers.Binary;
using System.Collections.Immutable;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis;

/// <summary>
/// Analyses one capture while its bytes arrive. Memory does not grow with the capture, but with the number of
/// different capability lists, contracts and findings, each of which is bounded.
/// </summary>
public sealed class CaptureAnalyzer : ICaptureSink
{
    private const int MostFaults = 1000;

    private readonly CaptureOptions _options;
    private readonly CaptureReader _reader;
    private readonly FindingLog _findings;
    private readonly AdvertisementLog _advertisements = new();
    private readonly ContractTracker _contracts = new();
    private readonly Arrangement _arrangement = new();
    private readonly CableTracker _cable = new();
    private readonly EditionTracker _editions;
    private readonly List<CaptureFault> _faults = [];
    private readonly OfferedObject[] _objects = new OfferedObject[CapabilityChecker.MostObjects];
    private SourceEvidence _evidence = SourceEvidence.None;
    private string _port = "";
    private long _messages;
    private long _badCrc;

    /// <summary>Begins a capture.</summary>
    public CaptureAnalyzer(CaptureOptions options)
    {
        _options = options;
        _reader = new CaptureReader(this);
        _findings = new FindingLog { File = options.File };
        _editions = new EditionTracker(options.Edition);
        _port = options.Port ?? "";
        _arrangement.Begin(options.Arrangement);
        if (options.CaptiveCable == true)
        {
            _cable.StateCaptive();
        }
    }

    /// <summary>Takes the next piece of the capture.</summary>
    public void Write(ReadOnlySpan<byte> piece) => _reader.Write(piece);

    /// <summary>Says that the capture has ended, and gives what was learned.</summary>
    public CaptureAnalysis Complete()
    {
        _reader.Complete();
        _contracts.Complete();
        NoteWhatIsNotListed();
        return new CaptureAnalysis
        {
            File = _options.File,
            Format = _reader.Format,
            Port = _port,
            Arrangement = _arrangement.InUse,
            Editions = _editions.Open,
            Cable = _cable.Text,
            CableEvidence = _cable.Evidence,
            Advertisements = _advertisements.ToImmutable(),
            Contracts = [.. _contracts.Contracts],
            AnyContract = _contracts.AnyReady,
            Findings = [.. _findings.Findings],
            Faults = [.. _faults],
            MessageCount = _messages,
            NextSteps = [.. _findings.Findings.Select(f => f.NextStep).Where(step => step.Length > 0).Distinct()],
        };
    }

    void ICaptureSink.OnHeader(CaptureHeader header)
    {
        _port = _options.Port ?? header.Port ?? "";
        if (_options.Arrangement.IsEmpty)
        {
            _arrangement.Begin(!header.AttachOrder.IsEmpty ? header.AttachOrder : header.InUse);
        }

        if (header.Cable is { } cable)
        {
            _cable.State(cable);
        }

        _editions.State(header.Edition);
    }

    void ICaptureSink.OnMessage(in MessageRecord record)
    {
        _messages++;
        if (!MessageView.TryRead(record.Bytes, out MessageView view))
        {
            return;
        }

        // A message that was received wrongly is kept and listed, but nothing is learned from it.
        bool? crcOk = record.CrcOk ?? (record.Crc is { } crc ? MessageCrc.Of(record.Bytes) == crc : null);
        if (crcOk == false)
        {
            _badCrc++;
        }
        else
        {
            Learn(record, view, crcOk == true);
        }

        _options.OnMessage?.Invoke(MessageMeaning.Summarise(_messages, record, view, crcOk));
    }

    void ICaptureSink.OnSignal(SignalRecord signal) => _contracts.OnReset();

    // No rule judges measurements yet.
    void ICaptureSink.OnMeasurement(MeasurementRecord measurement)
    {
    }

    void ICaptureSink.OnEvent(EventRecord happened)
    {
        bool other = happened.Port is { } port && port != _port;
        if (happened.Name == CaptureEvents.Attach && other)
        {
            _arrangement.Attach(happened.Port!, _port);
        }
        else if (happened.Name == CaptureEvents.Detach && other)
        {
            _arrangement.Detach(happened.Port!);
        }
        else if (happened.Name == CaptureEvents.Detach)
        {
            _contracts.OnDetach();
            _advertisements.OnDetach();
        }
    }

    void ICaptureSink.OnFault(CaptureFault fault)
    {
        if (_faults.Count < MostFaults)
        {
            _faults.Add(fault);
        }
    }

    private void Learn(in MessageRecord record, in MessageView view, bool crcIsRight)
    {
        (_findings.TimeUs, _findings.MessageIndex) = (record.TimeUs, _messages);
        (_findings.Port, _findings.Arrangement) = (_port, _arrangement.InUse);
        ushort headerKnown = record.Known.IsEmpty ? ushort.MaxValue : BinaryPrimitives.ReadUInt16LittleEndian(record.Known);
        ReceivedMessage received = new()
        {
            Sop = record.Sop, View = view, HeaderKnown = headerKnown, CrcIsRight = crcIsRight,
        };
        foreach (MessageRule rule in RuleCatalogue.Messages)
        {
            rule.Check(received, _findings);
        }

        if (record.Sop != SopKind.Sop)
        {
            LearnCable(record, view);
        }
        else if (CapabilityList.Is(view.Header.Kind))
        {
            LearnCapabilities(record, view, headerKnown);
        }
        else
        {
            _contracts.OnMessage(view, record.Known, _messages, record.TimeUs);
        }
    }

    private void LearnCapabilities(in MessageRecord record, in MessageView view, ushort headerKnown)
    {
        MessageKind kind = view.Header.Kind;
        bool fromSource = kind == MessageKind.SourceCapabilities || kind == MessageKind.EPRSourceCapabilities;
        if (fromSource && (headerKnown & 0x00C0) == 0x00C0)
        {
            _editions.Saw(view.Header.RevisionCode);
        }

        // A chunk of a longer list is not the list; chunks are put together before they are read.
        if (view.ExtendedHeader is { } extended && (extended.RequestChunk || view.Payload.Length < extended.DataSize))
        {
            return;
        }

        int count = CapabilityChecker.ReadObjects(view, record.Known, _objects);
        ReadOnlySpan<OfferedObject> objects = _objects.AsSpan(0, count);
        if (_advertisements.Repeats(kind, objects, _arrangement.InUse))
        {
            return;
        }

        PowerFit fit = CapabilityChecker.Check(view, headerKnown, objects, Evidence(fromSource), _findings);
        Power? pdp = fit.PdpMilliwatts == 0 ? null : Power.FromMilliwatts(fit.PdpMilliwatts);
        ImmutableArray<OfferedObject> list = [.. objects];
        _advertisements.Add(new Advertisement(
            record.TimeUs, _messages, kind, list, _arrangement.InUse, 0, pdp, fit.Basis ?? ""));
        if (fromSource)
        {
            _contracts.OnCapabilities(list);
        }
    }

    private SourceEvidence Evidence(bool fromSource)
    {
        bool alone = _arrangement.InUse.Length <= 1;
        PowerSharing sharing = alone ? _options.Sharing : PowerSharing.InUse;
        Power? pdp = alone && fromSource ? _options.PrintedPdp : null;
        if (_evidence.Editions != _editions.Open || _evidence.Cable != _cable.Evidence || _evidence.Sharing != sharing
            || _evidence.Pdp != pdp)
        {
            _evidence = new SourceEvidence
            {
                Editions = _editions.Open,
                Cable = _cable.Evidence,
                Sharing = sharing,
                Pdp = pdp,
                PdpBasis = pdp is null ? "" : "printed",
            };
        }

        return _evidence;
    }

    private void LearnCable(in MessageRecord record, in MessageView view)
    {
        if (record.Known.IsEmpty && CableIdentity.CurrentOf(view) is { } current)
        {
            _cable.Answered(current);
        }
    }

    private void NoteWhatIsNotListed()
    {
        Note(_advertisements.Unlisted, "capability lists", AdvertisementLog.Most);
        Note(_contracts.Unlisted, "requests", ContractTracker.Most);
        Note(_findings.Unlisted, "findings", FindingLog.Most);
        if (_badCrc > 0)
        {
            _faults.Add(new CaptureFault(0, 0, AnalysisFaultCodes.CrcWrong, $"{_badCrc} messages with a wrong CRC were kept but not used"));
        }
    }

    private void Note(long unlisted, string what, int most)
    {
        if (unlisted > 0)
        {
            _faults.Add(new CaptureFault(
                0, 0, AnalysisFaultCodes.NotAllListed, $"{unlisted} more {what} are not listed; {most} are at most"));
        }
    }
}
