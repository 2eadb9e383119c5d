using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.Captures.JsonLines;

namespace Portwitness.Synthesis;

/// <summary>Writes the capture that a script describes. The same script always gives the same bytes.</summary>
public static class Synthesizer
{
    private const int PieceBytes = 32 * 1024;

    /// <summary>
    /// The capture in pieces, of whole lines in the open format, written while they are asked for: memory does not grow with
    /// the capture. A piece is valid until the next one is asked for.
    /// </summary>
    /// <param name="script">The script.</param>
    /// <param name="open">Begins the capture in another format; null for the open format. Whoever gives it keeps the writer.</param>
    /// <exception cref="ArgumentException">The script has faults.</exception>
    public static IEnumerable<ReadOnlyMemory<byte>> Write(SynthesisScript script, Func<Stream, ICaptureWriter>? open = null)
    {
        ArgumentNullException.ThrowIfNull(script);
        return script.Faults.IsEmpty
            ? Pieces(script, open ?? (static stream => new CaptureWriter(stream)))
            : throw new ArgumentException("A script with faults writes nothing; report them instead.", nameof(script));
    }

    private static IEnumerable<ReadOnlyMemory<byte>> Pieces(SynthesisScript script, Func<Stream, ICaptureWriter> open)
    {
        using MemoryStream piece = new(2 * PieceBytes);
        using (ICaptureWriter writer = open(piece))
        {
            foreach (bool _ in Play(script.Steps, new Dialogue(script, writer)))
            {
                if (piece.Length >= PieceBytes)
                {
                    yield return piece.GetBuffer().AsMemory(0, (int)piece.Length);
                    piece.SetLength(0);
                }
            }
        }

        yield return piece.GetBuffer().AsMemory(0, (int)piece.Length);
    }

    // One element for each step that was taken, so that the caller can write in between.
    private static IEnumerable<bool> Play(ImmutableArray<Step> steps, Dialogue dialogue)
    {
        foreach (Step step in steps)
        {
            if (step is SingleStep single)
            {
                dialogue.Play(single);
                yield return true;
                continue;
            }

            RepeatStep repeat = (RepeatStep)step;
            for (long round = 0; round < repeat.Times.Count; round++)
            {
                long began = dialogue.NowUs;
                foreach (bool taken in Play(repeat.Body, dialogue))
                {
                    yield return taken;
                }

                if (repeat.Times.PeriodUs is { } period)
                {
                    dialogue.GoTo(began + period);
                }
            }
        }
    }
}
