namespace Portwitness.Labels;

/// <summary>
/// A label's text with each character replaced by the plain one that means the same, and for each of these the printed
/// characters it came from. One printed character may become two ("㎃" is "mA"), a letter and its accent become one; none
/// becomes nothing.
/// </summary>
internal sealed class FoldedText
{
    private readonly char[] _characters;
    private readonly int[] _starts;
    private readonly int[] _ends;
    private readonly List<Range>? _spaced;

    private FoldedText(string printed, int capacity) =>
        (Printed, _characters, _starts, _ends, _spaced) =
            (printed, new char[capacity], new int[capacity], new int[capacity], SpacedLetters.Lines(printed));

    /// <summary>The text as given.</summary>
    public string Printed { get; }

    /// <summary>Number of folded characters.</summary>
    public int Length { get; private set; }

    /// <summary>What was read differently than it is printed.</summary>
    public List<Repair> Repairs { get; } = [];

    /// <summary>Parts of <see cref="Printed"/> of which the lines are read together: tables, and ratings over several lines.</summary>
    public List<Range> Together { get; } = [];

    /// <summary>How often one character was looked at: what reading costs, as tests bound it.</summary>
    public long Looks { get; private set; }

    /// <summary>The folded character, or NUL at and after the end.</summary>
    public char this[int index]
    {
        get
        {
            Looks++;
            return index < Length ? _characters[index] : '\0';
        }
    }

    /// <summary>A part of the folded text.</summary>
    public ReadOnlySpan<char> Slice(int start, int end)
    {
        Looks += end - start;
        return _characters.AsSpan(start, end - start);
    }

    /// <summary>Index in <see cref="Printed"/> of the first character that this one came from.</summary>
    public int SourceStart(int index) => _starts[index];

    /// <summary>Index in <see cref="Printed"/> after the last character that this one came from.</summary>
    public int SourceEnd(int index) => _ends[index];

    /// <summary>Folds a text; the corrections, in order and apart from each other, stand for what is printed there.</summary>
    public static FoldedText Of(string printed, params ReadOnlySpan<Repair> corrections)
    {
        FoldedText text = new(printed, Capacity(printed, corrections));
        int source = 0;
        foreach (Repair correction in corrections)
        {
            text.Fold(source, correction.Start);
            foreach (char c in correction.After)
            {
                text.Add(Folding.Fold(c), correction.Start, correction.End);
            }

            text.Repairs.Add(correction);
            source = correction.End;
        }

        text.Fold(source, printed.Length);
        return text;
    }

    /// <summary>Reads some characters as others, and notes it.</summary>
    public void Replace(int start, ReadOnlySpan<char> characters, RepairKind kind, int reportStart, int reportEnd)
    {
        characters.CopyTo(_characters.AsSpan(start));
        Repairs.Add(new Repair(kind, _starts[reportStart], _ends[reportEnd - 1], Slice(reportStart, reportEnd).ToString()));
    }

    private static int Capacity(string printed, ReadOnlySpan<Repair> corrections)
    {
        int capacity = printed.Length;
        foreach (char c in printed)
        {
            capacity += c < Folding.FirstFolded ? 0 : Folding.Expand(c)?.Length - 1 ?? 0;
        }

        foreach (Repair correction in corrections)
        {
            capacity += correction.After.Length;
        }

        return capacity;
    }

    private void Fold(int from, int to)
    {
        for (int source = from; source < to; source++)
        {
            char c = Printed[source];
            if (c == ' ' && _spaced is not null && SpacedLetters.IsBetween(_spaced, Printed, source))
            {
                continue;
            }

            if (c < Folding.FirstFolded && (source + 1 >= to || Printed[source + 1] < Folding.FirstFolded))
            {
                Add(c, source, source + 1);
            }
            else if (source + 1 < to && Folding.Compose(c, Printed[source + 1]) is { } composed)
            {
                Add(composed, source, source + 2);
                source++;
            }
            else if (char.IsHighSurrogate(c) && source + 1 < to && char.IsLowSurrogate(Printed[source + 1])
                && Compatibility.OfMathematical(char.ConvertToUtf32(c, Printed[source + 1])) is { } plain)
            {
                Add(plain, source, source + 2);
                source++;
            }
            else if (Folding.Expand(c) is { } several)
            {
                foreach (char one in several)
                {
                    Add(Folding.Fold(one), source, source + 1);
                }
            }
            else
            {
                Add(Folding.Fold(c), source, source + 1);
            }
        }
    }

    private void Add(char c, int start, int end)
    {
        (_characters[Length], _starts[Length], _ends[Length]) = (c, start, end);
        Length++;
    }
}
