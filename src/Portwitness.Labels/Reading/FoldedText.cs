namespace Portwitness.Labels;

/// <summary>
/// A label's text with each character replaced by the plain one that means the same, and for each of these the index of the
/// printed character it came from. One printed character may become two ("㎃" is "mA"); none becomes nothing.
/// </summary>
internal sealed class FoldedText
{
    private readonly char[] _characters;
    private readonly int[] _sources;

    private FoldedText(string printed, char[] characters, int[] sources, int length) =>
        (Printed, _characters, _sources, Length) = (printed, characters, sources, length);

    /// <summary>The text as given.</summary>
    public string Printed { get; }

    /// <summary>Number of folded characters.</summary>
    public int Length { get; }

    /// <summary>The folded character, or NUL at and after the end.</summary>
    public char this[int index] => index < Length ? _characters[index] : '\0';

    /// <summary>A part of the folded text.</summary>
    public ReadOnlySpan<char> Slice(int start, int end) => _characters.AsSpan(start, end - start);

    /// <summary>Index in <see cref="Printed"/> of the character that this one came from.</summary>
    public int SourceStart(int index) => _sources[index];

    /// <summary>Index in <see cref="Printed"/> after the character that this one came from.</summary>
    public int SourceEnd(int index) => _sources[index] + 1;

    public static FoldedText Of(string printed)
    {
        int capacity = printed.Length;
        foreach (char c in printed)
        {
            capacity += c < Folding.FirstFolded ? 0 : Folding.Expand(c)?.Length - 1 ?? 0;
        }

        char[] characters = new char[capacity];
        int[] sources = new int[capacity];
        int length = 0;
        for (int source = 0; source < printed.Length; source++)
        {
            char c = printed[source];
            string? several = c < Folding.FirstFolded ? null : Folding.Expand(c);
            for (int i = 0; i < (several?.Length ?? 1); i++, length++)
            {
                characters[length] = several is null ? Folding.Fold(c) : several[i];
                sources[length] = source;
            }
        }

        return new FoldedText(printed, characters, sources, length);
    }
}
