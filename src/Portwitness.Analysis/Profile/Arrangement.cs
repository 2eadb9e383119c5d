using System.Collections.Immutable;
using Portwitness.Labels;

namespace Portwitness.Analysis.Profile;

/// <summary>Which ports are in use from one moment of a capture on.</summary>
/// <param name="FromUs">Microseconds from the start of the capture.</param>
/// <param name="InUse">In attach order; empty when not known.</param>
/// <param name="OrderKnown">Whether the order is that in which they were attached.</param>
public sealed record ArrangementSpan(long FromUs, ImmutableArray<string> InUse, bool OrderKnown);

/// <summary>Which ports are in use, as stated at the start and as attach and detach events change it.</summary>
internal sealed class Arrangement
{
    /// <summary>Changes that are kept; of later ones the last takes the last place.</summary>
    public const int Most = 1000;

    private readonly List<ArrangementSpan> _spans = [new(0, [], true)];
    private bool _isStated;

    /// <summary>In attach order; empty when not known.</summary>
    public ImmutableArray<string> InUse => _spans[^1].InUse;

    /// <summary>Whether the order is that in which the ports were attached.</summary>
    public bool OrderKnown => _spans[^1].OrderKnown;

    /// <summary>From the beginning on, in order.</summary>
    public IReadOnlyList<ArrangementSpan> Spans => _spans;

    /// <summary>Changes beyond <see cref="Most"/>.</summary>
    public long Unlisted { get; private set; }

    /// <summary>What is stated for the start of the capture.</summary>
    /// <param name="inUse">The ports.</param>
    /// <param name="isOrder">Whether they stand in attach order.</param>
    /// <param name="isComplete">Whether no port means that none is in use, not that it is unknown.</param>
    public void Begin(ImmutableArray<string> inUse, bool isOrder, bool isComplete = false)
    {
        _spans[0] = new ArrangementSpan(0, inUse, isOrder || inUse.Length <= 1);
        _isStated = isComplete || !inUse.IsEmpty;
    }

    /// <summary>Another port was attached. Where nothing was stated, the captured one was in use before.</summary>
    public void Attach(string port, string capturedPort, long timeUs)
    {
        ImmutableArray<string> before = !_isStated && InUse.IsEmpty && capturedPort.Length > 0 ? [capturedPort] : InUse;
        _isStated = true;
        Change(Has(before, port) ? before : before.Add(port), timeUs);
    }

    /// <summary>Something was attached to the captured port. A port that is in use as stated keeps its place.</summary>
    public void AttachOwn(string port, long timeUs)
    {
        if (_isStated && !Has(InUse, port))
        {
            Change(InUse.Add(port), timeUs);
        }
    }

    /// <summary>A port was detached, the captured one or another.</summary>
    public void Detach(string port, long timeUs) => Change([.. InUse.Where(used => !PortNames.Same(used, port))], timeUs);

    private void Change(ImmutableArray<string> inUse, long timeUs)
    {
        if (inUse.SequenceEqual(InUse))
        {
            return;
        }

        ArrangementSpan span = new(timeUs, inUse, OrderKnown || inUse.Length <= 1);
        if (_spans.Count < Most)
        {
            _spans.Add(span);
            return;
        }

        Unlisted++;
        _spans[^1] = span;
    }

    private static bool Has(ImmutableArray<string> inUse, string port) => inUse.Any(used => PortNames.Same(used, port));
}
