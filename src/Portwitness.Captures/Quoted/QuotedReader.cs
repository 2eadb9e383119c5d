using Portwitness.Captures.Input;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Captures.Quoted;

/// <summary>
/// Reads capability lists out of a text in which somebody quotes them: words as "obj0=0x0801912C", "[0] 0801912C" or "{ 0x0801912C, ... }",
/// bytes, or lines of the kernel's log without the line of their message. Nothing says that a list is whole: what is cut is not known.
/// </summary>
internal sealed class QuotedReader(ICaptureSink sink, FaultLog faults, QuotedForm? stated) : ILineReader
{
    /// <summary>Name of the format.</summary>
    public const string Format = "quoted";

    private const int MaxLists = 64;

    private readonly QuotedText _text = new();
    private bool _isFull;

    /// <summary>Whether the first bytes of a text have such a list.</summary>
    public static bool IsLikely(ReadOnlySpan<byte> start)
    {
        QuotedText text = new();
        foreach (Range line in start.Split((byte)'\n'))
        {
            text.Add(1, start[line]);
        }

        QuotedScanner scanner = new(text, QuotedForm.Words, isStated: false, faults: null);
        return scanner.Scan().Count > 0 && scanner.FoundCertain;
    }

    /// <inheritdoc/>
    public void Read(long line, ReadOnlySpan<byte> text)
    {
        if (!_isFull && !_text.Add(line, text))
        {
            _isFull = true;
            faults.Report(line, 1, FaultCodes.QuotedUnread, FaultText.QuotedTooLong);
        }
    }

    /// <inheritdoc/>
    public void Skipped(long line)
    {
        // The fault of the line says so; no list is taken for whole in any case.
    }

    /// <inheritdoc/>
    public void Complete()
    {
        sink.OnHeader(new CaptureHeader { Format = Format, ListsMayBeCut = true });
        int handed = 0;
        foreach (List<QuotedObject> list in QuotedLists.Cut(new QuotedScanner(_text, stated ?? QuotedForm.Words, stated is not null, faults).Scan()))
        {
            if (stated is null && list[0].Index is null && !QuotedLists.IsSafe5V(list[0].Coded))
            {
                faults.Report(list[0].Line, 1, FaultCodes.QuotedUnread, FaultText.QuotedWithout5V);
            }
            else if (list.Count > MessageLimits.MaxExtendedObjects || handed == MaxLists)
            {
                faults.Report(list[0].Line, 1, FaultCodes.QuotedUnread, FaultText.QuotedTooMany);
                break;
            }
            else
            {
                QuotedLists.HandTo(sink, list[0].Line, QuotedLists.Place(list));
                handed++;
            }
        }

        if (handed == 0)
        {
            faults.Report(1, 1, FaultCodes.Empty, FaultText.QuotedWithoutOne);
        }
    }
}
