using System.Collections.Immutable;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;
using Portwitness.Analysis.Rules.Sequence;
using Portwitness.Captures;
using Portwitness.Captures.Formats;
using Portwitness.Following.Contracts;
using Portwitness.Following.Links;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Explanations;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;

namespace Portwitness.Analysis;

/// <summary>
/// Analyses one capture while its bytes arrive. Memory does not grow with the capture, but with the number of
/// different capability lists, contracts and findings, each of which is bounded.
/// </summary>
public sealed class CaptureAnalyzer : ICaptureSink
{
    private const int MaxFaults = 2000; // A thousand of the reader, one that counts the rest, and what is wrong with chunks.
    private const ushort OnlyKindKnown = 0x801F;

    private readonly CaptureOptions _options;
    private readonly CaptureContext _context;
    private readonly ImmutableArray<ICaptureFollower> _followers;
    private readonly ImmutableArray<ICaptureFollower> _hearingGoodCrcs;
    private readonly Timeline _timeline = new();
    private readonly MeaningCache _meanings = new();
    private readonly BlockReader _blocks = new();
    private readonly FactBook _book = new();
    private readonly List<CaptureFault> _faults = [];
    private readonly OfferedObject[] _objects = new OfferedObject[MessageLimits.MaxExtendedObjects];
    private long _messages;
    private ImmutableArray<ChunkFault> _chunkFaults = [];
    private long _unlistedFaults;
    private ExplainedMessage? _explanation;

    /// <summary>Begins a capture.</summary>
    public CaptureAnalyzer(CaptureOptions options)
    {
        _options = options;
        Input = new CaptureInput(this, options.Reading with { Port = options.Reading.Port ?? options.Port });
        _context = new CaptureContext(options);
        _context.Arrangement.Begin(options.Arrangement, isOrder: true);
        _followers = CaptureFollowers.For(_context);
        _hearingGoodCrcs = [.. _followers.Where(static follower => follower.HearsGoodCrcs)];
    }

    /// <summary>Where the bytes of the capture go, and those of the measurements that are joined into it.</summary>
    public CaptureInput Input { get; }

    /// <summary>Takes the next piece of the capture.</summary>
    public void Write(ReadOnlySpan<byte> piece) => Input.Write(piece);

    /// <summary>What was found so far: what stays, and what is wrong with capability lists by what has come yet; what comes later may excuse it.</summary>
    public FoundSoFar FoundSoFar() => new(_context.Findings.Findings, _context.Lists.Preview(), _context.Lists.PreviewJudgements);

    /// <summary>Requests so far that are settled; at most some are listed.</summary>
    public IReadOnlyList<ContractAttempt> ContractsSoFar => _context.Contracts.Contracts;

    /// <summary>The request that waits for its answer; null when there is none.</summary>
    public ContractAttempt? OpenRequest => _context.Contracts.Open;

    /// <summary>Says that the capture has ended, and gives what was learned.</summary>
    public CaptureAnalysis Complete()
    {
        Input.Complete();
        BreakOffBlocks();
        _context.Contracts.Complete();
        _timeline.Complete();
        foreach (ICaptureFollower follower in _followers)
        {
            follower.Complete();
        }

        // Lists are judged last, by all that was learned of the port and its cable.
        ImmutableArray<Advertisement> lists = _context.Lists.Judge();
        _faults.AddRange(UnlistedNotes.Of(_context, _timeline, _unlistedFaults, MaxFaults));
        return new CaptureAnalysis
        {
            File = _options.File,
            Rules = _options.Rules.Selection,
            Format = Input.Format,
            Port = _context.Port,
            Arrangement = _context.Arrangement.InUse,
            Editions = _context.Facts.Editions,
            Cable = _context.Facts.CableText,
            CableEvidence = _context.Facts.Cable,
            Instrument = _context.Instrument,
            Advertisements = lists,
            Timeline = [.. _timeline.Lines],
            Facts = _book.Facts,
            Explanation = _explanation,
            Contracts = [.. _context.Contracts.Contracts],
            AnyContract = _context.Contracts.AnyReady,
            Infos = [.. _context.Infos],
            Bench = _context.Bench.ToRecord(),
            Trace = _context.Trace.Spans,
            Sample = _context.Header?.Sample ?? "",
            Findings = RepeatedFindings.Fold(_context.Findings.Findings),
            Faults = [.. _faults],
            MessageCount = _messages,
            NextSteps = [.. _context.Findings.Findings.Select(f => f.NextStep).Where(static step => !step.IsEmpty).Distinct()],
        };
    }

    void ICaptureSink.OnHeader(CaptureHeader header)
    {
        header = header with
        {
            Port = header.Port is { } port ? _options.PortName(port) : null,
            InUse = [.. header.InUse.Select(_options.PortName)],
            AttachOrder = [.. header.AttachOrder.Select(_options.PortName)],
            Ports = [.. header.Ports.Select(_options.PortName)],
        };
        _context.Header = header;
        _context.Track.OnHeader(header);
        _context.Port = _options.Port ?? header.Port ?? "";
        if (_options.Arrangement.IsEmpty)
        {
            bool isOrder = !header.AttachOrder.IsEmpty;
            _context.Arrangement.Begin(isOrder ? header.AttachOrder : header.InUse, isOrder, isComplete: !header.Ports.IsEmpty);
        }

        _context.Facts.OnHeader(header);
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
        HeardMessage heard = HeardMessage.Of(record, view, _messages, crcOk);
        _context.Track.OnMessage(heard);
        string meaning = crcOk == false ? MessageMeaning.WrongCrc : _meanings.Find(record, view, _context.Contracts.InForce);
        _chunkFaults = [];
        if (crcOk == false)
        {
            _timeline.OnBadMessage(record, view, _messages);
        }
        else
        {
            _timeline.OnMessage(record, view, _messages, meaning);
            heard.Block = Learn(record, heard);
        }

        heard.ChunkFaults = _chunkFaults;
        foreach (ICaptureFollower follower in heard.Kind == MessageKind.GoodCRC ? _hearingGoodCrcs : _followers)
        {
            follower.OnMessage(heard);
        }

        _options.OnMessage?.Invoke(MessageMeaning.Summarise(_messages, record, view, crcOk, meaning));
    }

    void ICaptureSink.OnSignal(SignalRecord signal)
    {
        _timeline.OnSignal(signal);
        BreakOffBlocks();
        foreach (ICaptureFollower follower in _followers)
        {
            follower.BeforeSignal(signal);
        }

        _context.Track.OnSignal(signal);
        if (signal.Kind == SignalKind.HardReset)
        {
            _context.Contracts.OnHardReset(signal.TimeUs);
        }

        foreach (ICaptureFollower follower in _followers)
        {
            follower.OnSignal(signal);
        }
    }

    void ICaptureSink.OnBrokenFrame(BrokenFrameRecord frame)
    {
        ((ICaptureSink)this).OnFault(BrokenFrames.ToFault(frame));
        _timeline.OnBrokenFrame(frame);
        _context.Track.OnBrokenFrame(frame);
        foreach (ICaptureFollower follower in _followers)
        {
            follower.OnBrokenFrame(frame);
        }
    }

    void ICaptureSink.OnMeasurement(MeasurementRecord measurement)
    {
        foreach (ICaptureFollower follower in _followers)
        {
            follower.OnMeasurement(measurement);
        }
    }

    void ICaptureSink.OnEvent(EventRecord happened)
    {
        happened = happened with { Port = happened.Port is { } named ? _options.PortName(named) : null };
        _timeline.OnEvent(happened);
        bool other = happened.Port is { } port && !PortNames.Same(port, _context.Port);
        if (!other)
        {
            // Followers know the port by one name only.
            happened = happened with { Port = happened.Port is null ? null : _context.Port };
            _context.Track.OnEvent(happened);
        }

        if (happened.Name == CaptureEvents.Attach && other)
        {
            _context.Arrangement.Attach(happened.Port!, _context.Port, happened.TimeUs);
        }
        else if (happened.Name == CaptureEvents.Detach && other)
        {
            _context.Arrangement.Detach(happened.Port!, happened.TimeUs);
        }
        else if (happened.Name == CaptureEvents.Detach)
        {
            _context.Arrangement.Detach(_context.Port, happened.TimeUs);
            _context.Contracts.OnDetach(happened.TimeUs);
            _context.Lists.OnDetach();
        }
        else if (happened.Name == CaptureEvents.Attach)
        {
            _context.Arrangement.AttachOwn(_context.Port, happened.TimeUs);
        }

        foreach (ICaptureFollower follower in _followers)
        {
            follower.OnEvent(happened);
        }
    }

    void ICaptureSink.OnFault(CaptureFault fault)
    {
        if (_faults.Count < MaxFaults)
        {
            _faults.Add(fault);
        }
        else
        {
            _unlistedFaults++;
        }
    }

    // Takes in what a message says; gives the data block that it holds or completes.
    private DataBlock? Learn(in MessageRecord record, in HeardMessage heard)
    {
        _context.FindAt(record.TimeUs, _messages);
        foreach (MessageRule rule in _context.Rules.Messages)
        {
            rule.Check(heard, _context.Findings);
        }

        ref readonly MessageView view = ref heard.View;

        DataBlock? block = Assemble(record, view);
        Explain(record, view, block);
        if (view.Header.Kind == MessageKind.GoodCRC)
        {
            return null;
        }

        if (block is not null || view.ExtendedHeader is null)
        {
            _book.Learn(view, record.Sop, record.Known, block, _messages, record.TimeUs);
        }

        if (record.Sop != SopKind.Sop)
        {
            if (record.Known.IsEmpty && CableAnswer.Of(view, record.Sop)?.Evidence is { } marker)
            {
                _context.Facts.OnCable(marker);
            }
        }
        else if (view.Header.Kind.IsCapabilityList)
        {
            if (view.ExtendedHeader is null or { Chunked: false } || block is not null)
            {
                int count = block is null
                    ? CapabilityChecker.ReadObjects(view, record.Known, _objects)
                    : CapabilityChecker.ReadObjects(new EprCapabilitiesBlock(block), _objects);
                _context.Lists.Learn(record.TimeUs, _messages, view.Header, heard.HeaderKnown, _objects.AsSpan(0, count));
            }
        }
        else
        {
            LearnFacts(record, view, block);
            _context.Contracts.OnMessage(view, record.Known, _messages, record.TimeUs);
        }

        return block;
    }

    // The block that a message completes, or what there is of one that broke.
    private DataBlock? Assemble(in MessageRecord record, in MessageView view)
    {
        if (_blocks.Add(record, view) is not { } result)
        {
            return null;
        }

        Report(result, record.Line);
        if (result.BrokenOff is { Block: { } part } broken && record.Sop == SopKind.Sop && broken.Kind.IsCapabilityList)
        {
            MessageHeader header = MessageHeader.Create(broken.Kind, 0, 0, false, false, 0);
            int count = CapabilityChecker.ReadObjects(new EprCapabilitiesBlock(part), _objects);
            _context.Lists.Learn(record.TimeUs, _messages, header, OnlyKindKnown, _objects.AsSpan(0, count));
        }

        return result.Outcome is ChunkOutcome.Complete or ChunkOutcome.Broken ? result.Block : null;
    }

    private void Report(ChunkResult result, long line)
    {
        _chunkFaults = result.Faults;

        // As it is with nearly every message.
        if (result.Faults.IsEmpty && result.BrokenOff is null)
        {
            return;
        }

        // What a sender did is a rule's matter.
        foreach (ChunkFault fault in result.Faults.Concat(result.BrokenOff?.Faults ?? []).Where(fault => !ChunkMissing.IsOfSender(fault.Code)))
        {
            ((ICaptureSink)this).OnFault(new CaptureFault(
                line, 0, AnalysisFaultCodes.ChunksFaulty, $"message {_messages}: {fault.Text}"));
        }
    }

    private void BreakOffBlocks()
    {
        foreach (ChunkResult result in _blocks.BreakOff())
        {
            Report(result, 0);
        }
    }

    private void Explain(in MessageRecord record, in MessageView view, DataBlock? block)
    {
        if (_messages != _options.ExplainIndex)
        {
            return;
        }

        SourcePowerObject? selected = view.CompleteObjects > 0
            ? RequestReading.SelectedBy(new RequestObject(view.ObjectAt(0)), _context.Contracts.InForce)?.AsSource()
            : null;
        _explanation = new ExplainedMessage(
            _messages, view.Header.Kind.Name, Explanation.Of(view, record.Sop, record.Known, block, selected));
    }

    private void LearnFacts(in MessageRecord record, in MessageView view, DataBlock? block)
    {
        if (!_context.Role.IsCertain || _context.Role.IsPartners(view.Header, HeardMessage.HeaderKnownOf(record)))
        {
            return;
        }

        if (block is not null && view.Header.Kind == MessageKind.SourceCapabilitiesExtended)
        {
            _context.Facts.OnExtended(new SourceCapabilitiesExtendedBlock(block));
        }
        else if (view.CompleteObjects == 0 || !record.Known.IsEmpty)
        {
            return;
        }
        else if (view.Header.Kind == MessageKind.Revision)
        {
            _context.Facts.OnRevision(new RevisionObject(view.ObjectAt(0)));
        }
        else if (view.Header.Kind == MessageKind.SourceInfo)
        {
            _context.Facts.OnSourceInfo(new SourceInfoObject(view.ObjectAt(0)));
        }
    }
}
