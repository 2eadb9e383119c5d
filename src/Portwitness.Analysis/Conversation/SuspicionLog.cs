using System.Runtime.InteropServices;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Rules;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Analysis.Conversation;

/// <summary>
/// Keeps what looks wrong until the capture has ended. Where the capture misses messages, what is near may be their
/// absence: it is never told as a fault.
/// </summary>
internal sealed class SuspicionLog(CaptureContext context) : ISuspicionSink
{
    /// <summary>Suspicions that are kept of one rule and party, certain or not; more of the same tell nothing new.</summary>
    public const int MaxPerRule = 100;

    // An instrument that loses one message in so many may have lost any. Common practice, no source.
    private const int LossyBeyond = 100;

    private readonly List<Suspicion> _all = [];

    // Those that a loss still to come may reach back to, by the end of what they rest on.
    private readonly List<Suspicion> _reachable = [];
    private readonly Dictionary<(Rule Rule, Party Party, bool IsOpen), int> _counts = [];
    private readonly List<Suspicion>[] _waiting = [.. Enumerable.Range(0, 10).Select(_ => new List<Suspicion>())];
    private long _lostUs = long.MinValue / 2;
    private long _lost;

    /// <summary>Whether the next MessageID of a link is known: only then does a message that was missed show as a gap.</summary>
    public required Func<SopKind, bool, bool> KnowsNext { get; init; }

    /// <inheritdoc/>
    public bool Wants(Rule rule, Party party, long fromUs) =>
        !_counts.TryGetValue((rule, party, MissesAfter(fromUs)), out int count) || count < MaxPerRule;

    /// <inheritdoc/>
    public void Add(Suspicion suspicion)
    {
        suspicion.IsProven &= suspicion.Awaits is not { } awaited || KnowsNext(awaited.Sop, awaited.FromSourceOrPlug);
        suspicion.IsDoubtful = !suspicion.ShowsItself && MissesAfter(suspicion.FromUs);
        bool isOpen = suspicion.IsDoubtful || !suspicion.IsProven;
        ref int count = ref CollectionsMarshal.GetValueRefOrAddDefault(_counts, (suspicion.Rule, suspicion.Party, isOpen), out _);
        if (count == MaxPerRule)
        {
            return;
        }

        count++;
        suspicion.InUse = context.Arrangement.InUse;
        if (suspicion.Awaits is { } link)
        {
            _waiting[LinkOf(link)].Add(suspicion);
        }

        _all.Add(suspicion);
        if (!suspicion.IsDoubtful && !suspicion.ShowsItself)
        {
            Insert(suspicion);
        }
    }

    /// <inheritdoc/>
    public void Report(Rule rule, in Hit hit, long timeUs, long messageIndex)
    {
        context.FindAt(timeUs, messageIndex);
        context.Findings.Report(rule, hit);
    }

    /// <summary>The capture misses something: what rests on that time is in doubt, whenever it was suspected.</summary>
    public void Lose(in Loss loss)
    {
        _lostUs = Math.Max(_lostUs, loss.TimeUs);
        _lost += Math.Max(loss.Count, 1);
        while (_reachable is [.., { } last] && last.UntilUs >= loss.SinceUs)
        {
            last.IsDoubtful = true;
            _reachable.RemoveAt(_reachable.Count - 1);
        }
    }

    /// <summary>A link went on without a gap.</summary>
    public void Confirm(SopKind sop, bool fromSourceOrPlug)
    {
        List<Suspicion> waiting = _waiting[LinkOf((sop, fromSourceOrPlug))];
        foreach (Suspicion suspicion in waiting)
        {
            suspicion.Awaits = null;
        }

        waiting.Clear();
    }

    /// <summary>A link's counter began anew: what awaits it is never confirmed.</summary>
    public void Forget(SopKind sop, bool fromSourceOrPlug) => _waiting[LinkOf((sop, fromSourceOrPlug))].Clear();

    /// <summary>Settles all.</summary>
    /// <param name="messages">Messages of the capture.</param>
    /// <param name="timesAreOfSoftware">Times come from software, not from an instrument.</param>
    public void Complete(long messages, bool timesAreOfSoftware)
    {
        if (_lost * LossyBeyond > messages)
        {
            _all.ForEach(static suspicion => suspicion.IsDoubtful |= !suspicion.ShowsItself);
        }

        SourceEvidence evidence = context.Facts.EvidenceFor(context.Arrangement.InUse, fromSource: true);
        List<(Suspicion Suspicion, Verdict Verdict)> settled = [];
        foreach (Suspicion suspicion in _all)
        {
            bool isUnproven = !suspicion.IsProven || suspicion.IsDoubtful || suspicion.Awaits is not null;
            bool isOpen = isUnproven || timesAreOfSoftware || suspicion.Party == Party.Unsure;
            Verdict? verdict = suspicion.Settle is { } settle ? settle(evidence) : evidence.Settle(suspicion.WrongUnder);
            if (verdict is not null && !(isUnproven && suspicion.IsSilentWhenOpen))
            {
                settled.Add((suspicion, isOpen ? Verdict.CannotTell : verdict.Value));
            }
        }

        Dictionary<(Verdict, Rule, Party, (string, string, bool)), Suspicion> worst = [];
        foreach ((Suspicion suspicion, Verdict verdict) in settled)
        {
            if (GroupOf(suspicion, verdict) is { } group && (!worst.TryGetValue(group, out Suspicion? other) || suspicion.Excess > other.Excess))
            {
                worst[group] = suspicion;
            }
        }

        foreach ((Suspicion suspicion, Verdict verdict) in settled)
        {
            Report(GroupOf(suspicion, verdict) is { } group ? worst[group] : suspicion, verdict);
        }
    }

    private static (Verdict, Rule, Party, (string, string, bool))? GroupOf(Suspicion suspicion, Verdict verdict) =>
        suspicion.Group is { } group ? (verdict, suspicion.Rule, suspicion.Party, group) : null;

    private static int LinkOf((SopKind Sop, bool FromSourceOrPlug) link) => ((int)link.Sop * 2) + (link.FromSourceOrPlug ? 1 : 0);

    private bool MissesAfter(long timeUs) => timeUs <= _lostUs;

    // They come in order, nearly.
    private void Insert(Suspicion suspicion)
    {
        int at = _reachable.Count;
        while (at > 0 && _reachable[at - 1].UntilUs > suspicion.UntilUs)
        {
            at--;
        }

        _reachable.Insert(at, suspicion);
    }

    // What the test device or the cable did is worth a note when it is certain; it is no fault of the product.
    private void Report(Suspicion suspicion, Verdict verdict)
    {
        bool isOfProduct = suspicion.Party is Party.Source or Party.Unsure;
        if (!isOfProduct && verdict != Verdict.Fails)
        {
            return;
        }

        context.FindAt(suspicion.TimeUs, suspicion.MessageIndex, suspicion.InUse);
        Hit hit = suspicion.Hit with { Verdict = verdict, IsNote = !isOfProduct };
        if (isOfProduct && verdict == Verdict.CannotTell)
        {
            hit = hit with
            {
                Detail = hit.Detail + Doubt(suspicion),
                NextStep = hit.NextStep ?? NextStep(suspicion),
            };
        }

        context.Findings.Report(suspicion.Rule, hit);
    }

    private static string Doubt(Suspicion suspicion) =>
        suspicion.IsDoubtful ? " The capture misses messages near here; what is missed may be among them."
        : suspicion.Awaits is not null ? " The capture ends, or a reset comes, before it shows that nothing was missed."
        : MayBeLostAttempts(suspicion) ? " Attempts that the capture misses may account for it."
        : suspicion.Party == Party.Unsure ? " The capture does not show which of the ports it was."
        : "";

    private static string NextStep(Suspicion suspicion) =>
        suspicion.IsDoubtful || suspicion.Awaits is not null || !suspicion.IsProven || MayBeLostAttempts(suspicion)
            ? "Capture this again with an instrument that records every message and GoodCRC."
            : SourceEvidence.EditionNextStep;

    private static bool MayBeLostAttempts(Suspicion suspicion) => suspicion.MayBeLostAttempts?.Invoke() == true;
}
