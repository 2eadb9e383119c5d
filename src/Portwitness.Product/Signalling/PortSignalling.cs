using System.Collections.Immutable;
using Portwitness.Analysis;
using Portwitness.Analysis.Bench;
using Portwitness.Labels;

namespace Portwitness.Product.Signalling;

/// <summary>What one port was seen to answer to besides USB PD.</summary>
/// <param name="Port">The port, as the label names it where it does.</param>
/// <param name="Words">What it answers to, and what it was asked for without an answer.</param>
/// <param name="From">Captures that show it, and the product file.</param>
public sealed record PortSignalling(string Port, ImmutableArray<SignallingWord> Words, ImmutableArray<string> From)
{
    /// <summary>What ports answer to while they are alone in use, or as the product file states.</summary>
    public static ImmutableArray<PortSignalling> Of(
        IReadOnlyList<(string Port, string Word)> stated, string productFile, IReadOnlyList<CaptureAnalysis> captures, Func<string, string> named)
    {
        List<PortSignalling> ports = [];
        foreach ((string port, string word) in stated)
        {
            Add(ports, named(port), word, productFile);
        }

        foreach (CaptureAnalysis capture in captures)
        {
            // Beside others a port may answer to less, and its label speaks of it alone.
            foreach (PortSignal seen in capture.Bench.Signals.Where(signal => signal.InUse.All(used => PortNames.Same(used, signal.Port))))
            {
                Add(ports, named(seen.Port), seen.Word, capture.File);
            }
        }

        return [.. ports];
    }

    private static void Add(List<PortSignalling> ports, string port, string text, string from)
    {
        if (SignallingWord.Read(text) is not { } word)
        {
            return;
        }

        int at = ports.FindIndex(known => PortNames.Same(known.Port, port));
        if (at < 0)
        {
            ports.Add(new PortSignalling(port, [word], [from]));
            return;
        }

        PortSignalling known = ports[at];
        ports[at] = known with
        {
            Words = known.Words.Contains(word) ? known.Words : known.Words.Add(word),
            From = known.From.Contains(from) ? known.From : known.From.Add(from),
        };
    }
}
